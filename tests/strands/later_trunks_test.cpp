#include "strands/later_trunks.hpp"

#include <cmath>

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

using namespace small_site;

void add_future(Scenario& site, double chance, int year, int links) {
    FutureBuilding building;
    building.chance = chance;
    building.year = year;
    building.links = links;
    site.growth.buildings.push_back(building);
}

TrunkRun drive_run(const Scenario& site) {
    return trunk_run(site, gate, {{drive, 0, 1}}, 0);
}

/// Expected cost by trying every outcome of the named buildings, year by year, with further trunks of one product.
double by_every_outcome(const Scenario& site, const CableProduct& cable, int spare, int ducts) {
    const auto& future = site.growth.buildings;
    double expected = 0;
    for (unsigned outcome = 0; outcome < 1U << future.size(); ++outcome) {
        double chance = 1;
        for (std::size_t i = 0; i < future.size(); ++i)
            chance *= (outcome >> i & 1U) != 0 ? future[i].chance : 1 - future[i].chance;
        int laid = 0;
        for (int year = 0; year <= site.growth.horizon_years; ++year) {
            int strands = 0;
            for (std::size_t i = 0; i < future.size(); ++i)
                strands += (outcome >> i & 1U) != 0 && future[i].year <= year ? 2 * future[i].links : 0;
            for (; spare + laid * cable.strands < strands; ++laid) {
                const double price = price_of_later_trunk(site, drive_run(site), cable, laid, ducts);
                expected += chance * price / std::pow(1 + site.growth.discount_rate.fraction(), year);
            }
        }
    }
    return expected;
}

}  // namespace

TEST_CASE("the expected cost is what trying every outcome gives, with trunks that run out in their turn") {
    Scenario site = small_site::site();
    site.catalogue.cables.resize(1);  // Four strands, so that several further trunks are needed.
    site.growth.horizon_years = 8;
    site.growth.discount_rate = Percent::from_percent(4);
    add_future(site, 0.5, 1, 2);
    add_future(site, 0.3, 3, 5);
    add_future(site, 0.8, 3, 1);
    add_future(site, 0.25, 8, 4);
    add_future(site, 1, 0, 1);
    const GrowthByYear growth(site);
    for (const int spare : {0, 1, 2, 5, 9, 30}) {
        for (const int ducts : {0, 1}) {
            const LaterTrunks later = later_trunks(site, drive_run(site), growth, spare, ducts);
            const double expected = by_every_outcome(site, site.catalogue.cables[0], spare, ducts);
            CHECK(later.expected == doctest::Approx(expected).epsilon(1e-12));
        }
    }
}

TEST_CASE("of several products the one that makes the expected cost least is taken") {
    Scenario site = small_site::site();
    site.growth.horizon_years = 5;
    add_future(site, 0.9, 2, 4);
    add_future(site, 0.9, 4, 4);
    const GrowthByYear growth(site);
    const LaterTrunks later = later_trunks(site, drive_run(site), growth, 2, 0);
    double least = by_every_outcome(site, site.catalogue.cables[0], 2, 0);
    for (const CableProduct& cable : site.catalogue.cables)
        least = std::min(least, by_every_outcome(site, cable, 2, 0));
    CHECK(later.expected == doctest::Approx(least).epsilon(1e-12));
    CHECK(site.catalogue.cables[static_cast<std::size_t>(later.product)].strands > 4);
}

TEST_CASE("the chance to run out rises year by year, and the last year's is the study's") {
    Scenario site = small_site::site();
    site.growth.horizon_years = 10;
    site.growth.unnamed_links_per_year = 0.2;
    const GrowthByYear growth(site);
    const LaterTrunks later = later_trunks(site, drive_run(site), growth, 8, 0);
    REQUIRE(later.years.size() == 11);
    CHECK(later.years.front().chance_run_out == 0);
    for (std::size_t year = 1; year < later.years.size(); ++year)
        CHECK(later.years[year].chance_run_out > later.years[year - 1].chance_run_out);
    // 2 links expected in 10 years, 4 fit: the table's 0.9473.
    CHECK(std::abs(1 - later.years.back().chance_run_out - 0.9473) < 0.00005);
}

TEST_CASE("without growth nothing is expected later") {
    const Scenario site = small_site::site();
    const LaterTrunks later = later_trunks(site, drive_run(site), GrowthByYear(site), 0, 0);
    CHECK(later.expected == 0);
}

TEST_CASE("where no cable holds a link there is nothing to lay later") {
    Scenario site = small_site::site();
    site.catalogue.cables.clear();
    site.growth.unnamed_links_per_year = 1;
    CHECK(later_trunks(site, drive_run(site), GrowthByYear(site), 0, 0).product == -1);
}

}  // namespace spadework
