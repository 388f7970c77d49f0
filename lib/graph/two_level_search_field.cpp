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
    : relaxation_(relaxation), network_(network), first_{0}, first_site_(2 * static_cast<Purse>(network.edges.size())) {
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
    }
    source_ = relaxation.source;
    list_sites();
    for (const RelaxedDemand& demand : relaxation.demands) {
        const auto alike = [&](const Excursions& known) { return alike_in(known, demand); };
        if (std::none_of(excursions_.begin(), excursions_.end(), alike)) excursions_.push_back(measured(demand));
    }
}

void SearchField::list_sites() {
    first_site_at_.assign(first_.size(), 0);
    for (const RelaxedSite& site : relaxation_.sites)
        ++first_site_at_[static_cast<std::size_t>(site.at) + 1];
    std::partial_sum(first_site_at_.begin(), first_site_at_.end(), first_site_at_.begin());
    sites_.resize(relaxation_.sites.size());
    std::vector<std::uint32_t> filled = first_site_at_;
    for (std::size_t s = 0; s < sites_.size(); ++s)
        sites_[filled[relaxation_.sites[s].at]++] = static_cast<std::int32_t>(s);
}

const SearchField::Excursions& SearchField::excursions_of(const RelaxedDemand& demand) const {
    return *std::find_if(excursions_.begin(), excursions_.end(),
                         [&](const Excursions& known) { return alike_in(known, demand); });
}

SearchField::Excursions SearchField::measured(const RelaxedDemand& demand) const {
    const std::size_t count = first_.size() - 1;
    Excursions found{demand.service, demand.units, std::vector<double>(count, kInfinite),
                     std::vector<Purse>(count, kNoPurse), std::vector<VertexId>(count, -1)};
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
    return found;
}

DemandSearch::DemandSearch(const SearchField& field)
    : field_(field),
      vertices_(field.vertex_count()),
      trench_(field.network(), field.source()),
      way_out_(vertices_, WayOut::unknown),
      label_(3 * static_cast<std::size_t>(vertices_), kInfinite),
      next_(label_.size()),
      by_(label_.size()),
      queue_(label_.size()) {}

/// Whether there are no prices on the vertex's way out without prices, so that it is the cheapest under any prices.
bool DemandSearch::free_way_out(VertexId v, const float* prices) {
    walked_.clear();
    WayOut found = WayOut::free;
    for (; v >= 0; v = free_->next[v]) {
        found = way_out_[v];
        if (found != WayOut::unknown) break;
        walked_.push_back(v);
        found = prices[free_->by[v]] > 0.0F ? WayOut::dear : WayOut::free;
        if (found == WayOut::dear) break;
    }
    for (const VertexId walked : walked_)
        way_out_[walked] = found;
    known_.insert(known_.end(), walked_.begin(), walked_.end());
    return found == WayOut::free;
}

// Nodes: vertex v on the last part of a served demand's way is v, on the way out from the fork vertices_ + v, on a
// direct way 2 * vertices_ + v. The search runs from the demand back to the fork, and from there outwards; or back to
// the source.

double DemandSearch::left_of_direct(VertexId v, const RelaxedDemand& demand) const {
    return on(demand.direct, field_.length_left(v), field_.passage_left(v));
}

void DemandSearch::meet(std::int32_t node, double label, double left, std::int32_t next, Purse by) {
    if (label >= label_[node] || label + left > most_ || label + left >= best_) return;
    if (label_[node] == kInfinite) met_.push_back(node);
    label_[node] = label;
    next_[node] = next;
    by_[node] = by;
    queue_.push_or_lower(node, label + left);
}

void DemandSearch::expand_served(VertexId here, const RelaxedDemand& demand, const float* prices) {
    const double label = label_[here];
    for (const SearchField::Neighbour& n : field_.neighbours(here)) {
        const double along = label + on(demand.service, n.length, n.passage) + prices[n.inwards];
        if (along < label_[n.to]) meet(n.to, along, trench_.label(n.to) + free_->cost[n.to], here, n.inwards);
    }
    meet(vertices_ + here, label + trench_.label(here), free_->cost[here], here, kNoPurse);
}

void DemandSearch::expand_excursion(VertexId here, const RelaxedDemand& demand, const float* prices) {
    const std::int32_t node = vertices_ + here;
    const double label = label_[node];
    if (free_way_out(here, prices)) {
        best_ = label + free_->cost[here];
        best_node_ = node;
        best_site_ = kNoPurse;
        return;
    }
    offer_sites(here, demand, prices);
    for (const SearchField::Neighbour& n : field_.neighbours(here)) {
        const double along = label + on(demand.service, n.length, n.passage) + prices[n.outwards];
        if (along < label_[vertices_ + n.to]) meet(vertices_ + n.to, along, free_->cost[n.to], node, n.outwards);
    }
}

void DemandSearch::offer_sites(VertexId here, const RelaxedDemand& demand, const float* prices) {
    for (const std::int32_t s : field_.sites_at(here)) {
        const Purse purse = field_.first_site() + static_cast<Purse>(s);
        const double asked =
            static_cast<double>(field_.relaxation().sites[s].per_unit) * static_cast<double>(demand.units);
        const double whole = label_[vertices_ + here] + asked + prices[purse];
        if (whole >= best_ || whole > most_) continue;
        best_ = whole;
        best_node_ = vertices_ + here;
        best_site_ = purse;
    }
}

void DemandSearch::expand_direct(VertexId here, const RelaxedDemand& demand, const float* prices) {
    const std::int32_t node = 2 * vertices_ + here;
    if (here == field_.source()) {
        best_ = label_[node];
        best_node_ = node;
        return;
    }
    for (const SearchField::Neighbour& n : field_.neighbours(here)) {
        const double along = label_[node] + on(demand.direct, n.length, n.passage) + prices[n.inwards];
        const std::int32_t there = 2 * vertices_ + n.to;
        if (along < label_[there]) meet(there, along, left_of_direct(n.to, demand), node, n.inwards);
    }
}

double DemandSearch::find(const RelaxedDemand& demand, const float* prices, double most) {
    constexpr double rounding = 1e-9;  // Sums of the same figures in another order differ by less.
    most_ = most + rounding * std::abs(most);
    free_ = &field_.excursions_of(demand);
    trench_.measure(prices, most_);
    double found = search(demand, prices);
    if (found == kInfinite && most < kInfinite) {  // A limit lost to rounding.
        most_ = kInfinite;
        trench_.measure(prices, most_);
        found = search(demand, prices);
    }
    for (const VertexId v : known_)
        way_out_[v] = WayOut::unknown;
    known_.clear();
    return found;
}

double DemandSearch::search(const RelaxedDemand& demand, const float* prices) {
    best_ = kInfinite;
    best_node_ = -1;
    used.clear();
    meet(demand.at, 0.0, trench_.label(demand.at) + free_->cost[demand.at], -1, kNoPurse);
    if (demand.may_be_direct) {
        meet(2 * vertices_ + demand.at, static_cast<double>(demand.direct_fixed), left_of_direct(demand.at, demand), -1,
             kNoPurse);
    }
    while (!queue_.empty() && queue_.top_key() < best_) {
        const std::int32_t node = queue_.pop();
        if (node >= 2 * vertices_) {
            expand_direct(node - 2 * vertices_, demand, prices);
        } else if (node >= vertices_) {
            expand_excursion(node - vertices_, demand, prices);
        } else {
            expand_served(node, demand, prices);
        }
    }
    if (best_node_ >= 0) trace();
    queue_.clear();
    for (const std::int32_t node : met_)
        label_[node] = kInfinite;
    met_.clear();
    return best_;
}

void DemandSearch::trace() {
    if (best_node_ < 2 * vertices_) {
        if (best_site_ != kNoPurse) used.push_back(best_site_);
        for (VertexId v = best_site_ == kNoPurse ? best_node_ - vertices_ : -1; v >= 0; v = free_->next[v])
            used.push_back(free_->by[v]);
    }
    for (std::int32_t node = best_node_; node >= 0; node = next_[node]) {
        if (by_[node] != kNoPurse) {
            used.push_back(by_[node]);
        } else if (next_[node] >= 0) {
            trench_.append_way(next_[node], used);
        }
    }
}

}  // namespace spadework::graph::two_level
