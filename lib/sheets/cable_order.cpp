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

void fill_reels(const Scenario& scenario, const Plan& plan, int product, std::vector<Reel>& reels) {
    const auto first = static_cast<std::ptrdiff_t>(reels.size());
    const Length longest = product_at(scenario, product).longest;
    for (const int c : longest_first(plan, product)) {
        const Length need = plan.cables[static_cast<std::size_t>(c)].lengths.with_slack;
        auto reel = std::find_if(reels.begin() + first, reels.end(),
                                 [&](const Reel& one) { return one.needed + need <= longest; });
        if (reel == reels.end()) reel = reels.insert(reels.end(), Reel{product, {}, {}, {}});
        reel->needed += need;
        reel->cables.push_back(c);
    }
}

/// Reels for all cables of the plan. They come in the same steps as cables do.
std::vector<Reel> reels_of(const Scenario& scenario, const Plan& plan) {
    std::vector<Reel> reels;
    for (std::size_t product = 0; product < scenario.catalogue.cables.size(); ++product)
        fill_reels(scenario, plan, static_cast<int>(product), reels);
    for (Reel& reel : reels)
        reel.ordered = rounded_up(reel.needed, Length::from_metres(1));
    return reels;
}

void offer_reels(const Scenario& scenario, const Plan& plan, CableOrder& order) {
    if (scenario.rules.termination == Termination::factory) return;
    std::vector<Reel> reels = reels_of(scenario, plan);
    Money pooled;
    for (const Reel& reel : reels)
        pooled += amount(product_at(scenario, reel.product).price_per_metre, reel.ordered);
    if (pooled >= order.amount) return;
    order.saved_by_reels = order.amount - pooled;
    order.reels = std::move(reels);
}

}  // namespace

CableOrder cable_order(const Scenario& scenario, const Plan& plan) {
    CableOrder order;
    order.rows = rows_of(scenario, plan);
    for (const OrderRow& row : order.rows) {
        order.ordered += row.ordered;
        order.needed += row.needed;
        order.amount += row.amount;
        order.waste += row.waste;
    }
    offer_reels(scenario, plan, order);
    return order;
}

}  // namespace spadework
