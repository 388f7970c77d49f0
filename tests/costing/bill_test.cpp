#include "costing/bill.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <doctest/doctest.h>

#include "rates/opening_rates.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

std::int64_t minor(const Bill& bill, Category category) {
    return bill.total(category).minor();
}

CostLine line_named(const Bill& bill, const std::string& item) {
    const auto found =
        std::find_if(bill.lines.begin(), bill.lines.end(), [&item](const CostLine& line) { return line.item == item; });
    REQUIRE_MESSAGE(found != bill.lines.end(), item);
    return *found;
}

bool has_line(const Bill& bill, const std::string& item) {
    return std::any_of(bill.lines.begin(), bill.lines.end(),
                       [&item](const CostLine& line) { return line.item == item; });
}

}  // namespace

TEST_CASE("home runs cost what a hand calculation gives, category by category") {
    const Scenario site = small_site::site();
    const Bill bill = price(site, small_site::home_runs(site));
    // 180 m at 20.00 and three set-ups of 50.00.
    CHECK(minor(bill, Category::groundworks) == 180 * 2000 + 3 * 5000);
    CHECK(minor(bill, Category::crossings_and_permits) == 45000 + 8000);
    // Routes of 130 m and 150 m, each with a duct at 1.50.
    CHECK(minor(bill, Category::ducts) == (130 + 150) * 150);
    // Ordered 140 m and 160 m at 0.60, pulled at 0.36 a metre of route.
    CHECK(minor(bill, Category::cable) == (140 + 160) * 60 + (130 + 150) * 36);
    // Four factory ends, 2 strands plugged at each in 5 minutes at 36.00 an hour, four cords.
    CHECK(minor(bill, Category::terminations) == 4 * 3000 + 4 * 600 + 4 * 450);
    CHECK(minor(bill, Category::enclosures) == 0);
    CHECK(minor(bill, Category::optics) == 4 * 1800);
    CHECK(minor(bill, Category::endpoint_gear) == 2 * (21000 + 1800));
    CHECK(minor(bill, Category::hub_gear) == 30000 + 3600);
    CHECK(minor(bill, Category::testing) == 2 * 2 * 600);
    CHECK(minor(bill, Category::mobilisation) == 50000);
    CHECK(direct_cost(bill).minor() == 653080);
    CHECK(minor(bill, Category::contingency) == 65308);
    // 20 % of 7183.88 is 1436.776, rounded half up.
    CHECK(minor(bill, Category::tax) == 143678);
    CHECK(bill.total().minor() == 862066);
    CHECK(bill.labour().seconds() == 36 * 3600 + 10080 + 2400 + 2 * 1800 + 3600 + 2400);
}

TEST_CASE("a trunk adds its enclosure, the work to set it up and what its place costs extra") {
    Scenario site = small_site::site();
    site.places[small_site::gate].enclosure_extra = Money::from_minor(7700);
    const Bill bill = price(site, small_site::trunk(site));
    CHECK(minor(bill, Category::enclosures) == 20000 + 5400 + 7700);
    CHECK(line_named(bill, "extra at this place").cause == CauseKind::enclosure);
    CHECK(line_named(bill, "extra at this place").cause_id == "gate");
    // The trunk's ends are made for the four strands in use, not for its twelve.
    CHECK(minor(bill, Category::terminations) == 2 * 5000 + 2 * 4 * 300 + 4 * 3000 + 4 * 600 + 4 * 450);
    site.places[small_site::gate].enclosure_extra = Money();
    CHECK_FALSE(has_line(price(site, small_site::trunk(site)), "extra at this place"));
}

TEST_CASE("spliced ends pay a pigtail and a splice for each strand in use and the splicer's set-up at each end") {
    Scenario site = small_site::site();
    site.rules.termination = Termination::spliced;
    const Bill bill = price(site, small_site::home_runs(site));
    // Four ends: 2 pigtails at 8.00; 30 + 2 x 6 minutes at 72.00 an hour. Four cords.
    CHECK(minor(bill, Category::terminations) == 4 * 2 * 800 + 4 * 5040 + 4 * 450);
}

TEST_CASE("a joint splices every strand of the cable, once for each joint") {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    CHECK_FALSE(has_line(price(site, plan), "joint cable"));
    plan.cables[1].lengths.joints = 2;
    const CostLine line = line_named(price(site, plan), "joint cable");
    // Two joints of 30 + 4 x 6 minutes at 72.00 an hour.
    CHECK(line.amount.minor() == 2 * 6480);
    CHECK(line.cause_id == "run-mill");
}

TEST_CASE("without a patch cord of the links' strand count no cord is priced") {
    Scenario site = small_site::site();
    site.catalogue.patch_cords[0].strands = 1;
    const Bill bill = price(site, small_site::home_runs(site));
    CHECK(minor(bill, Category::terminations) == 4 * 3000 + 4 * 600);
}

TEST_CASE("existing ducts and pole lines are named as such, cost no trench, and no new duct") {
    Scenario site = small_site::site();
    site.segments[small_site::lane].duct_room = 3;
    site.segments[small_site::path].pole_line = true;
    site.pole_line.plant_per_metre = small_site::cents(120);
    Plan plan = small_site::home_runs(site);
    plan.trenches = {{small_site::drive, 0}, {small_site::lane, 1}, {small_site::path, 1}};
    plan.cables[0].steps[1].way = 1;
    plan.cables[1].steps[1].way = 1;
    const Bill bill = price(site, plan);
    CHECK(line_named(bill, "use existing duct").amount.minor() == 0);
    CHECK(line_named(bill, "use pole line").amount.minor() == 30 * 120);
    CHECK(minor(bill, Category::ducts) == 2 * 100 * 150);
}

TEST_CASE("on a site in feet quantities are in feet and amounts stay those of the metres") {
    Scenario site = small_site::site();
    const Plan plan = small_site::home_runs(site);
    const Bill in_metres = price(site, plan);
    site.feet = true;
    const Bill in_feet = price(site, plan);
    CHECK(in_feet.total() == in_metres.total());
    const CostLine line = line_named(in_feet, "open-cut, grass");
    CHECK(line.unit == "ft");
    // 100 m / 0.3048 (NIST SP 811: the foot is 0.3048 m exactly).
    CHECK(line.quantity == doctest::Approx(328.0839895));
    CHECK(line.unit_price.thousandths() == 609600);
}

TEST_CASE("lines stand by category, then by what caused them, with contingency and tax last") {
    const Scenario site = small_site::site();
    const Bill bill = price(site, small_site::trunk(site));
    for (std::size_t i = 1; i < bill.lines.size(); ++i)
        CHECK(bill.lines[i - 1].category <= bill.lines[i].category);
    CHECK(bill.lines[bill.lines.size() - 2].category == Category::contingency);
    CHECK(bill.lines.back().category == Category::tax);
}

TEST_CASE("categories add up to the total, and every priced line is quantity times unit price to the half cent") {
    const Scenario site = small_site::site();
    for (const Plan& plan : {small_site::home_runs(site), small_site::trunk(site), small_site::chain(site)}) {
        const Bill bill = price(site, plan);
        Money sum;
        for (int c = 0; c < category_count; ++c)
            sum += bill.total(static_cast<Category>(c));
        CHECK(sum == bill.total());
        for (const CostLine& line : bill.lines) {
            if (line.unit == "%") continue;
            const double product = line.quantity * static_cast<double>(line.unit_price.thousandths()) / 1000.0;
            CHECK_MESSAGE(std::abs(product - static_cast<double>(line.amount.minor())) <= 0.5 + 1e-6, line.item);
        }
    }
}

TEST_CASE("for uneven lengths and prices the trench lines of a segment equal the price of opening it, to the cent") {
    Scenario site = small_site::site();
    std::uint64_t state = 7;
    const auto next = [&state](std::uint64_t below) {
        state = state * 6364136223846793005ULL + 1442695040888963407ULL;
        return static_cast<double>((state >> 33) % below);
    };
    for (int round = 0; round < 200; ++round) {
        OpeningMethod& method = site.grounds[0].methods[0];
        method.labour_hours_per_metre = next(1000) / 1357.0;
        method.plant_per_metre = small_site::cents(next(100000) / 37.0);
        method.set_up = Money::from_minor(static_cast<std::int64_t>(next(9000)));
        for (Segment& segment : site.segments)
            segment.length = Length::from_millimetres(1 + static_cast<std::int64_t>(next(5000000)));
        const Plan plan = small_site::home_runs(site);
        const Bill bill = price(site, plan);
        Money opening;
        for (const Step& step : plan.trenches)
            opening += ways_of(site, step.segment)[static_cast<std::size_t>(step.way)].opening;
        REQUIRE(bill.total(Category::groundworks) + bill.total(Category::crossings_and_permits) == opening);
    }
}

TEST_CASE("no two categories share an id or a name, and ids fit in a file") {
    std::set<std::string> ids;
    std::set<std::string> names;
    for (int c = 0; c < category_count; ++c) {
        const std::string id = id_of(static_cast<Category>(c));
        CHECK(id.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string::npos);
        ids.insert(id);
        names.insert(name_of(static_cast<Category>(c)));
    }
    CHECK(ids.size() == category_count);
    CHECK(names.size() == category_count);
    CHECK(std::string(id_of(Category::crossings_and_permits)) == "crossings-and-permits");
    CHECK(std::string(id_of(Category::tax)) == "tax");
}

TEST_CASE("a plan of nothing costs the mobilisation and what comes on top") {
    const Scenario site = small_site::site();
    const Bill bill = price(site, Plan());
    CHECK(direct_cost(bill).minor() == 50000);
    CHECK(bill.total().minor() == 66000);
}

}  // namespace spadework
