#include "report/extension_report.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "report/shown_text.hpp"
#include "report/support/crossroads_comparison.hpp"
#include "report/support/text_checks.hpp"
#include "support/small_site.hpp"

namespace spadework::report {

namespace {

using namespace small_site;

/// The small site with a byre behind the gate and a croft that only the drive leads to.
Scenario grown_site() {
    Scenario site = small_site::site();
    site.places.push_back(place("byre", PlaceKind::building, 100, 40));
    add_segment(site, "track", gate, 4, 40);
    site.buildings.push_back(building("byre", 4, {{"camera", 2, 12.0}}));
    site.rules.most_enclosures = 2;
    return site;
}

Extension extended(const Scenario& site, const Plan& plan) {
    return extend(site, {plan, kept_strands(site, plan, map_strands(site, plan, tia_598_order()))});
}

}  // namespace

TEST_CASE("the extension reads as kept") {
    const Scenario site = grown_site();
    const Plan plan = trunk(site);
    const Extension extension = extended(site, plan);
    REQUIRE(extension.violations.empty());
    const std::string text = extension_text(
        site, extension, {plan, {"forge"}, {"Segment lane is 50000 mm long now, 49000 mm in the plan."}});
    check_form(text);
    check_golden(text, "extension.txt");
}

TEST_CASE("the JSON of an extension adds up and says that nothing is touched") {
    const Scenario site = grown_site();
    const Plan plan = trunk(site);
    const Extension extension = extended(site, plan);
    const auto json = nlohmann::json::parse(extension_json(site, extension, {plan, {}, {}}));
    CHECK(json["status"] == "feasible");
    double sum = 0;
    for (const auto& line : json["costs"])
        sum += line["amount"].get<double>();
    CHECK(sum == doctest::Approx(json["total"].get<double>()));
    CHECK(json["additions"].size() == 1);
    CHECK(json["strands"].size() == 4);  // Two in the trunk, two in the drop.
    CHECK(json["strands_taken"] == 2);
    CHECK(json["untouched"]["touched"] == 0);
    CHECK(json["bound"].get<double>() <= json["total"].get<double>());
}

TEST_CASE("an extension that cannot be built says why and no more") {
    Scenario site = grown_site();
    site.segments.back().ban = "a badger sett";
    const Plan plan = trunk(site);
    const Extension extension = extended(site, plan);
    const std::string text = extension_text(site, extension, {plan, {}, {}});
    check_form(text);
    CHECK(text.find("cannot be built") != std::string::npos);
    CHECK(nlohmann::json::parse(extension_json(site, extension, {plan, {}, {}}))["status"] == "infeasible");
}

TEST_CASE("hostile names do nothing but look odd in an extension") {
    Scenario site = grown_site();
    int number = 0;
    const auto spoil = [&](std::string& text) { text = crossroads::hostile + std::to_string(number++); };
    spoil(site.name);
    for (Place& one : site.places)
        spoil(one.id);
    for (Segment& one : site.segments)
        spoil(one.id);
    for (Building& one : site.buildings)
        spoil(one.id);
    const Plan plan = trunk(site);
    const Extension extension = extended(site, plan);
    check_form(extension_text(site, extension, {plan, {crossroads::hostile}, {crossroads::hostile}}));
    CHECK(nlohmann::json::accept(extension_json(site, extension, {plan, {crossroads::hostile}, {}})));
}

}  // namespace spadework::report
