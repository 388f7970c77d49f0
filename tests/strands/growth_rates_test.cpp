#include "strands/growth_rates.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

Scenario growing_site() {
    Scenario site = small_site::site();
    site.growth.horizon_years = 10;
    site.growth.unnamed_links_per_year = 0.35;
    return site;
}

TrunkRun run_of(const Scenario& site) {
    return trunk_run(site, small_site::gate, {{small_site::drive, 0, 1}}, 0);
}

/// What is recommended at a rate, worked out on its own.
std::pair<int, bool> recommended_at(Scenario site, double rate) {
    site.growth.unnamed_links_per_year = rate;
    const StrandStudy study = study_strands(site, run_of(site));
    return {study.recommended, study.sizes[static_cast<std::size_t>(study.recommended)].duct_pays()};
}

}  // namespace

TEST_CASE("the site's own rate is among those shown, in its place") {
    const Scenario site = growing_site();
    const GrowthRates rates = recommendations_by_rate(site, run_of(site));
    CHECK(std::is_sorted(rates.rates.begin(), rates.rates.end(),
                         [](const auto& a, const auto& b) { return a.links_per_year < b.links_per_year; }));
    int own = 0;
    for (const RateOfGrowth& rate : rates.rates) {
        own += rate.of_the_site ? 1 : 0;
        CHECK(rate.of_the_site == (rate.links_per_year == 0.35));
    }
    CHECK(own == 1);
}

TEST_CASE("just below a switch the one is recommended, and at it the other") {
    const Scenario site = growing_site();
    const GrowthRates rates = recommendations_by_rate(site, run_of(site));
    REQUIRE_FALSE(rates.switches.empty());
    for (const RateSwitch& change : rates.switches) {
        CHECK(recommended_at(site, change.links_per_year) == std::pair{change.to, change.duct_to});
        CHECK(recommended_at(site, change.links_per_year - 0.001) == std::pair{change.from, change.duct_from});
    }
}

TEST_CASE("switches lead from the first recommendation to the last without a gap") {
    const Scenario site = growing_site();
    const GrowthRates rates = recommendations_by_rate(site, run_of(site));
    std::pair<int, bool> at = {rates.rates.front().recommended, rates.rates.front().spare_duct};
    for (const RateSwitch& change : rates.switches) {
        CHECK(at == std::pair{change.from, change.duct_from});
        at = {change.to, change.duct_to};
    }
    CHECK(at == std::pair{rates.rates.back().recommended, rates.rates.back().spare_duct});
}

}  // namespace spadework
