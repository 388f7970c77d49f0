#include "extension/joint_routes.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "graph/saturating.hpp"
#include "graph/shared_cost_solver.hpp"
#include "layout/added_cable.hpp"
#include "layout/room_prices.hpp"
#include "routing/one_measure.hpp"

namespace spadework {

namespace {

using graph::Cost;

/// Rounds of laying every cable anew; each but the last makes the whole cheaper.
constexpr int most_rounds = 20;
/// Rounds of pricing room in ducts.
constexpr int most_price_rounds = 25;

std::size_t edge_of(const Network& network, const Step& step) {
    const auto found = std::lower_bound(
        network.origin.begin(), network.origin.end(), step, [](const NetworkEdge& edge, const Step& wanted) {
            return std::pair(edge.segment, edge.way) < std::pair(wanted.segment, wanted.way);
        });
    return static_cast<std::size_t>(found - network.origin.begin());
}

/// What the additions pay on their ways, all opened once.
Cost way_cost(const ExtensionSearch& search, const RoutedExtension& routed) {
    std::set<Step> open;
    Cost sum = 0;
    for (std::size_t i = 0; i < routed.additions.size(); ++i) {
        if (routed.additions[i].source.cable >= 0) continue;
        const CableFigures& cable = search.figures[i];
        for (const Step& step : routed.additions[i].route.steps) {
            const auto& edge = search.network.edges[edge_of(search.network, step)];
            sum = graph::add(sum, graph::path_charge({0, cable.weight, cable.multiplicity}, edge));
            if (open.insert(step).second) sum = graph::add(sum, edge.opening);
        }
    }
    return sum;
}

/// Of a cable that lies there.
Route route_of(const ExtensionSearch& search, const Source& source) {
    const PlannedCable& cable = search.built.cables[static_cast<std::size_t>(source.cable)];
    Route route;
    route.from = cable.from;
    route.to = cable.to;
    route.steps = cable.steps;
    return route;
}

class JointRoutes {
public:
    JointRoutes(const ExtensionSearch& search, const std::vector<Source>& sources)
        : search_(search),
          sources_(sources),
          routes_(sources.size()),
          any_room_(
              std::ranges::any_of(search.network.origin, [](const NetworkEdge& origin) { return origin.room >= 0; })) {}

    bool lay(std::size_t i) {
        if (sources_[i].cable >= 0) return true;
        const Network open = with_room_left(i);
        const PlaceIndex from = search_.place_of(sources_[i]);
        const PlaceIndex to = search_.scenario.buildings[static_cast<std::size_t>(search_.additions[i])].place;
        const AddedCable added(open, search_.figures[i], opened_by_others(i), from, to);
        if (!added.cost_to(to)) return false;
        routes_[i] = route_along(open, added.way_to(to), from, to);
        return true;
    }

    /// Lays each cable anew while that makes the whole cheaper.
    void improve() {
        for (int round = 0; round < most_rounds; ++round) {
            const Cost before = cost();
            for (std::size_t i = 0; i < routes_.size(); ++i)
                lay(i);
            if (cost() >= before) break;
        }
    }

    [[nodiscard]] RoutedExtension extension() const {
        RoutedExtension routed;
        for (std::size_t i = 0; i < routes_.size(); ++i)
            routed.additions.push_back({search_.additions[i], sources_[i],
                                        sources_[i].cable >= 0 ? route_of(search_, sources_[i]) : routes_[i]});
        return routed;
    }

private:
    std::set<Step> opened_by_others(std::size_t i) const {
        std::set<Step> open;
        for (std::size_t other = 0; other < routes_.size(); ++other) {
            if (other != i) open.insert(routes_[other].steps.begin(), routes_[other].steps.end());
        }
        return open;
    }

    /// The network without ducts that the other cables fill.
    Network with_room_left(std::size_t i) const {
        if (!any_room_) return search_.network;
        std::map<Step, int> uses;
        for (std::size_t other = 0; other < routes_.size(); ++other) {
            for (const Step& step : routes_[other].steps)
                uses[step] += other != i ? 1 : 0;
        }
        Network left = search_.network;
        std::size_t kept = 0;
        for (std::size_t e = 0; e < left.edges.size(); ++e) {
            const NetworkEdge& origin = left.origin[e];
            const auto used = uses.find({origin.segment, origin.way});
            if (origin.room >= 0 && used != uses.end() && used->second >= origin.room) continue;
            left.edges[kept] = left.edges[e];
            left.origin[kept++] = origin;
        }
        left.edges.resize(kept);
        left.origin.resize(kept);
        return left;
    }

    Cost cost() const { return way_cost(search_, extension()); }

    const ExtensionSearch& search_;
    const std::vector<Source>& sources_;
    std::vector<Route> routes_;
    bool any_room_;  ///< Whether any way takes so many cables and no more.
};

bool fits(const ExtensionSearch& search, const RoutedExtension& routed) {
    std::map<Step, int> uses;
    for (const RoutedAddition& addition : routed.additions) {
        for (const Step& step : addition.route.steps)
            uses[step] += addition.source.cable < 0 ? 1 : 0;
    }
    for (const RoutedEnclosure& enclosure : routed.enclosures) {
        for (const Step& step : enclosure.trunk.steps)
            ++uses[step];
    }
    const NetworkEdge* end = search.network.origin.data() + search.network.origin.size();
    for (const NetworkEdge* edge = search.network.origin.data(); edge != end; ++edge) {
        const auto used = uses.find({edge->segment, edge->way});
        if (edge->room >= 0 && used != uses.end() && used->second > edge->room) return false;
    }
    return true;
}

graph::SolveLimits quietly() {
    graph::SolveLimits limits;
    limits.seconds = 5;
    limits.target_gap = 1e-6;
    return limits;
}

graph::Demand demand_of(const ExtensionSearch& search, std::size_t i) {
    const Building& building = search.scenario.buildings[static_cast<std::size_t>(search.additions[i])];
    return {building.place, search.figures[i].weight, search.figures[i].multiplicity};
}

PlaceIndex addition_place(const ExtensionSearch& search, std::size_t i) {
    return search.scenario.buildings[static_cast<std::size_t>(search.additions[i])].place;
}

/// One more addition beside routes that lie already, from the one of these sources that costs least on the way.
bool add_from_nearest(const ExtensionSearch& search, std::size_t i, const std::vector<Source>& sources,
                      RoutedExtension& routed) {
    std::set<Step> open;
    for (const RoutedEnclosure& enclosure : routed.enclosures)
        open.insert(enclosure.trunk.steps.begin(), enclosure.trunk.steps.end());
    for (const RoutedAddition& other : routed.additions) {
        if (other.source.cable < 0) open.insert(other.route.steps.begin(), other.route.steps.end());
    }
    const PlaceIndex to = addition_place(search, i);
    std::optional<Cost> least;
    RoutedAddition best;
    for (const Source& source : sources) {
        if (source.cable >= 0) {
            routed.additions.push_back({search.additions[i], source, route_of(search, source)});
            return true;
        }
        const AddedCable added(search.network, search.figures[i], open, search.place_of(source), to);
        const auto cost = added.cost_to(to);
        if (!cost || (least && *least <= *cost)) continue;
        least = cost;
        const PlaceIndex from = search.place_of(source);
        best = {search.additions[i], source, route_along(search.network, added.way_to(to), from, to)};
    }
    if (least) routed.additions.push_back(std::move(best));
    return least.has_value();
}

FreeRoutes solved_from_anywhere(const ExtensionSearch& search, const Network& network,
                                const std::vector<Source>& sources) {
    // One more vertex, from which every source is reached for nothing.
    graph::SharedCostProblem problem{network.vertex_count + 1, network.edges, {}, {{network.vertex_count, 0}}};
    for (const Source& source : sources)
        problem.edges.push_back({network.vertex_count, search.place_of(source), 0, 0, 0});
    for (std::size_t i = 0; i < search.additions.size(); ++i)
        problem.demands.push_back(demand_of(search, i));
    const auto solution = solve_by_measure(problem, quietly());
    FreeRoutes result{std::nullopt, std::nullopt, network.scale.money(solution.bound)};
    if (!solution.plan) return result;
    RoutedExtension routed;
    for (std::size_t i = 0; i < search.additions.size(); ++i) {
        // The last edge from the one vertex names the source; what lies behind it is the route.
        std::vector<graph::EdgeId> path = solution.plan->paths[i];
        const auto first = std::find_if(path.rbegin(), path.rend(), [&](graph::EdgeId edge) {
                               return static_cast<std::size_t>(edge) >= network.edges.size();
                           }).base();
        const Source source = sources[static_cast<std::size_t>(*std::prev(first)) - network.edges.size()];
        path.erase(path.begin(), first);
        const PlaceIndex from = search.place_of(source);
        routed.additions.push_back(
            {search.additions[i], source, route_along(network, path, from, addition_place(search, i))});
    }
    if (fits(search, routed)) result.fitting = routed;
    result.routed = std::move(routed);
    return result;
}

/// The routes as room prices look at them.
RoutedLayout as_layout(const RoutedExtension& extension) {
    RoutedLayout layout;
    for (const RoutedAddition& addition : extension.additions)
        layout.buildings.push_back({addition.building, -1, addition.route});
    return layout;
}

Money cost_on_the_way(const ExtensionSearch& search, const RoutedExtension& routed) {
    return search.network.scale.money(way_cost(search, routed)) + Money::from_minor(1);
}

}  // namespace

std::optional<RoutedExtension> routed_from(const ExtensionSearch& search, const std::vector<Source>& sources,
                                           const std::vector<std::size_t>& order) {
    JointRoutes routes(search, sources);
    for (const std::size_t i : order) {
        if (!routes.lay(i)) return std::nullopt;
    }
    routes.improve();
    return routes.extension();
}

FreeRoutes routed_from_anywhere(const ExtensionSearch& search, const std::vector<Source>& sources) {
    FreeRoutes best = solved_from_anywhere(search, search.network, sources);
    RoomPrices prices(search.network);
    if (!prices.any_room()) return best;
    // A price on room that routes take beyond what there is (see layout/room_prices.hpp) raises the bound, and the
    // routes it leads to may fit.
    FreeRoutes last = best;
    double share = 1;
    for (int round = 0; round < most_price_rounds && last.routed; ++round) {
        const Money known = best.fitting ? cost_on_the_way(search, *best.fitting) : best.bound * 2;
        const Cost gap = search.network.scale.units(std::max(Money::from_minor(1), known - best.bound));
        const bool over = prices.adjust(as_layout(*last.routed), gap, share);
        if (round == 0 && !over) break;  // Nothing is short of room.
        share *= 0.9;
        last = solved_from_anywhere(search, prices.priced(), sources);
        const Money bound = last.bound - search.network.scale.money(prices.rebate()) - Money::from_minor(1);
        best.bound = std::max(best.bound, bound);
        if (last.fitting &&
            (!best.fitting || cost_on_the_way(search, *last.fitting) < cost_on_the_way(search, *best.fitting)))
            best.fitting = last.fitting;
    }
    return best;
}

std::optional<RoutedExtension> routed_through(const ExtensionSearch& search, const ThroughNew& through,
                                              const std::vector<std::vector<Source>>& sources) {
    const Network& network = search.network;
    graph::SharedCostProblem problem{network.vertex_count, network.edges, {}, {{through.place, 0}}};
    for (const std::size_t i : through.additions)
        problem.demands.push_back(demand_of(search, i));
    problem.demands.push_back({search.scenario.hub.place, through.trunk.weight, through.trunk.multiplicity});
    const auto solution = graph::sketch(problem, quietly());
    if (!solution.plan) return std::nullopt;
    RoutedExtension routed;
    std::vector<graph::EdgeId> to_hub = solution.plan->paths.back();
    std::reverse(to_hub.begin(), to_hub.end());
    routed.enclosures.push_back(
        {through.place, route_along(network, to_hub, search.scenario.hub.place, through.place)});
    for (std::size_t n = 0; n < through.additions.size(); ++n) {
        routed.additions.push_back({search.additions[through.additions[n]], Source{Source::Kind::new_enclosure, 0},
                                    route_along(network, solution.plan->paths[n], through.place,
                                                addition_place(search, through.additions[n]))});
    }
    for (std::size_t i = 0; i < search.additions.size(); ++i) {
        const bool done = std::find(through.additions.begin(), through.additions.end(), i) != through.additions.end();
        if (!done && !add_from_nearest(search, i, sources[i], routed)) return std::nullopt;
    }
    std::sort(routed.additions.begin(), routed.additions.end(),
              [](const RoutedAddition& a, const RoutedAddition& b) { return a.building < b.building; });
    if (!fits(search, routed)) return std::nullopt;
    return routed;
}

}  // namespace spadework
