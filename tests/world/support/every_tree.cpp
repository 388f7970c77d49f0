#include "world/support/every_tree.hpp"

#include <algorithm>
#include <limits>
#include <utility>
#include <vector>

namespace spadework::own {

namespace {

constexpr Cents never = std::numeric_limits<Cents>::max() / 4;

/// The cheapest way of opening each segment.
std::vector<Cents> openings(const Scenario& site) {
    std::vector<Cents> cheapest;
    for (int s = 0; s < static_cast<int>(site.segments.size()); ++s) {
        Cents least = never;
        for (const OwnWay& way : ways(site, s))
            least = std::min(least, way.opening);
        cheapest.push_back(least);
    }
    return cheapest;
}

struct Terminal {
    PlaceIndex at = 0;
    Cents per_metre = 0;  ///< Of its cable.
};

/// For each place as the root, the least cost of openings and cable metres that serves every terminal.
std::vector<Cents> least_trees(const Scenario& site, const std::vector<Terminal>& terminals) {
    const std::size_t places = site.places.size();
    const std::vector<Cents> opening = openings(site);
    const unsigned all = (1U << terminals.size()) - 1;
    std::vector<std::vector<Cents>> least(all + 1, std::vector<Cents>(places, never));
    least[0].assign(places, 0);
    for (unsigned set = 1; set <= all; ++set) {
        std::vector<Cents>& here = least[set];
        Cents per_metre = 0;
        for (std::size_t t = 0; t < terminals.size(); ++t) {
            if ((set >> t & 1U) == 0) continue;
            per_metre += terminals[t].per_metre;
            if (set == 1U << t) here[static_cast<std::size_t>(terminals[t].at)] = 0;
        }
        for (unsigned part = (set - 1) & set; part > 0; part = (part - 1) & set) {
            for (std::size_t p = 0; p < places; ++p)
                here[p] = std::min(here[p], least[part][p] + least[set ^ part][p]);
        }
        for (bool changed = true; changed;) {
            changed = false;
            for (std::size_t s = 0; s < site.segments.size(); ++s) {
                const Segment& segment = site.segments[s];
                const Cents along = opening[s] + per_metre * (segment.length.millimetres() / 1000);
                for (const auto& [from, to] : {std::pair(segment.from, segment.to), {segment.to, segment.from}}) {
                    const Cents cost = here[static_cast<std::size_t>(from)] + along;
                    if (cost >= here[static_cast<std::size_t>(to)]) continue;
                    here[static_cast<std::size_t>(to)] = cost;
                    changed = true;
                }
            }
        }
    }
    return least[all];
}

Cents cost_over(const Scenario& site, int strands, int in_use, std::int64_t metres) {
    Run run;
    Segment stretch;
    stretch.length = Length::from_millimetres(metres * 1000);
    run.add(stretch, *ways(site, 0).front().method);
    return *cable(site, strands, in_use, run);
}

/// Cost a metre of route; what does not grow with it is cost_over(…, 0).
Cents per_metre(const Scenario& site, int strands, int in_use) {
    return cost_over(site, strands, in_use, 1) - cost_over(site, strands, in_use, 0);
}

/// Everything at the buildings and the hub, and both ends of every building's own cable.
struct Services {
    std::vector<Terminal> terminals;
    Cents fixed = 0;
    int in_use = 0;
    bool possible = true;
};

Services services(const Scenario& site, int pairs) {
    Services sum;
    int links = 0;
    BitRate rate;
    for (const Building& building : site.buildings) {
        const int in_use = strands_of(site, links_of(building));
        const int strands = in_use + site.rules.spare.drop_spare_least;
        sum.terminals.push_back({building.place, per_metre(site, strands, in_use)});
        sum.fixed += cost_over(site, strands, in_use, 0);
        for (const LinkDemand& demand : building.links) {
            const auto one = link(site, demand.rate, 0, pairs, 0);
            sum.possible = sum.possible && one;
            sum.fixed += one.value_or(0) * demand.count;
        }
        const auto gear = building_gear(site, building, links_of(building), fastest(building));
        sum.possible = sum.possible && gear;
        sum.fixed += gear.value_or(0);
        sum.in_use += in_use;
        links += links_of(building);
        rate = std::max(rate, fastest(building));
    }
    const auto hub = hub_gear(site, links, rate);
    sum.possible = sum.possible && hub;
    sum.fixed += hub.value_or(0) + site.labour.mobilisation.minor();
    return sum;
}

}  // namespace

std::optional<Cents> best_home_runs(const Scenario& site) {
    const Services all = services(site, 2);
    const Cents tree = least_trees(site, all.terminals)[static_cast<std::size_t>(site.hub.place)];
    if (!all.possible || tree >= never) return std::nullopt;
    return quoted(site, all.fixed + tree);
}

std::optional<Cents> best_trunk_with_one_enclosure(const Scenario& site) {
    Services all = services(site, 3);
    const int strands = trunk_strands(site, all.in_use);
    const auto box = enclosures(site, strands);
    if (!all.possible || !box) return std::nullopt;
    all.terminals.push_back({site.hub.place, per_metre(site, strands, all.in_use)});
    const std::vector<Cents> trees = least_trees(site, all.terminals);
    Cents best = never;
    for (std::size_t p = 0; p < trees.size(); ++p) {
        if (site.places[p].enclosure_allowed) {
            best = std::min(best, trees[p] + site.places[p].enclosure_extra.minor());
        }
    }
    if (best >= never) return std::nullopt;
    return quoted(site, best + all.fixed + *box + cost_over(site, strands, all.in_use, 0));
}

}  // namespace spadework::own
