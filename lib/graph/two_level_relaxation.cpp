#include "graph/two_level_relaxation.hpp"

#include <algorithm>
#include <set>

#include "graph/label_heap.hpp"

namespace spadework::graph::two_level {

using pair_routes::Charge;
using pair_routes::Network;

namespace {

/// Units served and what a size that serves them charges, in parts.
struct PricePoint {
    std::int64_t units = 0;
    Cost price = 0;
};

/// The highest line of this slope that lies below every point; a base below 0 says that there is none.
Line below(const std::vector<PricePoint>& points, Cost per_unit) {
    WideCost base = kLargestCost;
    for (const PricePoint& p : points) {
        base = std::min(base, static_cast<WideCost>(p.price) - static_cast<WideCost>(per_unit) * p.units);
    }
    return {base < 0 ? -1 : static_cast<Cost>(base), per_unit};
}

/// The line through two of the points, or flat, or through nothing and a point, that is worth most over the uses.
template <class Share>
Line best_line(const std::vector<PricePoint>& points, const std::vector<FeederUse>& uses, Share share) {
    std::set<Cost> slopes{0};
    for (const PricePoint& p : points) {
        if (p.units > 0) slopes.insert(p.price / p.units);
        for (const PricePoint& q : points) {
            if (q.units > p.units && q.price > p.price) slopes.insert((q.price - p.price) / (q.units - p.units));
        }
    }
    Line best;
    double most = -1.0;
    for (const Cost slope : slopes) {
        const Line line = below(points, slope);
        if (line.base < 0) continue;
        double worth = 0.0;
        for (const FeederUse& use : uses) {
            worth += share(use) * (static_cast<double>(line.base) +
                                   static_cast<double>(line.per_unit) * static_cast<double>(use.units));
        }
        if (worth <= most) continue;
        most = worth;
        best = line;
    }
    return best;
}

template <class Figure>
std::vector<PricePoint> points_of(const std::vector<Feeder>& feeders, std::int64_t all_units, Cost parts,
                                  Figure figure) {
    std::vector<PricePoint> points;
    for (const Feeder& f : feeders)
        points.push_back({std::min(f.serves, all_units), figure(f) * parts});
    return points;
}

Charge in_parts(Charge charge, Cost parts) {
    return {charge.weight * parts, charge.multiplicity * parts};
}

/// The largest power of two, up to 2^16, by which no amount passes 2^59.
Cost parts_for(const TwoLevelProblem& problem) {
    const WideCost most = std::max<WideCost>(most_possible(problem), 1);
    Cost parts = 1;
    while (parts < (Cost{1} << 16) && most * parts * 2 <= (WideCost{1} << 59))
        parts *= 2;
    return parts;
}

void add_demands(const TwoLevelProblem& problem, Relaxation& relaxation) {
    for (const TwoLevelDemand& d : problem.demands) {
        RelaxedDemand demand{d.at, d.units, in_parts(service_charge(d), relaxation.parts), false, {}, 0};
        if (d.direct) {
            demand.may_be_direct = true;
            demand.direct = in_parts(direct_charge(*d.direct), relaxation.parts);
            demand.direct_fixed = d.direct->fixed * relaxation.parts;
        }
        relaxation.demands.push_back(demand);
    }
}

void add_sites(const TwoLevelProblem& problem, const Network& network, Relaxation& relaxation) {
    const auto base = distances_from(network, problem.source, {relaxation.weight.base, relaxation.multiplicity.base});
    const auto unit =
        distances_from(network, problem.source, {relaxation.weight.per_unit, relaxation.multiplicity.per_unit});
    for (const Site& s : problem.sites) {
        if (base[s.at] == kLargestCost) continue;
        relaxation.sites.push_back({s.at, s.cost * relaxation.parts + relaxation.fixed.base + base[s.at],
                                    relaxation.fixed.per_unit + unit[s.at]});
    }
}

}  // namespace

std::vector<Cost> distances_from(const Network& network, VertexId from, Charge charge) {
    std::vector<Cost> label(network.vertex_count, kLargestCost);
    LabelHeap<Cost> queue(network.vertex_count);
    label[from] = 0;
    queue.push_or_lower(from, 0);
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (const Step& step : network.steps.from(here)) {
            const Cost along = label[here] + charge.on(network.edges[step.edge]);
            if (along >= label[step.to]) continue;
            label[step.to] = along;
            queue.push_or_lower(step.to, along);
        }
    }
    return label;
}

Relaxation relaxed(const TwoLevelProblem& problem, const Network& network, const std::vector<FeederUse>& uses) {
    Relaxation relaxation;
    relaxation.parts = parts_for(problem);
    relaxation.source = problem.source;
    relaxation.most_sites = problem.most_sites;
    const std::vector<Feeder> feeders = usable_feeders(problem);
    std::int64_t all_units = 0;
    for (const TwoLevelDemand& d : problem.demands)
        all_units = add(all_units, d.units);
    const Cost parts = relaxation.parts;
    relaxation.weight = best_line(points_of(feeders, all_units, parts, [](const Feeder& f) { return f.charge.weight; }),
                                  uses, [](const FeederUse& u) { return static_cast<double>(u.length); });
    relaxation.multiplicity =
        best_line(points_of(feeders, all_units, parts, [](const Feeder& f) { return f.charge.multiplicity; }), uses,
                  [](const FeederUse& u) { return static_cast<double>(u.passage); });
    relaxation.fixed = best_line(points_of(feeders, all_units, parts, [](const Feeder& f) { return f.fixed; }), uses,
                                 [](const FeederUse&) { return 1.0; });
    for (const SharedCostEdge& e : problem.edges)
        relaxation.opening.push_back(e.opening * parts);
    relaxation.source_length = distances_from(network, problem.source, {1, 0});
    relaxation.source_passage = distances_from(network, problem.source, {0, 1});
    add_demands(problem, relaxation);
    if (!feeders.empty()) add_sites(problem, network, relaxation);
    return relaxation;
}

}  // namespace spadework::graph::two_level
