#include "graph/chain_purse.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "graph/chain_prices.hpp"
#include "graph/simplex_projection.hpp"

namespace spadework::graph::chains {

namespace {

constexpr int kTrials = 12;       ///< Usually a few are enough.
constexpr double kNarrow = 1e-6;  ///< Of what is wished for.

/// What is wished for on one edge, and what is to be taken off each kind of wish.
class Purse {
public:
    Purse(EdgeFigures edge, std::span<SlotPrice* const> prices, double length, double hop_charge) : edge_(edge) {
        double hops = 0.0;
        for (std::vector<double>& of_use : wishes_)
            of_use.clear();
        for (const SlotPrice* p : prices) {
            const int use = p->slot % 3;
            const double wish = p->price + length * p->flow;
            if (use == SlotPrice::kArrival) hops += p->flow;
            before_[use] += p->price;
            if (wish <= 0.0) continue;
            wishes_[use].push_back(wish);
            sum_[use] += wish;
        }
        hop_wish_ = hop_charge + length * hops;
        settle();
    }

    double cut[3] = {0.0, 0.0, 0.0};
    double new_hop_charge = 0.0;

private:
    void settle() {
        const double all = edge_.opening + edge_.charge;
        new_hop_charge = std::min(hop_wish_, edge_.charge);
        const int more =
            sum_[SlotPrice::kForwards] >= sum_[SlotPrice::kBackwards] ? SlotPrice::kForwards : SlotPrice::kBackwards;
        const int less = SlotPrice::kBackwards - more;
        if (sum_[more] + sum_[SlotPrice::kArrival] + new_hop_charge <= all) return;
        const double common = cut_for_arrivals(all, &wishes_[more]).taken;
        if (sum_[less] <= sum_above(wishes_[more], common)) {
            cut[more] = common;
        } else {
            settle_both_ways(all);
        }
    }

    /// Both directions press against each other: what they leave to arrivals is where the cuts of both come to that of
    /// arrivals. Cuts are piecewise linear, so the straight line from where they are leads there in a few steps.
    void settle_both_ways(double all) {
        double low = 0.0;
        double high = all;
        double ways = std::clamp(std::max(before_[SlotPrice::kForwards], before_[SlotPrice::kBackwards]), 0.1 * all,
                                 0.9 * all);  // About as before.
        for (int i = 0; i < kTrials; ++i) {
            const Excess here = excess(ways, all);
            if (std::abs(here.cut) <= kNarrow * (hop_wish_ + sum_[SlotPrice::kArrival] + all)) return;
            (here.cut > 0.0 ? low : high) = ways;
            const double next = here.slope > 0.0 ? ways + here.cut / here.slope : low;
            ways = next > low && next < high ? next : (low + high) / 2;
        }
    }

    struct Excess {
        double cut = 0.0;    ///< What comes off the ways more than off arrivals.
        double slope = 0.0;  ///< How much less for each unit more that the ways may come to.
    };

    /// Takes off what makes both directions fit `ways` and the rest fit what is left.
    Excess excess(double ways, double all) {
        const Cut forwards = cut_for(SlotPrice::kForwards, ways);
        const Cut backwards = cut_for(SlotPrice::kBackwards, ways);
        cut[SlotPrice::kForwards] = forwards.taken;
        cut[SlotPrice::kBackwards] = backwards.taken;
        const Cut arrivals = cut_for_arrivals(all - ways, nullptr);
        return {forwards.taken + backwards.taken - arrivals.taken,
                slope(forwards) + slope(backwards) + slope(arrivals)};
    }

    static double slope(Cut cut) { return cut.from > 0 ? 1.0 / static_cast<double>(cut.from) : 0.0; }

    Cut cut_for(int use, double total) {
        if (sum_[use] <= total) return {};
        scratch_ = wishes_[use];
        return counted_cut_to_fit(scratch_, total);
    }

    /// One cut for arrivals, the hop charge and, where given, one direction, so that they fit the total. The hop charge
    /// stays below the edge's charge.
    Cut cut_for_arrivals(double total, const std::vector<double>* ways) {
        gather(ways);
        scratch_.push_back(hop_wish_);
        Cut all = counted_cut_to_fit(scratch_, total);
        new_hop_charge = std::max(hop_wish_ - all.taken, 0.0);
        if (new_hop_charge > edge_.charge) {
            gather(ways);
            new_hop_charge = edge_.charge;
            all = counted_cut_to_fit(scratch_, std::max(total - edge_.charge, 0.0));
        }
        cut[SlotPrice::kArrival] = all.taken;
        return all;
    }

    void gather(const std::vector<double>* ways) {
        scratch_ = wishes_[SlotPrice::kArrival];
        if (ways != nullptr) scratch_.insert(scratch_.end(), ways->begin(), ways->end());
    }

    static double sum_above(const std::vector<double>& wishes, double cut) {
        double sum = 0.0;
        for (const double wish : wishes)
            sum += std::max(wish - cut, 0.0);
        return sum;
    }

    EdgeFigures edge_;
    double hop_wish_ = 0.0;
    double sum_[3] = {0.0, 0.0, 0.0};     ///< Of wishes.
    double before_[3] = {0.0, 0.0, 0.0};  ///< Of prices.
    static thread_local std::vector<double> wishes_[3];
    static thread_local std::vector<double> scratch_;
};

thread_local std::vector<double> Purse::wishes_[3];
thread_local std::vector<double> Purse::scratch_;

}  // namespace

double settle_purse(EdgeFigures edge, std::span<SlotPrice* const> prices, double length, double& hop_charge) {
    if (prices.empty()) return 0.0;
    const Purse purse(edge, prices, length, hop_charge);
    double moved = (purse.new_hop_charge - hop_charge) * (purse.new_hop_charge - hop_charge);
    hop_charge = purse.new_hop_charge;
    for (SlotPrice* p : prices) {
        const double price = std::max(p->price + length * p->flow - purse.cut[p->slot % 3], 0.0);
        moved += (price - p->price) * (price - p->price);
        p->price = price;
    }
    return moved;
}

double settle_ring_purse(EdgeFigures edge, std::span<SlotPrice* const> prices, double length, double ways,
                         PassCharges& charges) {
    if (prices.empty()) return 0.0;
    double hops = 0.0;
    double together[2] = {charges.hop, charges.ways + length * ways};
    std::vector<double> wishes;
    for (const SlotPrice* p : prices) {
        if (p->slot % 3 == SlotPrice::kArrival) hops += p->flow;
        wishes.push_back(std::max(p->price + length * p->flow, 0.0));
    }
    together[0] += length * hops;
    const double all = edge.opening + edge.charge;
    std::vector<double> scratch = wishes;
    scratch.insert(scratch.end(), together, together + 2);
    double cut = cut_to_fit(scratch, all);
    PassCharges after{std::max(together[0] - cut, 0.0), std::max(together[1] - cut, 0.0)};
    if (after.hop + after.ways > edge.charge) {
        scratch.assign(together, together + 2);
        const double pass_cut = cut_to_fit(scratch, edge.charge);
        after = {std::max(together[0] - pass_cut, 0.0), std::max(together[1] - pass_cut, 0.0)};
        scratch = wishes;
        cut = cut_to_fit(scratch, std::max(edge.opening, 0.0));
    }
    double moved = (after.hop - charges.hop) * (after.hop - charges.hop) +
                   (after.ways - charges.ways) * (after.ways - charges.ways);
    charges = after;
    for (std::size_t i = 0; i < prices.size(); ++i) {
        const double price = std::max(wishes[i] - cut, 0.0);
        moved += (price - prices[i]->price) * (price - prices[i]->price);
        prices[i]->price = price;
    }
    return moved;
}

}  // namespace spadework::graph::chains
