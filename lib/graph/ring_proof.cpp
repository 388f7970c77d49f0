#include "graph/ring_proof.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "graph/label_heap.hpp"
#include "graph/ring_bridges.hpp"

namespace spadework::graph::rings {

namespace {

constexpr WideCost kNever = WideCost{1} << 100;

/// One cut, with the least of what its edges cost.
struct PricedCut {
    VertexId one = 0;
    VertexId other = 0;
    bool bridge = false;
    WideCost price = 0;         ///< Of one pass.
    WideCost twice = 0;         ///< Of two passes, over a bridge: by one edge, for by two it is no less than by either.
    VertexId passed_from = -1;  ///< Where the first way came from to pass it, or -1.
};

/// Two ways one after the other, the second of which may undo the first. What it costs less than nothing to pass is
/// made up for by what the first way's search found (Johnson 1977), but for a bridge, behind which all is reached by it
/// alone; where a label falls again, it is followed again.
class TwoWays {
public:
    TwoWays(const RingProblem& problem, const std::vector<Cost>& pass_charges)
        : problem_(problem),
          pass_charges_(pass_charges),
          cuts_at_(problem.vertex_count),
          waiting_(static_cast<std::size_t>(problem.vertex_count)) {
        const std::vector<char> bridges = bridges_of(problem);
        std::map<std::int32_t, std::size_t> place;
        for (std::size_t e = 0; e < problem.edges.size(); ++e) {
            const SharedCostEdge& edge = problem.edges[e];
            const auto [entry, fresh] = place.try_emplace(problem.cut_of[e], cuts_.size());
            cut_at_.push_back(entry->second);
            if (!fresh) continue;
            cuts_.push_back({edge.tail, edge.head, bridges[e] != 0, 0, 0, -1});
            cuts_at_[edge.tail].push_back(entry->second);
            cuts_at_[edge.head].push_back(entry->second);
        }
    }

    WideCost find(VertexId stop, const std::vector<EdgePrice>& prices) {
        set_prices(prices);
        if (stop == problem_.source) return 0;
        made_up_.assign(cuts_at_.size(), 0);
        std::vector<WideCost> reached = one_way();
        const WideCost first = reached[stop];
        for (VertexId at = stop; at != problem_.source;) {
            PricedCut& cut = cuts_[by_[at]];
            at = cut.one == at ? cut.other : cut.one;
            cut.passed_from = at;
        }
        made_up_ = std::move(reached);
        return first + one_way()[stop] + made_up_[stop];
    }

private:
    void set_prices(const std::vector<EdgePrice>& prices) {
        std::vector<WideCost> of_edge(pass_charges_.begin(), pass_charges_.end());
        for (const EdgePrice& p : prices)
            of_edge[p.edge] += p.price;
        for (PricedCut& cut : cuts_) {
            cut.price = cut.twice = kNever;
            cut.passed_from = -1;
        }
        for (std::size_t e = 0; e < of_edge.size(); ++e) {
            PricedCut& cut = cuts_[cut_at_[e]];
            cut.price = std::min(cut.price, of_edge[e]);
            cut.twice = std::min(cut.twice, of_edge[e] + pass_charges_[e]);
        }
    }

    /// What passing the cut from a vertex costs: it is undone from the other side, and a bridge's price is paid once.
    static WideCost price_from(const PricedCut& cut, VertexId from) {
        if (cut.passed_from < 0) return cut.price;
        if (cut.bridge) return cut.twice - cut.price;
        return cut.passed_from == from ? kNever : -cut.price;
    }

    std::vector<WideCost> one_way() {
        std::vector<WideCost> label(cuts_at_.size(), kNever);
        by_.assign(cuts_at_.size(), 0);
        label[problem_.source] = 0;
        waiting_.push_or_lower(problem_.source, 0);
        while (!waiting_.empty()) {
            const VertexId here = waiting_.pop();
            for (const std::size_t c : cuts_at_[here]) {
                const WideCost price = price_from(cuts_[c], here);
                const VertexId to = cuts_[c].one == here ? cuts_[c].other : cuts_[c].one;
                if (price >= kNever || made_up_[to] >= kNever) continue;
                const WideCost along = label[here] + price + made_up_[here] - made_up_[to];
                if (along >= label[to]) continue;
                label[to] = along;
                by_[to] = c;
                waiting_.push_or_lower(to, along);
            }
        }
        return label;
    }

    const RingProblem& problem_;
    const std::vector<Cost>& pass_charges_;  ///< By edge.
    std::vector<PricedCut> cuts_;
    std::vector<std::size_t> cut_at_;                ///< By edge.
    std::vector<std::vector<std::size_t>> cuts_at_;  ///< By vertex.
    std::vector<std::size_t> by_;                    ///< By vertex the cut by which the last way came.
    std::vector<WideCost> made_up_;                  ///< By vertex.
    LabelHeap<WideCost> waiting_;
};

}  // namespace

WideCost least_two_ways(const RingProblem& problem, const ChainCertificate& certificate) {
    TwoWays ways(problem, certificate.pass_charges);
    WideCost sum = 0;
    for (std::size_t t = 0; t < problem.stops.size(); ++t)
        sum += ways.find(problem.stops[t], certificate.joining_prices[t]);
    return sum;
}

}  // namespace spadework::graph::rings
