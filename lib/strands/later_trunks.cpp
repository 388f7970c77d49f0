#include "strands/later_trunks.hpp"

#include <algorithm>
#include <cmath>

#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// Chances below this cost nothing that shows.
constexpr double nothing = 1e-15;

/// Prices of the first, second, … further trunk. From some number on all cost the same, as what had room is full.
std::vector<double> prices_in_order(const Scenario& scenario, const TrunkRun& run, const CableProduct& cable,
                                    int spare_ducts) {
    int most_room = spare_ducts;
    for (const TrunkStretch& stretch : run.stretches)
        most_room = std::max(most_room, stretch.room);
    std::vector<double> prices;
    for (int before = 0; before <= most_room; ++before)
        prices.push_back(price_of_later_trunk(scenario, run, cable, before, spare_ducts));
    return prices;
}

LaterTrunks trunks_of(const Scenario& scenario, const GrowthByYear& growth, int product,
                      const std::vector<double>& prices, int spare) {
    const CableProduct& cable = scenario.catalogue.cables[static_cast<std::size_t>(product)];
    LaterTrunks later;
    later.product = product;
    for (std::size_t year = 0; year < growth.years(); ++year) {
        const double discount = std::pow(1 + scenario.growth.discount_rate.fraction(), -static_cast<double>(year));
        double expected = 0;
        for (std::size_t j = 0;; ++j) {
            const long long held = spare + static_cast<long long>(j) * cable.strands;
            const double now = growth.chance_of_more(year, held);
            if (now <= nothing) break;
            const double before = year > 0 ? growth.chance_of_more(year - 1, held) : 0;
            expected += prices[std::min(j, prices.size() - 1)] * std::max(0.0, now - before);
        }
        later.years.push_back({growth.chance_of_more(year, spare), discount * expected});
        later.expected += later.years.back().expected;
    }
    return later;
}

}  // namespace

GrowthByYear::GrowthByYear(const Scenario& scenario) {
    for (int year = 0; year <= scenario.growth.horizon_years; ++year) {
        at_horizon_ = all_growth(scenario, year);
        std::vector<double> more(at_horizon_.size(), 0.0);
        for (std::size_t k = more.size() - 1; k > 0; --k)
            more[k - 1] = more[k] + at_horizon_[k];
        more_.push_back(std::move(more));
    }
}

double GrowthByYear::chance_of_more(std::size_t year, long long strands) const {
    if (strands < 0) return 1.0;
    const std::vector<double>& more = more_[year];
    return static_cast<std::size_t>(strands) < more.size() ? more[static_cast<std::size_t>(strands)] : 0.0;
}

LaterTrunks later_trunks(const Scenario& scenario, const TrunkRun& run, const GrowthByYear& growth, int spare,
                         int spare_ducts) {
    LaterTrunks best;
    const auto& cables = scenario.catalogue.cables;
    for (int p = 0; p < static_cast<int>(cables.size()); ++p) {
        const CableProduct& cable = cables[static_cast<std::size_t>(p)];
        if (cable.strands < strands_per_link(scenario.rules.strand_use)) continue;
        const auto prices = prices_in_order(scenario, run, cable, spare_ducts);
        LaterTrunks later = trunks_of(scenario, growth, p, prices, spare);
        if (best.product < 0 || later.expected < best.expected) best = std::move(later);
    }
    return best;
}

}  // namespace spadework
