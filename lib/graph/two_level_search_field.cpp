#include "graph/two_level_search_field.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace spadework::graph::two_level {

namespace {

constexpr double kInfinite = std::numeric_limits<double>::infinity();
constexpr Purse kNoPurse = std::numeric_limits<Purse>::max();

bool alike_in(const SearchField::Excursions& known, const RelaxedDemand& demand) {
    return known.units == demand.units && known.service.weight == demand.service.weight &&
           known.service.multiplicity == demand.service.multiplicity;
}

double on(const pair_routes::Charge& charge, double length, double passage) {
    return static_cast<double>(charge.weight) * length + static_cast<double>(charge.multiplicity) * passage;
}

}  // namespace

SearchField::SearchField(const Relaxation& relaxation, const pair_routes::Network& network)
    : relaxation_(relaxation), first_{0}, first_site_(2 * static_cast<Purse>(network.edges.size())) {
    for (VertexId v = 0; v < network.vertex_count; ++v) {
        for (const Step& step : network.steps.from(v)) {
            if (relaxation.source_length[v] == kLargestCost) break;
            const SharedCostEdge& edge = network.edges[step.edge];
            const Purse tail_to_head = 2 * static_cast<Purse>(step.edge);
            const bool here_is_tail = edge.tail == v;
            neighbours_.push_back({step.to, tail_to_head + (here_is_tail ? 1 : 0),
                                   tail_to_head + (here_is_tail ? 0 : 1), static_cast<double>(edge.length),
                                   static_cast<double>(edge.passage)});
        }
        first_.push_back(static_cast<std::uint32_t>(neighbours_.size()));
        length_left_.push_back(static_cast<double>(relaxation.source_length[v]));
        passage_left_.push_back(static_cast<double>(relaxation.source_passage[v]));
        feeder_left_.push_back(
            on({relaxation.weight.per_unit, relaxation.multiplicity.per_unit}, length_left_[v], passage_left_[v]));
    }
    source_ = relaxation.source;
    for (const RelaxedDemand& demand : relaxation.demands) {
        const auto alike = [&](const Excursions& known) { return alike_in(known, demand); };
        if (std::none_of(excursions_.begin(), excursions_.end(), alike)) excursions_.push_back(measured(demand));
    }
}

const SearchField::Excursions& SearchField::excursions_of(const RelaxedDemand& demand) const {
    return *std::find_if(excursions_.begin(), excursions_.end(),
                         [&](const Excursions& known) { return alike_in(known, demand); });
}

SearchField::Excursions SearchField::measured(const RelaxedDemand& demand) const {
    const std::size_t count = first_.size() - 1;
    Excursions found{demand.service,
                     demand.units,
                     std::vector<double>(count, kInfinite),
                     std::vector<Purse>(count, kNoPurse),
                     std::vector<VertexId>(count, -1),
                     std::vector<std::int32_t>(count + 1, 0),
                     {}};
    LabelHeap<double> queue(vertex_count());
    for (std::size_t s = 0; s < relaxation_.sites.size(); ++s) {
        const RelaxedSite& site = relaxation_.sites[s];
        const double cost = static_cast<double>(site.per_unit) * static_cast<double>(demand.units);
        if (cost >= found.cost[site.at]) continue;
        found.cost[site.at] = cost;
        found.by[site.at] = first_site_ + static_cast<Purse>(s);
        queue.push_or_lower(site.at, cost);
    }
    while (!queue.empty()) {
        const VertexId here = queue.pop();
        for (const Neighbour& n : neighbours(here)) {
            const double cost = found.cost[here] + on(demand.service, n.length, n.passage);
            if (cost >= found.cost[n.to]) continue;
            found.cost[n.to] = cost;
            found.by[n.to] = n.inwards;
            found.next[n.to] = here;
            queue.push_or_lower(n.to, cost);
        }
    }
    for (const VertexId next : found.next) {
        if (next >= 0) ++found.first_before[next + 1];
    }
    std::partial_sum(found.first_before.begin(), found.first_before.end(), found.first_before.begin());
    found.before.resize(found.first_before.back());
    std::vector<std::int32_t> filled = found.first_before;
    for (VertexId v = 0; v < vertex_count(); ++v) {
        if (found.next[v] >= 0) found.before[filled[found.next[v]]++] = v;
    }
    return found;
}

DemandSearch::DemandSearch(const SearchField& field)
    : field_(field),
      vertices_(field.vertex_count()),
      excursion_(vertices_),
      excursion_by_(vertices_),
      excursion_next_(vertices_),
      label_(3 * static_cast<std::size_t>(vertices_), kInfinite),
      next_(label_.size()),
      by_(label_.size()),
      queue_(label_.size()),
      excursion_queue_(vertices_) {}

/// Takes over the ways out without prices, but for those that have a price on them.
void DemandSearch::forget_dear_excursions(const SearchField::Excursions& free, const float* prices) {
    excursion_ = free.cost;
    excursion_by_ = free.by;
    excursion_next_ = free.next;
    dear_.clear();
    const auto forget = [&](VertexId v) {
        if (excursion_[v] == kInfinite) return;
        excursion_[v] = kInfinite;
        dear_.push_back(v);
    };
    for (VertexId v = 0; v < vertices_; ++v) {
        if (free.by[v] != kNoPurse && prices[free.by[v]] > 0.0F) forget(v);
    }
    for (std::size_t k = 0; k < dear_.size(); ++k) {  // Grows as those before them are forgotten too.
        const VertexId v = dear_[k];
        for (std::int32_t b = free.first_before[v]; b < free.first_before[v + 1]; ++b)
            forget(free.before[b]);
    }
}

/// Ways out without prices on them stay the cheapest under any prices; the others are looked for anew.
void DemandSearch::find_excursions(const RelaxedDemand& demand, const float* prices) {
    const SearchField::Excursions& free = field_.excursions_of(demand);
    forget_dear_excursions(free, prices);
    const auto try_arc = [&](VertexId from, Purse outwards, double charge, VertexId to) {
        const double cost = excursion_[to] + prices[outwards] + charge;
        if (cost >= excursion_[from] || cost > most_) return;
        excursion_[from] = cost;
        excursion_by_[from] = outwards;
        excursion_next_[from] = to;
        excursion_queue_.push_or_lower(from, cost);
    };
    const std::vector<RelaxedSite>& sites = field_.relaxation().sites;
    for (std::size_t s = 0; s < sites.size(); ++s) {
        const Purse purse = field_.first_site() + static_cast<Purse>(s);
        const VertexId v = sites[s].at;
        const double asked = static_cast<double>(sites[s].per_unit) * static_cast<double>(demand.units);
        if (asked + prices[purse] >= excursion_[v]) continue;  // So it is where the way out was not forgotten.
        excursion_[v] = asked + prices[purse];
        excursion_by_[v] = purse;
        excursion_next_[v] = -1;
        excursion_queue_.push_or_lower(v, excursion_[v]);
    }
    for (const VertexId v : dear_) {
        for (const auto& n : field_.neighbours(v))
            try_arc(v, n.outwards, on(demand.service, n.length, n.passage), n.to);
    }
    while (!excursion_queue_.empty()) {
        const VertexId here = excursion_queue_.pop();
        for (const auto& n : field_.neighbours(here))
            try_arc(n.to, n.inwards, on(demand.service, n.length, n.passage), here);
    }
}

// Nodes: vertex v on the last part of a served demand's way is v, on the way to the fork vertices_ + v, on a direct way
// 2 * vertices_ + v. The search runs from the demand back to the source.

double DemandSearch::left_of_direct(VertexId v, const RelaxedDemand& demand) const {
    return on(demand.direct, field_.length_left(v), field_.passage_left(v));
}

void DemandSearch::meet(std::int32_t node, double label, double left, std::int32_t next, Purse by) {
    if (label >= label_[node] || label + left > most_) return;
    if (label_[node] == kInfinite) met_.push_back(node);
    label_[node] = label;
    next_[node] = next;
    by_[node] = by;
    queue_.push_or_lower(node, label + left);
}

template <class OnStep, class Left>
void DemandSearch::expand_within(std::int32_t layer, VertexId here, const float* prices, OnStep on_step, Left left) {
    const std::int32_t node = layer + here;
    const double label = label_[node];
    for (const SearchField::Neighbour& n : field_.neighbours(here)) {
        const double along = label + on_step(n) + prices[n.inwards];
        if (along < label_[layer + n.to]) meet(layer + n.to, along, left(n.to), node, n.inwards);
    }
}

void DemandSearch::expand(std::int32_t node, const RelaxedDemand& demand, const float* prices) {
    using Neighbour = SearchField::Neighbour;
    const auto direct = [&](const Neighbour& n) { return on(demand.direct, n.length, n.passage); };
    const auto left_of_direct_way = [&](VertexId v) { return left_of_direct(v, demand); };
    const auto to_fork = [this](const Neighbour& n) { return pull_ * n.length; };
    const auto left_of_fork = [this](VertexId v) { return pull_ * field_.length_left(v); };
    const auto served = [&](const Neighbour& n) { return on(demand.service, n.length, n.passage); };
    const auto left_of_served = [this](VertexId v) { return steer_ * field_.feeder_left(v); };
    if (node >= 2 * vertices_)
        return expand_within(2 * vertices_, node - 2 * vertices_, prices, direct, left_of_direct_way);
    if (node >= vertices_) return expand_within(vertices_, node - vertices_, prices, to_fork, left_of_fork);
    expand_within(0, node, prices, served, left_of_served);
    if (excursion_[node] == kInfinite) return;
    meet(vertices_ + node, label_[node] + excursion_[node], left_of_fork(node), node, kNoPurse);
}

double DemandSearch::find(const RelaxedDemand& demand, const float* prices, double most) {
    constexpr double rounding = 1e-9;  // Sums of the same figures in another order differ by less.
    const Relaxation& r = field_.relaxation();
    const auto units = static_cast<double>(demand.units);
    const auto share = [&](Cost own, Cost unit) {
        const double feeder = static_cast<double>(unit) * units;
        return feeder > 0.0 ? std::min(1.0, static_cast<double>(own) / feeder) : 1.0;
    };
    steer_ = units * std::min(share(demand.service.weight, r.weight.per_unit),
                              share(demand.service.multiplicity, r.multiplicity.per_unit));
    pull_ = 1e-6 * static_cast<double>(demand.service.weight);
    most_ = most + rounding * std::abs(most);
    used.clear();
    find_excursions(demand, prices);
    const double found = search(demand, prices);
    queue_.clear();
    for (const std::int32_t node : met_)
        label_[node] = kInfinite;
    met_.clear();
    if (found == kInfinite && most < kInfinite) return find(demand, prices);  // A limit lost to rounding.
    return found;
}

double DemandSearch::search(const RelaxedDemand& demand, const float* prices) {
    meet(demand.at, 0.0, steer_ * field_.feeder_left(demand.at), -1, kNoPurse);
    if (demand.may_be_direct) {
        meet(2 * vertices_ + demand.at, static_cast<double>(demand.direct_fixed), left_of_direct(demand.at, demand), -1,
             kNoPurse);
    }
    while (!queue_.empty()) {
        const std::int32_t node = queue_.pop();
        if (node == vertices_ + field_.source() || node == 2 * vertices_ + field_.source()) {
            trace(node);
            return label_[node];
        }
        expand(node, demand, prices);
    }
    return kInfinite;
}

void DemandSearch::trace(std::int32_t node) {
    while (node >= 0) {
        if (by_[node] != kNoPurse) {
            used.push_back(by_[node]);
        } else if (next_[node] >= 0) {
            for (VertexId v = node % vertices_; v >= 0; v = excursion_next_[v])
                used.push_back(excursion_by_[v]);
        }
        node = next_[node];
    }
}

}  // namespace spadework::graph::two_level
