// Re-checks a certificate with code of its own: nothing here is shared with what finds the prices.

#include <algorithm>
#include <limits>

#include "graph/adjacency.hpp"
#include "graph/chain_certificate.hpp"
#include "graph/chain_figures.hpp"
#include "graph/label_heap.hpp"
#include "graph/ring_certificate.hpp"
#include "graph/ring_figures.hpp"
#include "graph/ring_proof.hpp"
#include "graph/saturating.hpp"

namespace spadework::graph {

namespace {

constexpr WideCost kNever = WideCost{1} << 100;
constexpr Cost kLargestVisitPrice = Cost{1} << 60;
constexpr Cost kLargestEntryPrice = Cost{1} << 60;
constexpr std::int64_t kMostParts = std::int64_t{1} << 32;

WideCost cable_charge(const ChainProblem& problem, const SharedCostEdge& edge) {
    return static_cast<WideCost>(problem.weight) * edge.length +
           static_cast<WideCost>(problem.multiplicity) * edge.passage;
}

bool are_stops(std::vector<std::int32_t> list, std::size_t stop_count) {
    std::sort(list.begin(), list.end());
    if (std::adjacent_find(list.begin(), list.end()) != list.end()) return false;
    return list.empty() || (list.front() >= 0 && static_cast<std::size_t>(list.back()) < stop_count);
}

bool neighbours_are_stops(const std::vector<std::int32_t>& neighbours, std::int32_t stop, std::size_t stop_count) {
    const bool none_is_itself = std::find(neighbours.begin(), neighbours.end(), stop) == neighbours.end();
    return neighbours.size() <= kMostNeighbours && none_is_itself && are_stops(neighbours, stop_count);
}

bool entries_in_range(const ChainCertificate& c, std::size_t stop_count) {
    return std::all_of(c.entry_prices.begin(), c.entry_prices.end(), [&](const EntryPrice& entry) {
        return entry.price >= 0 && entry.price <= kLargestEntryPrice && !entry.stops.empty() &&
               are_stops(entry.stops, stop_count);
    });
}

/// One entry an edge or a stop, and every figure in its range; what edges may pay is another matter.
bool figures_in_range(const ChainProblem& problem, const ChainCertificate& c) {
    const std::size_t stops = problem.stops.size();
    if (c.parts < 1 || c.parts > kMostParts || c.hop_charges.size() != problem.edges.size()) return false;
    if (c.joining_prices.size() != stops || c.arrival_prices.size() != stops) return false;
    if (c.visit_prices.size() != stops || c.neighbours.size() != stops) return false;
    for (std::size_t e = 0; e < problem.edges.size(); ++e) {
        if (c.hop_charges[e] < 0 || c.hop_charges[e] > cable_charge(problem, problem.edges[e]) * c.parts) return false;
    }
    for (std::size_t s = 0; s < stops; ++s) {
        if (c.visit_prices[s] > kLargestVisitPrice || c.visit_prices[s] < -kLargestVisitPrice) return false;
        if (!neighbours_are_stops(c.neighbours[s], static_cast<std::int32_t>(s), stops)) return false;
    }
    return entries_in_range(c, stops);
}

/// Adds up what stops pay; false on an unknown edge or a negative price.
bool add_up(const EdgePriceSet& prices, std::vector<WideCost>& forwards, std::vector<WideCost>& backwards) {
    for (const auto& of_stop : prices) {
        for (const EdgePrice& p : of_stop) {
            if (p.edge < 0 || static_cast<std::size_t>(p.edge) >= forwards.size() || p.price < 0) return false;
            (p.backwards ? backwards : forwards)[static_cast<std::size_t>(p.edge)] += p.price;
        }
    }
    return true;
}

/// Of chains each direction has a purse of its own for joining prices, of rings both share one.
bool prices_can_be_paid(const ChainProblem& problem, const ChainCertificate& c, bool closed) {
    const std::size_t edges = problem.edges.size();
    std::vector<WideCost> out(edges, 0);
    std::vector<WideCost> back(edges, 0);
    std::vector<WideCost> hop_one_way(edges, 0);
    std::vector<WideCost> hop_other_way(edges, 0);
    if (!add_up(c.joining_prices, out, back)) return false;
    if (!add_up(c.arrival_prices, hop_one_way, hop_other_way)) return false;
    if (!add_up(c.closing_prices, hop_one_way, hop_other_way)) return false;
    for (std::size_t e = 0; e < edges; ++e) {
        const SharedCostEdge& edge = problem.edges[e];
        const WideCost passes = closed ? static_cast<WideCost>(problem.longest_chain) * c.pass_charges[e] : 0;
        if (c.hop_charges[e] + passes > cable_charge(problem, edge) * c.parts) return false;
        const WideCost may_pay = (edge.opening + cable_charge(problem, edge)) * c.parts - c.hop_charges[e] - passes;
        const WideCost joining = closed ? out[e] + back[e] : std::max(out[e], back[e]);
        if (joining + hop_one_way[e] + hop_other_way[e] > may_pay) return false;
    }
    return true;
}

/// Distances to one vertex from all others, edge costs given by direction.
class DistancesTo {
public:
    explicit DistancesTo(const ChainProblem& problem)
        : problem_(problem),
          steps_(problem.vertex_count, problem.edges),
          forwards(problem.edges.size(), 0),
          backwards(problem.edges.size(), 0) {}

    [[nodiscard]] std::vector<Cost> find(VertexId target) const {
        std::vector<Cost> label(static_cast<std::size_t>(problem_.vertex_count), kLargestCost);
        LabelHeap<Cost> queue(static_cast<std::size_t>(problem_.vertex_count));
        label[static_cast<std::size_t>(target)] = 0;
        queue.push_or_lower(target, 0);
        while (!queue.empty()) {
            const VertexId here = queue.pop();
            for (const Step& step : steps_.from(here)) {
                const auto e = static_cast<std::size_t>(step.edge);
                const Cost price = problem_.edges[e].head == here ? forwards[e] : backwards[e];
                const Cost along = add(label[static_cast<std::size_t>(here)], price);
                if (along >= label[static_cast<std::size_t>(step.to)]) continue;
                label[static_cast<std::size_t>(step.to)] = along;
                queue.push_or_lower(step.to, along);
            }
        }
        return label;
    }

private:
    const ChainProblem& problem_;
    Adjacency steps_;

public:
    std::vector<Cost> forwards;   ///< What an edge costs from tail to head.
    std::vector<Cost> backwards;  ///< What it costs from head to tail.
};

bool all_stops_joined(const ChainProblem& problem) {
    const std::vector<Cost> label = DistancesTo(problem).find(problem.source);
    return std::all_of(problem.stops.begin(), problem.stops.end(),
                       [&](VertexId v) { return label[static_cast<std::size_t>(v)] < kLargestCost; });
}

WideCost joining_distances(const ChainProblem& problem, const ChainCertificate& certificate) {
    DistancesTo distances(problem);
    WideCost sum = 0;
    for (std::size_t t = 0; t < problem.stops.size(); ++t) {
        for (const EdgePrice& p : certificate.joining_prices[t]) {
            Cost& price = (p.backwards ? distances.backwards : distances.forwards)[static_cast<std::size_t>(p.edge)];
            price = add(price, p.price);
        }
        sum += distances.find(problem.stops[t])[static_cast<std::size_t>(problem.source)];
        for (const EdgePrice& p : certificate.joining_prices[t])
            (p.backwards ? distances.backwards : distances.forwards)[static_cast<std::size_t>(p.edge)] = 0;
    }
    return sum;
}

/// What hops cost under charges that all pay and prices that some pay besides, whichever way they go.
class HopDistances {
public:
    HopDistances(const ChainProblem& problem, const ChainCertificate& certificate)
        : charges_(certificate.hop_charges), distances_(problem) {
        distances_.forwards = charges_;
        distances_.backwards = charges_;
    }

    [[nodiscard]] std::vector<Cost> find(VertexId target, const std::vector<EdgePrice>& prices) {
        for (const EdgePrice& p : prices) {
            const auto e = static_cast<std::size_t>(p.edge);
            distances_.forwards[e] = add(distances_.forwards[e], p.price);
            distances_.backwards[e] = distances_.forwards[e];
        }
        std::vector<Cost> label = distances_.find(target);
        for (const EdgePrice& p : prices) {
            const auto e = static_cast<std::size_t>(p.edge);
            distances_.forwards[e] = distances_.backwards[e] = charges_[e];
        }
        return label;
    }

private:
    const std::vector<Cost>& charges_;
    DistancesTo distances_;
};

/// What hops cost: [to][from], the source as the last `from`.
using HopTable = std::vector<std::vector<WideCost>>;

HopTable hop_distances(const ChainProblem& problem, const ChainCertificate& certificate) {
    HopDistances distances(problem, certificate);
    HopTable hops;
    for (std::size_t t = 0; t < problem.stops.size(); ++t) {
        const std::vector<Cost> label = distances.find(problem.stops[t], certificate.arrival_prices[t]);
        std::vector<WideCost>& from = hops.emplace_back();
        for (const VertexId stop : problem.stops)
            from.push_back(label[static_cast<std::size_t>(stop)]);
        from.push_back(label[static_cast<std::size_t>(problem.source)]);
    }
    return hops;
}

/// Takes what hops earn by entering sets off what they cost: what plans must earn so, at least.
WideCost take_entries_off(const ChainProblem& problem, const ChainCertificate& certificate, HopTable& hops) {
    const std::size_t stops = problem.stops.size();
    WideCost least = 0;
    for (const EntryPrice& entry : certificate.entry_prices) {
        std::vector<char> outside(stops + 1, 1);
        for (const std::int32_t s : entry.stops)
            outside[s] = 0;
        for (const std::int32_t to : entry.stops) {
            for (std::size_t from = 0; from <= stops; ++from)
                hops[to][from] -= outside[from] ? entry.price : 0;
        }
        const auto size = static_cast<Cost>(entry.stops.size());
        least += static_cast<WideCost>(entry.price) * ((size + problem.longest_chain - 1) / problem.longest_chain);
    }
    return least;
}

/// What the hop that closes a ring costs, by last stop.
std::vector<Cost> closing_distances(const ChainProblem& problem, const ChainCertificate& certificate) {
    HopDistances distances(problem, certificate);
    std::vector<Cost> closings;
    for (std::size_t t = 0; t < problem.stops.size(); ++t) {
        closings.push_back(distances.find(problem.source, certificate.closing_prices[t])[problem.stops[t]]);
    }
    return closings;
}

/// Routes of one length, by last stop and by which of its neighbours they remember (bit i for neighbour i).
class Routes {
public:
    Routes(const ChainCertificate& certificate, const HopTable& hops) : certificate_(certificate), hops_(hops) {
        for (std::size_t t = 0; t < hops.size(); ++t) {
            least_.emplace_back(std::size_t{1} << certificate.neighbours[t].size(), kNever);
            least_[t][0] = step(hops.size(), t);
        }
    }

    [[nodiscard]] WideCost least_to(std::size_t stop) const {
        return *std::min_element(least_[stop].begin(), least_[stop].end());
    }

    void add_step() {
        const auto before = least_;
        for (auto& of_stop : least_)
            std::fill(of_stop.begin(), of_stop.end(), kNever);
        for (std::size_t p = 0; p < before.size(); ++p) {
            for (std::size_t t = 0; t < before.size(); ++t) {
                if (t != p) extend(before[p], p, t);
            }
        }
    }

private:
    [[nodiscard]] WideCost step(std::size_t from, std::size_t to) const {
        return hops_[to][from] - certificate_.visit_prices[to];
    }

    void extend(const std::vector<WideCost>& routes, std::size_t p, std::size_t t) {
        const auto& known_at_p = certificate_.neighbours[p];
        const auto& known_at_t = certificate_.neighbours[t];
        const auto place = [&](std::int32_t stop) {
            return static_cast<std::size_t>(std::find(known_at_t.begin(), known_at_t.end(), stop) - known_at_t.begin());
        };
        std::vector<std::size_t> carried;  // For each neighbour of p what remembering it makes a route remember at t.
        std::size_t banned = 0;
        for (std::size_t i = 0; i < known_at_p.size(); ++i) {
            const std::size_t at = place(known_at_p[i]);
            carried.push_back(at < known_at_t.size() ? std::size_t{1} << at : 0);
            if (known_at_p[i] == static_cast<std::int32_t>(t)) banned = std::size_t{1} << i;
        }
        const std::size_t own = place(static_cast<std::int32_t>(p));
        for (std::size_t memory = 0; memory < routes.size(); ++memory) {
            if (routes[memory] >= kNever || (memory & banned) != 0) continue;
            std::size_t after = own < known_at_t.size() ? std::size_t{1} << own : 0;
            for (std::size_t i = 0; i < carried.size(); ++i)
                after |= (memory >> i & 1U) != 0 ? carried[i] : 0;
            least_[t][after] = std::min(least_[t][after], routes[memory] + step(p, t));
        }
    }

    const ChainCertificate& certificate_;
    const HopTable& hops_;
    std::vector<std::vector<WideCost>> least_;
};

/// R of the claim. Stop by stop: no route ends there, or one does, of some length, and pays for ending there.
WideCost least_routes(const ChainProblem& problem, const ChainCertificate& certificate, const HopTable& hops,
                      const std::vector<Cost>& end_costs) {
    const std::size_t stops = hops.size();
    if (stops == 0) return 0;
    const std::size_t longest = std::min<std::size_t>(stops, static_cast<std::size_t>(problem.longest_chain));
    const WideCost a_chain = static_cast<WideCost>(problem.chain_cost - problem.end_saving) * certificate.parts;
    std::vector<std::vector<WideCost>> route;  // [length - 1][last stop]
    Routes routes(certificate, hops);
    for (std::size_t length = 1; length <= longest; ++length) {
        if (length > 1) routes.add_step();
        auto& least = route.emplace_back();
        for (std::size_t t = 0; t < stops; ++t)
            least.push_back(routes.least_to(t) + a_chain + end_costs[t]);
    }
    std::vector<WideCost> with_steps(stops + 1, kNever);
    with_steps[0] = 0;
    for (std::size_t t = 0; t < stops; ++t) {
        for (std::size_t steps = stops; steps > 0; --steps) {
            for (std::size_t length = 1; length <= std::min(longest, steps); ++length) {
                with_steps[steps] = std::min(with_steps[steps], with_steps[steps - length] + route[length - 1][t]);
            }
        }
    }
    return with_steps[stops];
}

Cost rounded_up(WideCost in_parts, Cost parts) {
    const WideCost whole = in_parts / parts + (in_parts % parts > 0 ? 1 : 0);
    return static_cast<Cost>(std::max<WideCost>(saturated(whole), std::numeric_limits<Cost>::min()));
}

/// The figures are in range and can be paid, and every stop can be reached; `joining` is the sum of D.
Cost bound_of(const ChainProblem& problem, const ChainCertificate& certificate, WideCost joining,
              const std::vector<Cost>& end_costs) {
    WideCost sum = joining;
    for (const Cost p : certificate.visit_prices)
        sum += p;
    HopTable hops = hop_distances(problem, certificate);
    sum += take_entries_off(problem, certificate, hops);
    sum += least_routes(problem, certificate, hops, end_costs);
    return rounded_up(sum, certificate.parts);
}

}  // namespace

std::optional<Cost> chain_bound_proved(const ChainProblem& problem, const ChainCertificate& certificate) {
    if (!chains::well_formed(problem) || !figures_in_range(problem, certificate)) return std::nullopt;
    if (!certificate.closing_prices.empty() || !certificate.pass_charges.empty()) return std::nullopt;
    if (!prices_can_be_paid(problem, certificate, false)) return std::nullopt;
    if (!all_stops_joined(problem)) return kLargestCost;
    const std::vector<Cost> no_ends(problem.stops.size(), 0);
    return bound_of(problem, certificate, joining_distances(problem, certificate), no_ends);
}

std::optional<Cost> ring_bound_proved(const RingProblem& problem, const ChainCertificate& certificate) {
    const ChainProblem open = open_rings(problem);
    if (!rings::well_formed(problem) || !figures_in_range(open, certificate)) return std::nullopt;
    if (certificate.closing_prices.size() != problem.stops.size()) return std::nullopt;
    if (certificate.pass_charges.size() != problem.edges.size()) return std::nullopt;
    const auto below_nothing = [](Cost s) { return s < 0; };
    if (std::any_of(certificate.pass_charges.begin(), certificate.pass_charges.end(), below_nothing)) {
        return std::nullopt;
    }
    if (!prices_can_be_paid(open, certificate, true)) return std::nullopt;
    if (!all_stops_joined(open)) return kLargestCost;
    const WideCost joining = rings::least_two_ways(problem, certificate);
    return bound_of(open, certificate, joining, closing_distances(open, certificate));
}

}  // namespace spadework::graph
