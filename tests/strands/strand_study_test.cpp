#include "strands/strand_study.hpp"

#include <cmath>
#include <numeric>
#include <random>

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

/// A site of one building with so many duplex links, and a cable of each of the sizes at its price a metre in cents.
Scenario site_with(int links, const std::vector<std::pair<int, double>>& cables) {
    Scenario site;
    Building building;
    building.id = "house";
    building.links = {{BitRate::from_megabits(1000), links}};
    site.buildings = {building};
    for (const auto& [strands, price] : cables) {
        CableProduct cable;
        cable.id = "cable-" + std::to_string(strands);
        cable.strands = strands;
        cable.price_per_metre = UnitPrice::from_minor(price);
        site.catalogue.cables.push_back(cable);
    }
    return site;
}

/// The usual sizes, dearer as they grow.
const std::vector<std::pair<int, double>> usual = {{12, 100}, {24, 160}, {48, 250}, {72, 340}, {144, 600}, {200, 800}};

void set_policy(Scenario& site, double spare_percent, double headroom_percent) {
    site.rules.spare = {Percent::from_percent(spare_percent), 0, 0};
    site.growth.headroom = Percent::from_percent(headroom_percent);
}

/// Strands of the recommended cable, 0 for none.
int recommended_strands(const Scenario& site) {
    const StrandStudy study = study_strands(site);
    if (study.recommended < 0) return 0;
    const int product = study.sizes[static_cast<std::size_t>(study.recommended)].product;
    return site.catalogue.cables[static_cast<std::size_t>(product)].strands;
}

void add_future(Scenario& site, double chance, int year, int links) {
    FutureBuilding building;
    building.chance = chance;
    building.year = year;
    building.links = links;
    site.growth.buildings.push_back(building);
}

double cumulative(const std::vector<double>& distribution, int most) {
    return std::accumulate(distribution.begin(), distribution.begin() + most + 1, 0.0);
}

/// P(X <= 0), P(X <= 1), … for n equal trials, against a row of a table of four places.
void check_binomial(int n, double p, const std::vector<double>& table, int from = 0) {
    const auto size = static_cast<std::size_t>(n);
    const auto distribution = weighted_poisson_binomial(std::vector<double>(size, p), std::vector<int>(size, 1));
    REQUIRE(distribution.size() == size + 1);
    for (std::size_t i = 0; i < table.size(); ++i)
        CHECK(std::abs(cumulative(distribution, from + static_cast<int>(i)) - table[i]) < 0.00005);
}

}  // namespace

TEST_CASE("equal chances give the binomial table (NIST/SEMATECH e-Handbook 1.3.6.6.18, section from memory)") {
    check_binomial(10, 0.1, {0.3487, 0.7361, 0.9298, 0.9872});
    check_binomial(10, 0.3, {0.0282, 0.1493, 0.3828, 0.6496, 0.8497, 0.9527});
    check_binomial(10, 0.5, {0.6230}, 5);
    check_binomial(10, 0.5, {0.9893}, 8);
    check_binomial(20, 0.05, {0.3585, 0.7358, 0.9245, 0.9841});
    check_binomial(20, 0.1, {0.1216, 0.3917, 0.6769, 0.8670, 0.9568});
    check_binomial(20, 0.25, {0.9591}, 8);
}

TEST_CASE(
    "many rare buildings come close to the Poisson table (NIST/SEMATECH e-Handbook 1.3.6.6.19, section from memory)") {
    const std::vector<double> table = {0.1353, 0.4060, 0.6767, 0.8571, 0.9473, 0.9834, 0.9955};
    const auto distribution = weighted_poisson_binomial(std::vector<double>(20000, 0.0001), std::vector<int>(20000, 1));
    for (std::size_t k = 0; k < table.size(); ++k)
        CHECK(std::abs(cumulative(distribution, static_cast<int>(k)) - table[k]) < 0.0001);
}

TEST_CASE("unequal chances and sizes give what enumerating every outcome gives") {
    const std::vector<double> chances = {0.9, 0.25, 0.5, 0.07, 1.0, 0.0};
    const std::vector<int> sizes = {2, 4, 2, 6, 1, 3};
    std::vector<double> expected(19, 0.0);
    for (unsigned outcome = 0; outcome < 64; ++outcome) {
        double chance = 1;
        std::size_t strands = 0;
        for (unsigned i = 0; i < 6; ++i) {
            const bool comes = (outcome >> i & 1U) != 0;
            chance *= comes ? chances[i] : 1 - chances[i];
            strands += comes ? static_cast<std::size_t>(sizes[i]) : 0;
        }
        expected[strands] += chance;
    }
    const auto distribution = weighted_poisson_binomial(chances, sizes);
    REQUIRE(distribution.size() == expected.size());
    for (std::size_t k = 0; k < expected.size(); ++k)
        CHECK(distribution[k] == doctest::Approx(expected[k]).epsilon(1e-12));
    CHECK(cumulative(distribution, 18) == doctest::Approx(1.0).epsilon(1e-12));
}

TEST_CASE("no trials need nothing for certain") {
    CHECK(weighted_poisson_binomial({}, {}) == std::vector<double>{1.0});
}

TEST_CASE("40 strands with 20 % growth and 5 % spare take a cable of 72, 48 is too small (SPA-1, MIL-HDBK-2051(SH))") {
    Scenario site = site_with(20, usual);
    set_policy(site, 5, 20);
    CHECK(recommended_strands(site) == 72);
}

TEST_CASE("12 and 16 strands with 25 % spare take 24, or 18 where it is sold (SPA-2, UFGS-40 95 33.23 20)") {
    for (const int links : {6, 8}) {
        Scenario site = site_with(links, usual);
        set_policy(site, 25, 0);
        CHECK(recommended_strands(site) == 24);
    }
    Scenario site = site_with(6, {{12, 100}, {18, 130}, {24, 160}});
    set_policy(site, 25, 0);
    CHECK(recommended_strands(site) == 18);
}

TEST_CASE("120 pairs with 30 % take a cable of 200 (SPA-3, Illinois State University Design Guidelines 27 11 00)") {
    Scenario site = site_with(60, usual);
    set_policy(site, 30, 0);
    CHECK(study_strands(site).need.total() == 156);
    CHECK(recommended_strands(site) == 200);
}

TEST_CASE("a cable of exactly the need meets the policy, one strand fewer does not") {
    CHECK(recommended_strands(site_with(6, {{11, 100}, {12, 110}, {13, 120}})) == 12);
}

TEST_CASE("a larger cable that costs less is recommended, and of equal prices the larger") {
    CHECK(recommended_strands(site_with(6, {{12, 100}, {24, 90}})) == 24);
    CHECK(recommended_strands(site_with(6, {{12, 100}, {24, 100}, {48, 101}})) == 24);
}

TEST_CASE("when no cable holds the need none is recommended, and the reason says that it takes several") {
    const Scenario site = site_with(13, {{12, 100}, {24, 160}});
    const StrandStudy study = study_strands(site);
    CHECK(study.recommended == -1);
    CHECK(study.reason.find("26 strands in use") != std::string::npos);
    CHECK(study.reason.find("several cables") != std::string::npos);
}

TEST_CASE("each size tells its spare strands, its headroom, and the chance that named growth fits") {
    Scenario site = site_with(10, {{12, 100}, {24, 160}, {48, 250}});
    // Two buildings of two strands, one of four: 20 strands are in use, 4 are left of 24.
    add_future(site, 0.5, 3, 1);
    add_future(site, 0.5, 3, 1);
    add_future(site, 0.2, 10, 2);
    const StrandStudy study = study_strands(site);
    REQUIRE(study.sizes.size() == 3);
    CHECK(study.sizes[0].spare_strands == -8);
    CHECK(study.sizes[0].chance_enough == 0);
    CHECK_FALSE(study.sizes[0].meets_policy);
    CHECK(study.sizes[1].spare_strands == 4);
    CHECK(study.sizes[1].headroom_percent == doctest::Approx(20.0));
    // Too much only when the large one comes with any of the others: 0.2 x 0.75.
    CHECK(study.sizes[1].chance_enough == doctest::Approx(0.85));
    CHECK(study.sizes[2].chance_enough == doctest::Approx(1.0));
    CHECK(study.reason.find("cable-24") != std::string::npos);
}

TEST_CASE("a building due in the last year of the horizon counts, one due a year later does not") {
    Scenario site = site_with(6, {{12, 100}});
    site.growth.horizon_years = 10;
    add_future(site, 0.3, 10, 1);
    CHECK(study_strands(site).sizes[0].chance_enough == doctest::Approx(0.7));
    site.growth.buildings[0].year = 11;
    CHECK(study_strands(site).sizes[0].chance_enough == 1.0);
}

TEST_CASE("on one-strand links everything takes half the strands") {
    Scenario site = site_with(6, {{12, 100}});
    add_future(site, 0.3, 1, 3);
    site.rules.strand_use = StrandUse::bidirectional;
    const StrandStudy study = study_strands(site);
    CHECK(study.buildings[0].links == 6);
    CHECK(study.buildings[0].strands == 6);
    CHECK(study.growth_distribution.size() == 4);
}

TEST_CASE("unnamed links count beside named buildings, and a cable they may fill is no longer certain") {
    Scenario site = site_with(6, {{12, 100}, {24, 160}});
    site.growth.horizon_years = 10;
    site.growth.unnamed_links_per_year = 0.2;
    const StrandStudy study = study_strands(site);
    // Two links expected; 12 strands beyond use hold six of them.
    CHECK(std::abs(study.sizes[1].chance_enough - 0.9955) < 0.00005);
    CHECK(std::abs(study.sizes[0].chance_enough - 0.1353) < 0.00005);
    CHECK(study.named_growth_distribution == Distribution{1.0});
}

TEST_CASE("where running out is dear the larger cable is recommended although it costs more now") {
    Scenario site = small_site::site();
    site.growth.horizon_years = 10;
    const TrunkRun run = trunk_run(site, small_site::gate, {{small_site::drive, 0, 1}}, 0);
    const auto recommended = [&] {
        const StrandStudy study = study_strands(site, run);
        REQUIRE(study.recommended >= 0);
        return study.sizes[static_cast<std::size_t>(study.recommended)];
    };
    CHECK(recommended().product == small_site::cable_4);
    CHECK(recommended().later.expected == 0);
    add_future(site, 0.01, 3, 1);
    CHECK(recommended().product == small_site::cable_4);
    site.growth.buildings.front().chance = 0.5;
    CHECK(recommended().product == small_site::cable_12);
    add_future(site, 0.9, 3, 5);
    CHECK(recommended().product == small_site::cable_24);
}

TEST_CASE("the recommendation has the least sum of those that meet the policy, whatever the site") {
    std::mt19937 random(20);
    const auto between = [&](int a, int b) {
        return a + static_cast<int>(random() % static_cast<unsigned>(b - a + 1));
    };
    for (int round = 0; round < 200; ++round) {
        Scenario site = small_site::site();
        site.growth.horizon_years = between(1, 15);
        site.growth.unnamed_links_per_year = between(0, 12) / 8.0;
        site.growth.discount_rate = Percent::from_percent(between(0, 12));
        site.growth.headroom = Percent::from_percent(between(0, 200));
        for (int i = between(0, 4); i > 0; --i)
            add_future(site, between(0, 10) / 10.0, between(0, 18), between(1, 6));
        const TrunkRun run = trunk_run(site, small_site::gate, {{small_site::drive, 0, 1}}, 0);
        const StrandStudy study = study_strands(site, run);
        for (const CableSizeOption& size : study.sizes) {
            const bool better = study.recommended >= 0 &&
                                size.best_sum() < study.sizes[static_cast<std::size_t>(study.recommended)].best_sum();
            CHECK_FALSE((better && size.meets_policy));
            CHECK((study.recommended >= 0 || !size.meets_policy));
            CHECK(size.later_with_duct.expected <= size.later.expected);
            CHECK(size.chance_enough == doctest::Approx(1 - size.later.years.back().chance_run_out));
        }
        for (std::size_t i = 1; i < study.sizes.size(); ++i)
            CHECK(study.sizes[i].later.expected <= study.sizes[i - 1].later.expected);
    }
}

}  // namespace spadework
