// Moves that better rings: hops led another way, links closed, stops taken out and put back.

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>

#include "graph/ring_search.hpp"

namespace spadework::graph::rings {

namespace {

constexpr std::size_t kMostRings = 3;   ///< Of so many at most some stops in a row are taken out together, ...
constexpr std::size_t kMostInARow = 5;  ///< ... of each no more than so many.
constexpr int kShakesFromBest = 100;
constexpr double kWarm = 1.0 / 150;  ///< Of the best: what steps at the beginning may be dearer by, more or less.
constexpr double kCooled = 0.02;     ///< What is left of that at the end.

/// The path or its reverse, always the same of the two.
LinkPath one_way_round(const LinkPath& path) {
    LinkPath same = path;
    if (!same.empty() && same.back() < same.front()) std::reverse(same.begin(), same.end());
    return same;
}

}  // namespace

/// Leads one hop another way where that is cheaper.
bool Search::reroute(std::size_t r, std::size_t h) {
    Round& round = rounds_[r];
    const Cost before = cost_;
    use(round.hops[h], -1);
    for (std::size_t other = 0; other < round.hops.size(); ++other) {
        if (other != h) ban(round.hops[other]);
    }
    auto path = one_way(end_before(round, h), end_after(round, h), before - cost_);
    for (const LinkPath& hop : round.hops)
        allow(hop);
    LinkPath old = std::move(round.hops[h]);
    round.hops[h] = path ? std::move(*path) : old;
    use(round.hops[h], 1);
    if (cost_ < before) {
        round.fresh[h] = 1;
        return true;
    }
    use(round.hops[h], -1);
    round.hops[h] = std::move(old);
    use(round.hops[h], 1);
    return false;
}

bool Search::all_settled() const {
    return std::all_of(rounds_.begin(), rounds_.end(), [](const Round& round) { return round.settled(); });
}

void Search::improve() {
    while (!stop_->reached() && !all_settled()) {
        const std::vector<std::int32_t> links = links_worth_closing();
        for (std::size_t r = 0; r < rounds_.size(); ++r) {
            if (rounds_[r].settled()) continue;
            std::fill(rounds_[r].fresh.begin(), rounds_[r].fresh.end(), 0);
            for (std::size_t h = 0; h < rounds_[r].hops.size() && !stop_->reached(); ++h)
                reroute(r, h);
        }
        for (const std::int32_t link : links) {
            if (!stop_->reached()) close(link);
        }
    }
}

std::vector<std::int32_t> Search::by_distance_from(std::int32_t centre) const {
    std::vector<std::int32_t> near(network_.stops.size());
    std::iota(near.begin(), near.end(), 0);
    std::stable_sort(near.begin(), near.end(),
                     [&](std::int32_t a, std::int32_t b) { return apart(centre, a) < apart(centre, b); });
    return near;
}

/// Any, but half of the time one at a hop that is too long where there are such hops.
std::int32_t Search::stop_to_begin_at() {
    const std::vector<std::int32_t> at_long_hops = stops_at_long_hops();
    if (!at_long_hops.empty() && random_() % 2 == 0) return at_long_hops[random_() % at_long_hops.size()];
    return static_cast<std::int32_t>(random_() % network_.stops.size());
}

/// So many stops of a round in a row at most, that at `at` among them.
Search::Row Search::some_in_a_row(std::size_t round, std::size_t at) {
    const std::size_t all = rounds_[round].stops.size();
    const std::size_t length = std::min<std::size_t>(all, 1 + random_() % kMostInARow);
    const std::size_t earliest = at + 1 >= length ? at + 1 - length : 0;
    const std::size_t latest = std::min(at, all - length);
    return {round, earliest + random_() % (latest - earliest + 1), length};
}

/// Stops in a row of the rings that come nearest to some stop (after Christiaens and Vanden Berghe, "Slack induction by
/// string removals for vehicle routing problems", Transportation Science 54, 2020).
std::vector<Search::Row> Search::rows_to_move() {
    const std::vector<std::int32_t> near = by_distance_from(stop_to_begin_at());
    std::size_t rings = std::min<std::size_t>(rounds_.size(), 1 + random_() % kMostRings);
    std::vector<char> touched(rounds_.size(), 0);
    std::vector<Row> rows;
    for (auto stop = near.begin(); stop != near.end() && rings > 0; ++stop) {
        for (std::size_t r = 0; r < rounds_.size(); ++r) {
            const auto& stops = rounds_[r].stops;
            const auto found = std::find(stops.begin(), stops.end(), *stop);
            if (found == stops.end() || touched[r] != 0) continue;
            touched[r] = 1;
            --rings;
            rows.push_back(some_in_a_row(r, static_cast<std::size_t>(found - stops.begin())));
        }
    }
    return rows;
}

/// The stops taken out, in random order.
std::vector<std::int32_t> Search::take_out_some() {
    std::vector<std::int32_t> some;
    for (const Row& row : rows_to_move()) {
        const auto first = rounds_[row.round].stops.begin() + static_cast<std::ptrdiff_t>(row.first);
        const std::vector<std::int32_t> stops(first, first + static_cast<std::ptrdiff_t>(row.count));
        if (take_out(row)) some.insert(some.end(), stops.begin(), stops.end());
    }
    std::erase_if(rounds_, [](const Round& round) { return round.stops.empty(); });
    for (std::size_t i = some.size(); i > 1; --i)
        std::swap(some[i - 1], some[random_() % i]);
    return some;
}

/// Gives up, with some left out, once it costs too much.
bool Search::put_in_all(const std::vector<std::int32_t>& stops, Cost below) {
    for (const std::int32_t stop : stops) {
        if (cost_ >= below) return false;
        put_in(stop);
    }
    return cost_ < below;
}

/// Hops of such rounds are fresh no longer: they were tried there, and nothing but other rings has changed about them.
void Search::settle_what_was(const Rounds& rounds) {
    std::vector<LinkPath> paths;
    for (const Round& round : rounds) {
        for (std::size_t h = 0; h < round.hops.size(); ++h) {
            if (round.fresh[h] == 0) paths.push_back(one_way_round(round.hops[h]));
        }
    }
    std::sort(paths.begin(), paths.end());
    for (Round& round : rounds_) {
        for (std::size_t h = 0; h < round.hops.size(); ++h) {
            if (round.fresh[h] == 0) continue;
            round.fresh[h] = !std::binary_search(paths.begin(), paths.end(), one_way_round(round.hops[h]));
        }
    }
}

void Search::shake(int times) {
    if (network_.stops.empty()) return;
    Rounds best = rounds_;
    Cost least = cost_;
    Rounds current = rounds_;
    Cost now = cost_;
    for (int i = 0; i < times && !stop_->reached(); ++i) {
        if (i % kShakesFromBest == 0) {
            current = best;
            now = least;
        }
        start_from(current);
        const double warm = kWarm * std::pow(kCooled, static_cast<double>(i) / times) * static_cast<double>(least);
        const double chance = static_cast<double>(random_() % 1000000 + 1) / 1000001.0;
        const Cost below = now + static_cast<Cost>(-std::log(chance) * warm);
        if (!put_in_all(take_out_some(), below)) continue;
        settle_what_was(current);
        improve();
        if (cost_ < least) {
            least = cost_;
            best = rounds_;
        }
        if (cost_ < below) {
            current = rounds_;
            now = cost_;
        }
    }
    start_from(best);
    for (Round& round : rounds_)
        round.fresh.assign(round.hops.size(), 1);
    improve();
}

}  // namespace spadework::graph::rings
