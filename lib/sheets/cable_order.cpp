#include "sheets/cable_order.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace spadework {

namespace {

const CableProduct& product_at(const Scenario& scenario, int product) {
    return scenario.catalogue.cables[static_cast<std::size_t>(product)];
}

std::vector<OrderRow> rows_of(const Scenario& scenario, const Plan& plan) {
    std::map<std::tuple<int, int, Length>, OrderRow> rows;
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        const PlannedCable& cable = plan.cables[c];
        const CableProduct& product = product_at(scenario, cable.product);
        OrderRow& row = rows[{product.strands, cable.product, cable.lengths.ordered}];
        row.product = cable.product;
        row.length = cable.lengths.ordered;
        ++row.pieces;
        row.ordered += cable.lengths.ordered;
        row.needed += cable.lengths.with_slack;
        row.amount += amount(product.price_per_metre, cable.lengths.ordered);
        row.waste += amount(product.price_per_metre, cable.lengths.ordered) -
                     amount(product.price_per_metre, cable.lengths.with_slack);
        row.cables.push_back(static_cast<int>(c));
    }
    std::vector<OrderRow> sorted;
    for (auto& [key, row] : rows)
        sorted.push_back(std::move(row));
    return sorted;
}

/// Cables of one product, longest first, ties by index.
std::vector<int> longest_first(const Plan& plan, int product) {
    std::vector<int> cables;
    for (std::size_t c = 0; c < plan.cables.size(); ++c) {
        if (plan.cables[c].product == product) cables.push_back(static_cast<int>(c));
    }
    std::ranges::stable_sort(cables, [&](int a, int b) {
        return plan.cables[static_cast<std::size_t>(a)].lengths.with_slack >
               plan.cables[static_cast<std::size_t>(b)].lengths.with_slack;
    });
    return cables;
}

Length rounded_up(Length length, Length step) {
    if (step.millimetres() <= 1) return length;
    return step * ((length.millimetres() + step.millimetres() - 1) / step.millimetres());
}

/// The first reel of those from `first` on that still has room; at the end where none has.
std::vector<OrderRow>::iterator reel_with_room(std::vector<OrderRow>& reels, std::size_t first, Length need,
                                               Length longest) {
    return std::find_if(reels.begin() + static_cast<std::ptrdiff_t>(first), reels.end(),
                        [&](const OrderRow& one) { return one.needed + need <= longest; });
}

void fill_reels(const Scenario& scenario, const Plan& plan, int product, std::vector<OrderRow>& reels) {
    const std::size_t first = reels.size();
    for (const int c : longest_first(plan, product)) {
        const Length need = plan.cables[static_cast<std::size_t>(c)].lengths.with_slack;
        auto reel = reel_with_room(reels, first, need, product_at(scenario, product).longest);
        if (reel == reels.end()) {
            reels.emplace_back();
            reel = reels.end() - 1;
            reel->product = product;
            reel->pieces = 1;
        }
        reel->needed += need;
        reel->cables.push_back(c);
    }
}

/// Reels for all cables of the plan, in whole metres as cable to be spliced is sold.
std::vector<OrderRow> reels_of(const Scenario& scenario, const Plan& plan) {
    std::vector<OrderRow> reels;
    for (std::size_t product = 0; product < scenario.catalogue.cables.size(); ++product)
        fill_reels(scenario, plan, static_cast<int>(product), reels);
    for (OrderRow& reel : reels) {
        const UnitPrice price = product_at(scenario, reel.product).price_per_metre;
        reel.length = reel.ordered = rounded_up(reel.needed, Length::from_metres(1));
        reel.amount = amount(price, reel.ordered);
        reel.waste = reel.amount - amount(price, reel.needed);
    }
    return reels;
}

OrderRow sum_of(const std::vector<OrderRow>& rows) {
    OrderRow sum;
    for (const OrderRow& row : rows) {
        sum.pieces += row.pieces;
        sum.ordered += row.ordered;
        sum.needed += row.needed;
        sum.amount += row.amount;
        sum.waste += row.waste;
    }
    return sum;
}

void offer_reels(const Scenario& scenario, const Plan& plan, CableOrder& order) {
    if (scenario.rules.termination == Termination::factory) return;
    std::vector<OrderRow> reels = reels_of(scenario, plan);
    const Money pooled = sum_of(reels).amount;
    if (pooled >= order.amount) return;
    order.saved_by_reels = order.amount - pooled;
    order.reels = std::move(reels);
}

}  // namespace

OrderRow CableOrder::total() const {
    return sum_of(rows);
}

OrderRow CableOrder::total_of_reels() const {
    return sum_of(reels);
}

CableOrder cable_order(const Scenario& scenario, const Plan& plan) {
    CableOrder order;
    order.rows = rows_of(scenario, plan);
    const OrderRow sum = order.total();
    order.ordered = sum.ordered;
    order.needed = sum.needed;
    order.amount = sum.amount;
    order.waste = sum.waste;
    offer_reels(scenario, plan, order);
    return order;
}

}  // namespace spadework
