#include "graph/chain_entries.hpp"

#include <algorithm>
#include <cmath>

namespace spadework::graph::chains {

namespace {

constexpr double kClearLack = 0.15;      ///< Of a hop; averaged flows are no more exact than that.
constexpr std::size_t kMostAtOnce = 8;   ///< Groups kept of one look.
constexpr std::size_t kMostAStop = 2;    ///< Groups kept in all, for each stop.
constexpr double kMostChainsInside = 5;  ///< Larger groups are not looked for.

}  // namespace

EntryGroups::EntryGroups(std::size_t stops, std::int32_t longest_chain) : stops_(stops), longest_(longest_chain) {}

void EntryGroups::find_more(const std::vector<double>& hop_flow) {
    std::vector<Group> found;
    for (std::size_t stop = 0; stop < stops_; ++stop) {
        Group group = group_around(stop, hop_flow);
        if (!group.stops.empty()) found.push_back(std::move(group));
    }
    std::stable_sort(found.begin(), found.end(), [](const Group& a, const Group& b) { return a.lack > b.lack; });
    std::size_t kept = 0;
    for (Group& group : found) {
        if (kept == kMostAtOnce || groups_.size() >= kMostAStop * stops_) return;
        if (knows(group)) continue;
        groups_.push_back(std::move(group));
        ++kept;
    }
}

/// Grows a group from one stop, always by the stop that most hops join it to: the one on the way that lacks most, or
/// none where nothing lacks clearly.
EntryGroups::Group EntryGroups::group_around(std::size_t stop, const std::vector<double>& hop_flow) const {
    const std::size_t row = stops_ + 1;
    std::vector<double> joined(stops_, 0.0);  // Hops between the stop and the group.
    std::vector<char> inside(stops_, 0);
    std::vector<std::int32_t> order;
    std::size_t best_size = 0;
    double most_lacking = kClearLack;
    double entering = 0.0;
    const auto most = std::min(stops_, static_cast<std::size_t>(kMostChainsInside * longest_));
    for (std::size_t next = stop; order.size() < most;) {
        for (std::size_t from = 0; from <= stops_; ++from)
            entering += hop_flow[next * row + from];
        entering -= joined[next];
        inside[next] = 1;
        order.push_back(static_cast<std::int32_t>(next));
        const double lack = std::ceil(static_cast<double>(order.size()) / longest_) - entering;
        if (lack > most_lacking) {
            most_lacking = lack;
            best_size = order.size();
        }
        const std::size_t added = next;
        next = stops_;
        for (std::size_t t = 0; t < stops_; ++t) {
            joined[t] += hop_flow[t * row + added] + hop_flow[added * row + t];
            if (!inside[t] && (next == stops_ || joined[t] > joined[next])) next = t;
        }
        if (next == stops_) break;
    }
    order.resize(best_size);
    return group_of(order, most_lacking);
}

EntryGroups::Group EntryGroups::group_of(const std::vector<std::int32_t>& stops, double lack) const {
    Group group{stops, std::vector<char>(stops_, 0), std::ceil(static_cast<double>(stops.size()) / longest_), lack};
    std::sort(group.stops.begin(), group.stops.end());
    for (const std::int32_t s : stops)
        group.inside[static_cast<std::size_t>(s)] = 1;
    return group;
}

bool EntryGroups::knows(const Group& group) const {
    return std::any_of(groups_.begin(), groups_.end(), [&](const Group& g) { return g.stops == group.stops; });
}

void EntryGroups::take_off(const std::vector<double>& prices, std::vector<double>& hop_costs) const {
    for (std::size_t g = 0; g < prices.size(); ++g) {
        if (prices[g] <= 0.0) continue;
        for (const std::int32_t to : groups_[g].stops) {
            double* const row = &hop_costs[static_cast<std::size_t>(to) * (stops_ + 1)];
            for (std::size_t from = 0; from < stops_; ++from)
                row[from] -= groups_[g].inside[from] ? 0.0 : prices[g];
            row[stops_] -= prices[g];
        }
    }
}

double EntryGroups::squared_step(const std::vector<double>& missing, const std::vector<double>& prices) {
    double squares = 0.0;
    for (std::size_t g = 0; g < missing.size(); ++g) {
        if (missing[g] > 0.0 || prices[g] > 0.0) squares += missing[g] * missing[g];
    }
    return squares;
}

void EntryGroups::step(const std::vector<double>& missing, double length, std::vector<double>& prices) {
    for (std::size_t g = 0; g < missing.size(); ++g)
        prices[g] = std::max(prices[g] + length * missing[g], 0.0);
}

double EntryGroups::worth(const std::vector<double>& prices) const {
    double sum = 0.0;
    for (std::size_t g = 0; g < prices.size(); ++g)
        sum += prices[g] * groups_[g].fewest;
    return sum;
}

std::vector<double> EntryGroups::missing(const std::vector<RouteHop>& hops) const {
    std::vector<double> missing;
    for (const Group& group : groups_) {
        missing.push_back(group.fewest);
        for (const RouteHop& hop : hops) {
            const bool from_inside = hop.from >= 0 && group.inside[static_cast<std::size_t>(hop.from)] != 0;
            if (group.inside[static_cast<std::size_t>(hop.to)] && !from_inside) missing.back() -= 1.0;
        }
    }
    return missing;
}

std::vector<double> EntryGroups::missing(const std::vector<double>& hop_flow) const {
    std::vector<double> missing;
    for (const Group& group : groups_) {
        double entering = 0.0;
        for (const std::int32_t to : group.stops) {
            const double* const row = &hop_flow[static_cast<std::size_t>(to) * (stops_ + 1)];
            for (std::size_t from = 0; from < stops_; ++from)
                entering += group.inside[from] ? 0.0 : row[from];
            entering += row[stops_];
        }
        missing.push_back(group.fewest - entering);
    }
    return missing;
}

}  // namespace spadework::graph::chains
