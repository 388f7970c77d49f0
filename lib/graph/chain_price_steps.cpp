// How prices step: flows averaged over passes, and prices moved along them.

#include <algorithm>
#include <span>

#include "graph/chain_prices.hpp"
#include "graph/chain_purse.hpp"

namespace spadework::graph::chains {

namespace {

constexpr double kFlowKept = 0.01;  ///< Smaller averaged flows are dropped.
constexpr std::size_t kEdgeBatch = 512;
constexpr std::size_t kStopBatch = 2;
constexpr int kPassesBetweenGroups = 10;

VertexId across(const JoinedEdge& edge, VertexId from) {
    return edge.tail == from ? edge.head : edge.tail;
}

}  // namespace

/// What this pass counts in the averaged flows.
double ChainPrices::newest() const {
    if (first_pass_) return 1.0;
    return std::max(rule_.least_weight, rule_.first_weight / (1.0 + steps_ / rule_.halved_after));
}

void ChainPrices::add_flow(std::size_t way, std::int32_t slot, double flow, Scratch& s) {
    std::vector<SlotPrice>& paid = point_.paid[way];
    if (s.entry[slot] < 0) {
        s.entry[slot] = static_cast<std::int32_t>(paid.size());
        paid.push_back({slot, 0.0, 0.0});
    }
    paid[s.entry[slot]].flow += flow;
}

/// Averages a way, and the hops that arrive at its stop or close rings from there, into their flows.
void ChainPrices::count_flows(std::size_t way, Scratch& s) {
    std::vector<SlotPrice>& paid = point_.paid[way];
    for (std::size_t i = 0; i < paid.size(); ++i) {
        paid[i].flow *= 1.0 - newest();
        s.entry[paid[i].slot] = static_cast<std::int32_t>(i);
    }
    const std::size_t stops = network_.stops.size();
    if (way < stops) {
        for (std::size_t i = 0; i < way_[way].size(); ++i) {
            if (i > 0 && way_[way][i] == way_[way][i - 1]) continue;  // A bridge of rings, paid for once.
            add_flow(way, way_[way][i], newest(), s);
        }
        count_hops(way, s);
    } else {
        count_hop(way, network_.stops[way - stops], network_.source, closing_use_[way - stops], s);
    }
    for (const SlotPrice& p : paid)
        s.entry[p.slot] = -1;
}

void ChainPrices::count_hops(std::size_t stop, Scratch& s) {
    double missing = 1.0;
    const std::size_t stops = network_.stops.size();
    for (std::size_t from = 0; from <= stops; ++from) {
        const double use = hop_use_[stop * (stops + 1) + from];
        missing -= use;
        count_hop(stop, from == stops ? network_.source : network_.stops[from], network_.stops[stop], use, s);
    }
    visit_flow_[stop] += newest() * (missing - visit_flow_[stop]);
}

void ChainPrices::count_ways() {
    for (double& flow : ways_flow_)
        flow *= 1.0 - newest();
    for (const std::vector<std::int32_t>& way : way_) {
        for (const std::int32_t slot : way)
            ways_flow_[slot / 3] += newest() / longest_;
    }
}

/// Averages the pass's hops, and the entries into groups that they miss; now and then looks for more groups.
void ChainPrices::count_entries() {
    for (std::size_t i = 0; i < hop_flow_.size(); ++i)
        hop_flow_[i] += newest() * (hop_use_[i] - hop_flow_[i]);
    const std::vector<double> missing = groups_.missing(hop_use_);
    for (std::size_t g = 0; g < missing.size(); ++g)
        entry_flow_[g] += newest() * (missing[g] - entry_flow_[g]);
    if (steps_ % kPassesBetweenGroups != 0) return;
    groups_.find_more(hop_flow_);
    entry_flow_ = groups_.missing(hop_flow_);
    point_.entry.resize(groups_.size(), 0.0);
}

void ChainPrices::count_hop(std::size_t way, VertexId from, VertexId to, double use, Scratch& s) {
    if (use <= 0.0) return;
    for (VertexId at = from; at != to;) {
        const EdgeId edge = edge_of(via_[way][at]);
        add_flow(way, 3 * edge + SlotPrice::kArrival, newest() * use, s);
        at = across(network_.edges[edge], at);
    }
}

void ChainPrices::list_by_edge() {
    const std::size_t edges = network_.edges.size();
    first_of_edge_.assign(edges + 1, 0);
    for (const auto& paid : point_.paid) {
        for (const SlotPrice& p : paid)
            ++first_of_edge_[static_cast<std::size_t>(p.slot / 3) + 1];
    }
    for (std::size_t e = 0; e < edges; ++e)
        first_of_edge_[e + 1] += first_of_edge_[e];
    by_edge_.resize(first_of_edge_[edges]);
    std::vector<std::size_t> next(first_of_edge_.begin(), first_of_edge_.end() - 1);
    for (auto& paid : point_.paid) {
        for (SlotPrice& p : paid)
            by_edge_[next[static_cast<std::size_t>(p.slot / 3)]++] = &p;
    }
}

/// Squared length of the direction: all flows, what hops earn by their charge on each edge, and visits missing.
double ChainPrices::squares() const {
    double sum = 0.0;
    for (std::size_t e = 0; e + 1 < first_of_edge_.size(); ++e) {
        double hops = 0.0;
        for (std::size_t i = first_of_edge_[e]; i < first_of_edge_[e + 1]; ++i) {
            const SlotPrice& p = *by_edge_[i];
            sum += scale_[e] * p.flow * p.flow;
            if (p.slot % 3 == SlotPrice::kArrival) hops += p.flow;
        }
        sum += scale_[e] * hops * hops;
        if (closed_) sum += scale_[e] * ways_flow_[e] * ways_flow_[e];
    }
    return sum;
}

double ChainPrices::project(std::size_t edge, double length) {
    const std::span<SlotPrice* const> wishes(by_edge_.data() + first_of_edge_[edge],
                                             first_of_edge_[edge + 1] - first_of_edge_[edge]);
    const JoinedEdge& e = network_.edges[edge];
    if (closed_) {
        PassCharges charges{point_.hop_charge[edge], point_.ways_charge[edge]};
        const double moved =
            settle_ring_purse({e.opening, e.charge}, wishes, scale_[edge] * length, ways_flow_[edge], charges);
        point_.hop_charge[edge] = charges.hop;
        point_.ways_charge[edge] = charges.ways;
        return moved / scale_[edge];
    }
    return settle_purse({e.opening, e.charge}, wishes, scale_[edge] * length, point_.hop_charge[edge]) / scale_[edge];
}

void ChainPrices::step(double target) {
    ++steps_;
    team_.run(via_.size(), kStopBatch, [&](std::size_t t, std::size_t worker) { count_flows(t, scratch_[worker]); });
    if (closed_) count_ways();
    count_entries();
    first_pass_ = false;
    list_by_edge();
    double visits = 0.0;
    for (const double missing : visit_flow_)
        visits += missing * missing;
    const double earnings = rule_.visit_scale * visits + EntryGroups::squared_step(entry_flow_, point_.entry);
    const double all = squares() + earnings;
    const double gap = std::max(target - bound_, 0.0);
    if (all <= 0.0 || gap <= 0.0) return;
    const double length = factor_ * gap / (all * move_share_);
    team_.run(network_.edges.size(), kEdgeBatch,
              [&](std::size_t edge, std::size_t) { moved_[edge] = project(edge, length); });
    double moved = earnings * length * length;
    for (const double m : moved_)
        moved += m;
    for (std::size_t t = 0; t < visit_flow_.size(); ++t)
        point_.visit[t] += rule_.visit_scale * length * visit_flow_[t];
    EntryGroups::step(entry_flow_, length, point_.entry);
    for (std::vector<SlotPrice>& paid : point_.paid)
        std::erase_if(paid, [](const SlotPrice& p) { return p.price <= 0.0 && p.flow < kFlowKept; });
    const double share = std::clamp(moved / (length * length * all), 1e-2, 1.0);
    move_share_ += rule_.memory * (share - move_share_);
}

std::vector<double> ChainPrices::edge_use() const {
    std::vector<double> use(network_.edges.size(), 0.0);
    for (const auto& paid : point_.paid) {
        for (const SlotPrice& p : paid) {
            if (p.slot % 3 != SlotPrice::kArrival) use[p.slot / 3] = std::max(use[p.slot / 3], p.flow);
        }
    }
    return use;
}

}  // namespace spadework::graph::chains
