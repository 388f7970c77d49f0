// How the prices of site sets are steered: whose ways are noted, and how much each counts.

#include <algorithm>
#include <cmath>
#include <numeric>

#include "graph/two_level_sets.hpp"

namespace spadework::graph::two_level {

namespace {

// Found by trial on generated site maps.
constexpr double kSmoothing = 0.001;  ///< Of the plan: a set so much higher counts a factor of e less.
constexpr double kLeastShare = 0.01;  ///< Of all ways: what counts less is left out.
constexpr double kAsDear = 0.03;      ///< Of an opening cost: arcs whose prices differ by less are as dear.

}  // namespace

double SiteSets::scale_of(Cost value) {
    return std::max(1.0, std::abs(static_cast<double>(value)));
}

/// Notes the ways of all demands and feeders under the sets, each the more the lower it lies now.
void SiteSets::follow(const std::vector<std::size_t>& sets, const std::vector<Cost>& now, Cost target) {
    const auto lowest = static_cast<std::size_t>(std::min_element(now.begin(), now.end()) - now.begin());
    lowest_sites_ = sets_[sets[lowest]].sites;
    const std::size_t source = even_.sites.size();
    std::vector<std::vector<double>> served(even_.demands.size(), std::vector<double>(source + 1, 0.0));
    std::vector<double> fed(network_.edges.size(), 0.0);  // By edge: how many of the feeders run there.
    double sum = 0.0;
    for (std::size_t i = 0; i < sets.size(); ++i) {
        const double above = static_cast<double>(now[i] - now[lowest]) / scale_of(target);
        const double weight = std::exp(-above / kSmoothing);
        const SiteSet& set = sets_[sets[i]];
        sum += weight;
        for (const std::vector<EdgeId>& way : pricing_.feeder_ways(set)) {
            for (const EdgeId e : way)
                fed[e] += weight / static_cast<double>(set.sites.size());
        }
        const std::vector<std::size_t> by = pricing_.served_by(set);
        for (std::size_t d = 0; d < by.size(); ++d)
            served[d][by[d] < set.sites.size() ? static_cast<std::size_t>(set.sites[by[d]]) : source] += weight;
    }
    for (std::size_t d = 0; d < served.size(); ++d)
        follow(d, served[d]);
    follow_feeders(fed, sum);
    descent_.judge(static_cast<double>(now[lowest]), static_cast<double>(lowest_bound(target)));
}

/// Notes the ways of one demand, as much of each as the site at its end (the source behind all sites) counts.
void SiteSets::follow(std::size_t demand, const std::vector<double>& served) {
    const double least = kLeastShare * std::accumulate(served.begin(), served.end(), 0.0);
    double sum = 0.0;
    for (const double weight : served)
        sum += weight > least ? weight : 0.0;
    std::vector<PurseUse>& ways = descent_.ways()[demand];
    ways.clear();
    for (std::size_t s = 0; s < served.size(); ++s) {
        if (served[s] <= least) continue;
        const auto site = s < even_.sites.size() ? static_cast<std::int32_t>(s) : -1;
        for (const Purse arc : service_.way(demand, site))
            ways.push_back({arc, static_cast<float>(served[s] / sum)});
    }
}

/// Notes the ways of the feeders, who all together pay as one behind the demands. They pay the less for an edge the
/// more demands pay for the dearer of its arcs, so that is where they need room.
void SiteSets::follow_feeders(const std::vector<double>& fed, double all) {
    std::vector<PurseUse>& ways = descent_.ways()[even_.demands.size()];
    ways.clear();
    for (std::size_t e = 0; e < fed.size(); ++e) {
        if (fed[e] <= kLeastShare * all) continue;
        const Cost dearer = spent_[2 * e] - spent_[2 * e + 1];
        const Cost as_dear = static_cast<Cost>(kAsDear * static_cast<double>(even_.opening[e]));
        const auto forwards = static_cast<Purse>(2 * e);
        const auto share = static_cast<float>(fed[e] / all);
        if (dearer >= -as_dear) ways.push_back({forwards, share});
        if (dearer <= as_dear) ways.push_back({forwards + 1, share});
    }
}

}  // namespace spadework::graph::two_level
