#include "certificate/bought_bound.hpp"

#include <algorithm>
#include <queue>
#include <tuple>
#include <utility>

#include "certificate/edge_check.hpp"
#include "certificate/edge_distances.hpp"
#include "certificate/priced_bound.hpp"
#include "rates/cable_rates.hpp"
#include "rates/cheapest_cover.hpp"

namespace spadework::certificate {

namespace {

constexpr std::size_t most_kept = 50'000;  ///< Beginnings of ways kept in one search.

/// Least price of cable for so many strands whose route and coils come to so much, in minor units, rounded down: of one
/// where one is large enough, else of several.
Wide price_bought(const Scenario& scenario, int strands, std::int64_t millimetres) {
    std::vector<CoverItem> items;
    std::optional<Wide> of_one;
    for (const CableProduct& cable : scenario.catalogue.cables) {
        const CableLengths lengths = cable_lengths(cable, Length::from_millimetres(millimetres), 0, scenario.rules);
        const Wide metres =
            static_cast<Wide>(cable.price_per_metre.thousandths()) * lengths.ordered.millimetres() / 1'000'000;
        const bool factory = scenario.rules.termination == Termination::factory;
        const std::int64_t ends = factory ? amount(cable.factory_end_price, std::int64_t{2}).minor() : 0;
        // A bill rounds the work on all joints of a cable at once.
        const std::int64_t joint = std::max<std::int64_t>(0, joint_work(cable, scenario).total().minor() - 1);
        const Wide price = metres + ends + Wide{joint} * lengths.joints;
        items.push_back({cable.strands, static_cast<std::int64_t>(price)});
        if (cable.strands >= strands) of_one = std::min(of_one.value_or(price), price);
    }
    if (of_one) return *of_one;
    Wide sum = 0;
    const auto counts = cheapest_cover(items, strands);
    for (std::size_t i = 0; counts && i < items.size(); ++i)
        sum += Wide{items[i].price} * (*counts)[i];
    return sum;
}

constexpr Wide most_length = Wide{1} << 40U;

/// For each demand a length whose charge may be counted beyond its own, no more than it wants: so that on every edge
/// two demands that have prices against each other have no more than twice its length together. Short edges come first.
std::vector<Wide> shared_out(const RoutesEvidence& evidence, const graph::EdgePriceSet& set,
                             std::vector<Wide> lengths) {
    std::vector<std::array<std::vector<std::size_t>, 2>> priced(evidence.edges.size());
    for (std::size_t d = 0; d < set.size(); ++d) {
        for (const graph::EdgePrice& price : set[d])
            priced[static_cast<std::size_t>(price.edge)][price.backwards ? 1 : 0].push_back(d);
    }
    std::vector<std::pair<graph::Length, std::size_t>> order;
    for (std::size_t e = 0; e < priced.size(); ++e)
        order.emplace_back(evidence.edges[e].length, e);
    std::sort(order.begin(), order.end());
    const auto longest = [&](const std::vector<std::size_t>& demands) {
        Wide most = 0;
        for (const std::size_t d : demands)
            most = std::max(most, lengths[d]);
        return most;
    };
    for (const auto& [length, e] : order) {
        const auto& [forwards, backwards] = priced[e];
        if (forwards.empty() || backwards.empty()) continue;
        const Wide one = longest(forwards);
        const Wide other = longest(backwards);
        if (one + other <= 2 * Wide{length}) continue;
        const Wide most_of_one = std::max<Wide>(length, 2 * Wide{length} - other);
        const Wide most_of_other = std::max<Wide>(length, 2 * Wide{length} - one);
        for (const std::size_t d : forwards)
            lengths[d] = std::min(lengths[d], most_of_one);
        for (const std::size_t d : backwards)
            lengths[d] = std::min(lengths[d], most_of_other);
    }
    return lengths;
}

/// The beginning of a way: what it costs beside its cable, and how long it is.
struct Beginning {
    Wide least = 0;  ///< What all ways that begin so cost at least, cable and all.
    Wide cost = 0;
    std::int64_t millimetres = 0;
    PlaceIndex at = 0;
    friend bool operator>(const Beginning& a, const Beginning& b) {
        return std::tie(a.least, a.cost, a.millimetres, a.at) > std::tie(b.least, b.cost, b.millimetres, b.at);
    }
};

/// The plans of some prices from one root.
class BoughtBound {
public:
    BoughtBound(const Scenario& scenario, const FanOutFigures& figures, const RoutesEvidence& evidence,
                const PricedPlans& plans, std::size_t root)
        : scenario_(scenario),
          figures_(figures),
          evidence_(evidence),
          plans_(plans),
          prices_(*plans.prices),
          root_(evidence.roots[root].at),
          coil_at_root_(half_coils_by_place(scenario)[static_cast<std::size_t>(root_)]),
          real_(real_edges(scenario, evidence, Coils::charged)),
          distances_(scenario, evidence.edges, plans.closed),
          all_distances_(scenario, evidence.edges),
          out_of_(scenario.places.size()) {
        for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
            if (plans.closed[e]) continue;
            const Segment& segment = scenario.segments[static_cast<std::size_t>(evidence.edges[e].segment)];
            out_of_[static_cast<std::size_t>(segment.from)].push_back({segment.to, e, 0});
            out_of_[static_cast<std::size_t>(segment.to)].push_back({segment.from, e, 1});
        }
    }

    std::optional<Money> run() {
        const auto place = std::lower_bound(figures_.places.begin(), figures_.places.end(), root_);
        const auto p = static_cast<std::size_t>(place - figures_.places.begin());
        Wide rebate = 0;
        for (const CertifiedEdge& edge : evidence_.edges)
            rebate += static_cast<Wide>(edge.room_price) * std::max(0, edge.room);
        Wide sum = (static_cast<Wide>(figures_.beside[p].minor()) * units() + plans_.opened - rebate) * plans_.parts;
        std::vector<Wide> beyond;
        std::vector<Wide> lengths;
        for (std::size_t d = 0; d < evidence_.demands.size(); ++d) {
            const auto charged = by_charges(d, figures_.cables[d]);
            if (!charged) return std::nullopt;
            sum += *charged;
            const Wide counted = static_cast<Wide>(figures_.counted[p][d].minor()) * units() * plans_.parts;
            beyond.push_back(beyond_charges(d, figures_.cables[d], *charged + counted));
            const Wide charge = static_cast<Wide>(evidence_.demands[d].weight) * plans_.parts;
            lengths.push_back(charge > 0 && beyond[d] > 0 ? std::min(most_length, beyond[d] / charge + 1) : 0);
        }
        lengths = shared_out(evidence_, prices_, lengths);
        for (std::size_t d = 0; d < beyond.size(); ++d) {
            const Wide most = static_cast<Wide>(evidence_.demands[d].weight) * lengths[d] - 1;
            sum += std::clamp<Wide>(most * plans_.parts, 0, beyond[d]);
        }
        return Money::from_minor(static_cast<std::int64_t>(std::max<Wide>(0, sum) / plans_.parts / units()));
    }

private:
    struct Hop {
        PlaceIndex to = 0;
        std::size_t edge = 0;
        std::size_t direction = 0;
    };

    [[nodiscard]] Wide units() const { return evidence_.units_a_minor; }

    /// Cable by the metre and passage, without prices, in parts.
    [[nodiscard]] Wide by_the_metre(const LeastCable& cable, std::size_t e) const {
        return real_charge(cable, real_[e], evidence_.units_a_minor) * plans_.parts;
    }

    /// What is left of charges in parts: of edges without demand's prices; `of_edge` in both directions alike.
    template <class OfEdge>
    [[nodiscard]] DirectedCharges charges(OfEdge of_edge) const {
        DirectedCharges charges;
        for (std::size_t e = 0; e < real_.size(); ++e)
            charges[0].push_back(of_edge(e));
        charges[1] = charges[0];
        return charges;
    }

    /// The demand's distance, what charges leave out, and less what they count too much at the root, in parts; nothing
    /// where there is no way.
    [[nodiscard]] std::optional<Wide> by_charges(std::size_t d, const LeastCable& cable) const {
        const graph::Demand& demand = evidence_.demands[d];
        const auto charged = [&](std::size_t e) {
            return static_cast<Wide>(demand.weight) * evidence_.edges[e].length * plans_.parts;
        };
        const auto left = [&](std::size_t e) { return std::max<Wide>(0, by_the_metre(cable, e) - charged(e)); };
        DirectedCharges priced = charges(charged);
        add_prices(prices_[d], priced);
        const auto way = distances_.to(demand.at, priced)[static_cast<std::size_t>(root_)];
        const auto left_out = all_distances_.to(demand.at, charges(left))[static_cast<std::size_t>(root_)];
        if (!way || !left_out) return std::nullopt;
        return *way + *left_out - half_coil_price(cable) * units() * plans_.parts;
    }

    /// What the demand's cable, as it is bought, costs on its cheapest way beyond that, in parts.
    [[nodiscard]] Wide beyond_charges(std::size_t d, const LeastCable& cable, Wide counted) const {
        return std::max<Wide>(0, cheapest_bought(d, cable) - counted);
    }

    /// In minor units: what charges count too much where the root is a handhole.
    [[nodiscard]] Wide half_coil_price(const LeastCable& cable) const {
        return (static_cast<Wide>(cable.thousandths_a_metre) * coil_at_root_ + 999'999) / 1'000'000;
    }

    /// What a search for one demand's cheapest way goes by, all in parts.
    struct Search {
        const LeastCable& cable;
        PlaceIndex target = 0;
        DirectedCharges beside;                 ///< What passing an edge costs beside cable.
        std::vector<std::optional<Wide>> rest;  ///< From each place to the target, with cable by the metre.
    };

    [[nodiscard]] Search search_for(std::size_t d, const LeastCable& cable) const {
        DirectedCharges along = charges([&](std::size_t e) { return by_the_metre(cable, e); });
        Search search{cable,
                      evidence_.demands[d].at,
                      charges([&](std::size_t e) { return cable.pieces * real_[e].passage * plans_.parts; }),
                      {}};
        add_prices(prices_[d], along);
        add_prices(prices_[d], search.beside);
        search.rest = distances_.to(search.target, along);
        return search;
    }

    /// So many cables may be laid side by side for the strands, each rounded by itself: one where one is large enough.
    [[nodiscard]] Wide most_cables(const LeastCable& cable) const {
        const auto is_enough = [&](const CableProduct& product) { return product.strands >= cable.strands; };
        return std::ranges::any_of(scenario_.catalogue.cables, is_enough) ? 1 : cable.strands;
    }

    /// What every way that begins so costs at least. A minor unit a cable and a solver unit allow for rounding.
    [[nodiscard]] Beginning begun(const Search& search, Wide cost, std::int64_t millimetres, PlaceIndex at) const {
        const Wide metres = static_cast<Wide>(search.cable.thousandths_a_metre) * (millimetres - coil_at_root_);
        const Wide ends = (static_cast<Wide>(search.cable.ends) - most_cables(search.cable)) * units() - 1;
        const Wide so_far = cost + (metres * units() / 1'000'000 + ends) * plans_.parts;
        return {so_far + *search.rest[static_cast<std::size_t>(at)], cost, millimetres, at};
    }

    [[nodiscard]] Wide whole_cost(const Search& search, const Beginning& whole) const {
        const std::int64_t length = std::max<std::int64_t>(0, whole.millimetres - coil_at_root_);
        return whole.cost + price_bought(scenario_, search.cable.strands, length) * units() * plans_.parts;
    }

    /// The cheapest way of the demand's cable as it is bought, prices on its way included, in parts.
    [[nodiscard]] Wide cheapest_bought(std::size_t d, const LeastCable& cable) const {
        const Search search = search_for(d, cable);
        std::vector<std::vector<Beginning>> kept(scenario_.places.size());
        std::priority_queue<Beginning, std::vector<Beginning>, std::greater<>> queue;
        queue.push(begun(search, 0, 0, root_));
        std::optional<Wide> best;
        for (std::size_t count = 0; !queue.empty() && (!best || queue.top().least < *best);) {
            const Beginning here = queue.top();
            queue.pop();
            const auto beats = [&here](const Beginning& other) {
                return other.cost <= here.cost && other.millimetres <= here.millimetres;
            };
            std::vector<Beginning>& others = kept[static_cast<std::size_t>(here.at)];
            if (std::ranges::any_of(others, beats)) continue;
            if (++count > most_kept) return here.least;
            others.push_back(here);
            if (here.at == search.target) {
                best = std::min(best.value_or(whole_cost(search, here)), whole_cost(search, here));
                continue;
            }
            for (const Hop& hop : out_of_[static_cast<std::size_t>(here.at)]) {
                if (!search.rest[static_cast<std::size_t>(hop.to)]) continue;
                queue.push(begun(search, here.cost + search.beside[hop.direction][hop.edge],
                                 here.millimetres + real_[hop.edge].millimetres, hop.to));
            }
        }
        return *best;
    }

    const Scenario& scenario_;
    const FanOutFigures& figures_;
    const RoutesEvidence& evidence_;
    const PricedPlans& plans_;
    const graph::EdgePriceSet& prices_;
    PlaceIndex root_;
    std::int64_t coil_at_root_;  ///< Half a coil where it is a handhole: no cable leaves one there.
    std::vector<RealEdge> real_;
    EdgeDistances distances_;
    EdgeDistances all_distances_;           ///< Over closed edges too: for what the evidence counts of all plans.
    std::vector<std::vector<Hop>> out_of_;  ///< By place.
};

}  // namespace

std::optional<Money> bought_bound(const Scenario& scenario, const FanOutFigures& figures,
                                  const RoutesEvidence& evidence, const PricedPlans& plans, std::size_t root) {
    const auto passes = [](const CertifiedEdge& edge) { return edge.passage != 0; };
    if (std::ranges::any_of(evidence.edges, passes)) return std::nullopt;
    return BoughtBound(scenario, figures, evidence, plans, root).run();
}

std::optional<Money> bought_bound_by_splits(const Scenario& scenario, const FanOutFigures& figures,
                                            const RoutesEvidence& evidence, std::size_t root, Money wanted) {
    std::optional<Money> least;
    for (const graph::PartProof& part : evidence.splits) {
        const PricedPlans plans = plans_of(evidence, part);
        auto bound = direct_bounds(scenario, evidence, plans)[root];
        if (!bound) continue;  // No plan has these choices.
        if (*bound < wanted) {
            const auto as_bought = bought_bound(scenario, figures, evidence, plans, root);
            if (as_bought) bound = std::max(*bound, *as_bought);
        }
        least = std::min(least.value_or(*bound), *bound);
    }
    return least;
}

}  // namespace spadework::certificate
