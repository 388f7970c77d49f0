#include "graph/dual_ascent.hpp"

#include <algorithm>
#include <limits>

#include "graph/label_heap.hpp"

namespace spadework::graph {

namespace {

constexpr double kNothing = 1e-12;  ///< Share of a figure that counts as rounding.

/// A small map from vertices to the order in which one demand met them.
class MetVertices {
public:
    /// The vertex's number, new or known.
    std::uint32_t number(VertexId v) {
        if (2 * (count_ + 1) > slots_.size()) grow();
        Slot& slot = find(v);
        if (slot.vertex < 0) slot = {v, count_++};
        return slot.number;
    }
    [[nodiscard]] std::uint32_t count() const { return count_; }

private:
    struct Slot {
        VertexId vertex = -1;
        std::uint32_t number = 0;
    };
    Slot& find(VertexId v) {
        const std::size_t mask = slots_.size() - 1;
        std::size_t at = (static_cast<std::size_t>(v) * 0x9E3779B97F4A7C15ULL >> 20U) & mask;
        while (slots_[at].vertex >= 0 && slots_[at].vertex != v)
            at = (at + 1) & mask;
        return slots_[at];
    }
    void grow() {
        std::vector<Slot> old(std::max<std::size_t>(16, slots_.size() * 2));
        old.swap(slots_);
        for (const Slot& slot : old) {
            if (slot.vertex >= 0) find(slot.vertex) = slot;
        }
    }
    std::vector<Slot> slots_;
    std::uint32_t count_ = 0;
};

/// An arc into the set of one demand.
struct EnteringArc {
    ArcId arc = 0;
    std::uint32_t tail = 0;  ///< Number among the met vertices.
    VertexId tail_vertex = 0;
    double own = 0.0;    ///< Charge still to be paid.
    double price = 0.0;  ///< Opening cost paid.
};

struct GrowingSet {
    MetVertices met;
    std::vector<char> inside;
    std::vector<EnteringArc> entering;
};

class Ascent {
public:
    Ascent(const SearchNetwork& network, VertexId root, const std::vector<PathLength>& to_root)
        : network_(network),
          root_(root),
          to_root_(to_root),
          unpaid_(2 * network.edge_count()),
          sets_(network.demand_at.size()),
          result_(network.demand_at.size()),
          turn_(network.demand_at.size()) {
        for (std::size_t a = 0; a < unpaid_.size(); ++a)
            unpaid_[a] = network.opening[a / 2];
    }

    std::vector<AscentPrices> run() && {
        for (std::size_t d = 0; d < sets_.size(); ++d) {
            if (network_.demand_at[d] == root_) continue;
            sets_[d].met.number(network_.demand_at[d]);
            take_in(d, network_.demand_at[d], 0);
            queue(d);
        }
        while (!turn_.empty()) {
            const auto d = static_cast<std::size_t>(turn_.pop());
            const bool reached_root = take_turn(d);
            if (reached_root) {
                finish(d);
            } else {
                queue(d);
            }
        }
        return std::move(result_);
    }

private:
    void queue(std::size_t d) {
        turn_.push_or_lower(static_cast<std::int32_t>(d), static_cast<double>(sets_[d].entering.size()));
    }

    [[nodiscard]] std::size_t purse(ArcId arc) const {
        return static_cast<std::size_t>(network_.one_measure ? arc : edge_of(arc) * 2);
    }

    void take_in(std::size_t d, VertexId vertex, std::uint32_t number) {
        GrowingSet& set = sets_[d];
        if (set.inside.size() <= number) set.inside.resize(number + 1, 0);
        set.inside[number] = 1;
        for (const Step& step : network_.steps.from(vertex)) {
            const std::uint32_t tail = set.met.number(step.to);
            if (set.inside.size() <= tail) set.inside.resize(tail + 1, 0);
            if (set.inside[tail]) continue;
            const PathRate& rate = network_.rate[d];
            const double own = charge(rate, network_.reach[step.edge]) + charge(rate, to_root_[step.to]) -
                               charge(rate, to_root_[vertex]);
            set.entering.push_back({arc_from(network_, step.edge, step.to), tail, step.to, std::max(own, 0.0), 0.0});
        }
    }

    /// Pays until some vertices join the set; true when the root does.
    bool take_turn(std::size_t d) {
        GrowingSet& set = sets_[d];
        for (;;) {
            double pay = std::numeric_limits<double>::infinity();
            for (const EnteringArc& arc : set.entering)
                pay = std::min(pay, left_to_pay(arc));
            joining_.clear();
            for (EnteringArc& arc : set.entering) {
                pay_on(arc, pay);
                if (left_to_pay(arc) <= 0.0) joining_.push_back({arc.tail_vertex, arc.tail});
            }
            result_[d].paid += pay;
            if (!joining_.empty()) break;
        }
        bool reached_root = false;
        for (const auto& [vertex, number] : joining_) {
            reached_root = reached_root || vertex == root_;
            if (!set.inside[number]) take_in(d, vertex, number);
        }
        drop_inner_arcs(d);
        return reached_root;
    }

    [[nodiscard]] double left_to_pay(const EnteringArc& arc) const {
        return arc.own > 0.0 ? arc.own : unpaid_[purse(arc.arc)];
    }

    void pay_on(EnteringArc& arc, double pay) {
        const double unit = kNothing * (network_.opening[edge_of(arc.arc)] + pay);
        if (arc.own > 0.0) {
            arc.own = arc.own - pay <= unit ? 0.0 : arc.own - pay;
            return;
        }
        double& unpaid = unpaid_[purse(arc.arc)];
        const double paid = std::min(pay, unpaid);
        unpaid = unpaid - paid <= unit ? 0.0 : unpaid - paid;
        arc.price += paid;
    }

    void drop_inner_arcs(std::size_t d) {
        GrowingSet& set = sets_[d];
        std::size_t kept = 0;
        for (const EnteringArc& arc : set.entering) {
            if (!set.inside[arc.tail]) {
                set.entering[kept++] = arc;
            } else if (arc.price > 0.0) {
                result_[d].prices.push_back({arc.arc, arc.price});
            }
        }
        set.entering.resize(kept);
    }

    void finish(std::size_t d) {
        for (const EnteringArc& arc : sets_[d].entering) {
            if (arc.price > 0.0) result_[d].prices.push_back({arc.arc, arc.price});
        }
        sets_[d] = GrowingSet{};
    }

    const SearchNetwork& network_;
    VertexId root_;
    const std::vector<PathLength>& to_root_;
    std::vector<double> unpaid_;
    std::vector<GrowingSet> sets_;
    std::vector<AscentPrices> result_;
    LabelHeap<double> turn_;
    std::vector<std::pair<VertexId, std::uint32_t>> joining_;
};

}  // namespace

std::vector<AscentPrices> dual_ascent(const SearchNetwork& network, VertexId root,
                                      const std::vector<PathLength>& to_root) {
    return Ascent(network, root, to_root).run();
}

}  // namespace spadework::graph
