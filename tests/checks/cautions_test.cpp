#include "checks/cautions.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

std::vector<std::string> ids_of(const Scenario& site, const Plan& plan) {
    std::vector<std::string> ids;
    for (const Caution& caution : cautions(site, plan))
        ids.push_back(caution.id);
    return ids;
}

bool warns(const Scenario& site, const std::string& id) {
    const auto ids = ids_of(site, small_site::home_runs(site));
    return std::find(ids.begin(), ids.end(), id) != ids.end();
}

std::string text_of(const Scenario& site, const std::string& id) {
    for (const Caution& caution : cautions(site, small_site::home_runs(site))) {
        if (caution.id == id) return caution.text;
    }
    return {};
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

void set_methods(Scenario& site, MethodKind kind) {
    site.grounds[0].methods[0].kind = kind;
}

void set_depth(Scenario& site, double feet) {
    site.grounds[0].methods[0].depth = Length::from_feet(feet);
}

}  // namespace

TEST_CASE(
    "a dug plan warns of buried services, the trench, traffic, laser light, copper and mains power, in that order") {
    const Scenario site = small_site::site();
    CHECK(ids_of(site, small_site::home_runs(site)) ==
          std::vector<std::string>{"locate-services", "trench-protection", "traffic", "laser-light", "copper-and-surge",
                                   "mains-power", "planning-aid"});
}

TEST_CASE("a plan of nothing still warns of laser light and says what a plan is") {
    Scenario site = small_site::site();
    for (Building& building : site.buildings)
        building.devices.clear();
    CHECK(ids_of(site, Plan()) == std::vector<std::string>{"laser-light", "planning-aid"});
}

TEST_CASE("every method that opens the ground calls for locating services; poles and ducts do not") {
    Scenario site = small_site::site();
    for (const MethodKind kind :
         {MethodKind::open_cut, MethodKind::plough, MethodKind::narrow_trench, MethodKind::bore}) {
        set_methods(site, kind);
        CHECK(warns(site, "locate-services"));
        CHECK(warns(site, "trench-protection"));
        CHECK(warns(site, "bore") == (kind == MethodKind::bore));
        CHECK_FALSE(warns(site, "pole-work"));
    }
    set_methods(site, MethodKind::pole_line);
    CHECK_FALSE(warns(site, "locate-services"));
    CHECK(warns(site, "pole-work"));
    set_methods(site, MethodKind::existing_duct);
    CHECK_FALSE(warns(site, "locate-services"));
    CHECK_FALSE(warns(site, "pole-work"));
}

TEST_CASE("a way out is asked for from 4 ft of depth (TR-2, 29 CFR 1926.651(c)(2))") {
    Scenario site = small_site::site();
    set_depth(site, 3.99);
    CHECK_FALSE(contains(text_of(site, "trench-protection"), "This one needs a way out"));
    set_depth(site, 4);
    CHECK(contains(text_of(site, "trench-protection"), "This one needs a way out"));
}

TEST_CASE("protection is asked for from 5 ft of depth (TR-1, 29 CFR 1926.652(a)(1): less than 5 ft is exempt)") {
    Scenario site = small_site::site();
    set_depth(site, 4.99);
    CHECK_FALSE(contains(text_of(site, "trench-protection"), "This one needs a protective system"));
    set_depth(site, 5);
    CHECK(contains(text_of(site, "trench-protection"), "This one needs a protective system"));
}

TEST_CASE("a trench deeper than 20 ft needs an engineer, one of 20 ft does not (TR-3, 29 CFR 1926 Subpart P)") {
    Scenario site = small_site::site();
    set_depth(site, 20);
    CHECK_FALSE(contains(text_of(site, "trench-protection"), "registered professional engineer"));
    set_depth(site, 20.01);
    CHECK(contains(text_of(site, "trench-protection"), "registered professional engineer"));
}

TEST_CASE("without a crossing there is no traffic caution; a permit alone is not a crossing") {
    Scenario site = small_site::site();
    site.segments[small_site::drive].charges.erase(site.segments[small_site::drive].charges.begin());
    CHECK_FALSE(warns(site, "traffic"));
}

TEST_CASE("copper is cautioned of where devices are fed over it") {
    Scenario site = small_site::site();
    for (Building& building : site.buildings)
        building.devices = {{"desk", 2, 0}};
    CHECK_FALSE(warns(site, "copper-and-surge"));
}

TEST_CASE("every caution has a text and names its source") {
    Scenario site = small_site::site();
    site.segments[small_site::lane].pole_line = true;
    Plan plan = small_site::home_runs(site);
    plan.trenches[1].way = 1;
    site.grounds[0].methods[0].kind = MethodKind::bore;
    const auto list = cautions(site, plan);
    CHECK(list.size() == 9);
    for (const Caution& caution : list) {
        CHECK_FALSE(caution.text.empty());
        CHECK_FALSE(caution.source.empty());
    }
}

}  // namespace spadework
