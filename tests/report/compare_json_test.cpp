#include "report/compare_json.hpp"

#include <cmath>
#include <string>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "report/support/crossroads_comparison.hpp"

namespace spadework::report {

namespace {

using Json = nlohmann::json;

Json written(const Scenario& scenario) {
    return Json::parse(compare_json(scenario, crossroads::comparison_of(scenario), 7));
}

std::int64_t cents(const Json& money) {
    return std::llround(money.get<double>() * 100.0);
}

std::int64_t millimetres(const Json& metres) {
    return std::llround(metres.get<double>() * 1000.0);
}

std::int64_t sum_of_millimetres(const Json& object) {
    std::int64_t sum = 0;
    for (const auto& value : object)
        sum += millimetres(value);
    return sum;
}

}  // namespace

TEST_CASE("every promised field is there for a layout that can be built") {
    const Json json = written(crossroads::site());
    CHECK(json["site"]["name"] == "Crossroads");
    CHECK(json["site"]["digest"] == "00000000000000aa");
    CHECK(json["currency"] == "EUR");
    CHECK(json["seed"] == 7);
    CHECK(json["cheapest"] == "trunk-one");
    REQUIRE(json["layouts"].size() == 5);
    const Json& trunk = json["layouts"][1];
    for (const char* field : {"layout", "status", "reason", "total_cost", "lower_bound", "gap", "cost_by_category",
                              "labour_hours", "trench_m", "trench_m_by_ground", "cable_m_by_strands", "enclosures",
                              "trenches", "cables", "links", "findings"}) {
        CHECK_MESSAGE(trunk.contains(field), field);
    }
    CHECK(trunk["status"] == "feasible");
    CHECK(trunk["cable_m_by_strands"]["24"]["route_m"] == 150.5);
    CHECK(trunk["cable_m_by_strands"]["24"]["ordered_m"] == 170);
    CHECK(trunk["enclosures"][0]["place"] == "corner");
    CHECK(trunk["enclosures"][0]["strands"] == 24);
    CHECK(trunk["enclosures"][0]["serves"] == Json({"barn", "kiosk", "lodge"}));
    CHECK(trunk["cables"][0]["segments"] == Json({"drive", "avenue"}));
    for (const char* field : {"segment", "ground", "method", "length_m", "cost"})
        CHECK(trunk["trenches"][0].contains(field));
    for (const char* field : {"id", "strands", "from", "to", "segments", "route_m", "ordered_m"})
        CHECK(trunk["cables"][0].contains(field));
    for (const char* field : {"building", "strands", "loss_db", "limit_db", "margin_db"})
        CHECK(trunk["links"][0].contains(field));
    const Json& finding = json["layouts"][3]["findings"][0];
    for (const char* field : {"kind", "severity", "where", "measured", "limit"})
        CHECK(finding.contains(field));
    const Json& ring = json["layouts"][4];
    CHECK(ring["layout"] == "ring");
    CHECK(ring["cables"][3]["role"] == "closing");
    CHECK(ring["cables"][3]["from"] == "hub");
    CHECK(ring["cables"][3]["to"] == "barn");
}

TEST_CASE("costs sum to the cent, metres to the millimetre") {
    for (const bool feet : {false, true}) {
        Scenario scenario = crossroads::site();
        scenario.feet = feet;
        const Json json = written(scenario);
        CHECK(json["length_unit"] == "m");
        for (const Json& layout : json["layouts"]) {
            if (layout["status"] != "feasible") continue;
            std::int64_t sum = 0;
            for (const auto& part : layout["cost_by_category"])
                sum += cents(part);
            CHECK(sum == cents(layout["total_cost"]));
            CHECK(layout["gap"].get<double>() ==
                  doctest::Approx(1 - layout["lower_bound"].get<double>() / layout["total_cost"].get<double>()));
            CHECK(sum_of_millimetres(layout["trench_m_by_ground"]) == millimetres(layout["trench_m"]));
            CHECK(sum_of_millimetres(layout["trench_m_by_method"]) == millimetres(layout["trench_m"]));
            CHECK(sum_of_millimetres(layout["reused_m_by_kind"]) == millimetres(layout["reused_m"]));
            std::int64_t dug = 0;
            for (const Json& trench : layout["trenches"])
                dug += trench["dug"] ? millimetres(trench["length_m"]) : 0;
            CHECK(dug == millimetres(layout["trench_m"]));
        }
    }
}

TEST_CASE("lengths are metres whatever the site's unit") {
    Scenario feet = crossroads::site();
    feet.feet = true;
    CHECK(written(feet)["layouts"][1]["trenches"] == written(crossroads::site())["layouts"][1]["trenches"]);
}

TEST_CASE("money has the currency's digits") {
    Scenario scenario = crossroads::site();
    const std::string cents_text = compare_json(scenario, crossroads::comparison_of(scenario), 1);
    CHECK(cents_text.find("\"mobilisation\": 600.00,") != std::string::npos);
    scenario.currency = {"JPY", 0};
    const std::string yen_text = compare_json(scenario, crossroads::comparison_of(scenario), 1);
    CHECK(yen_text.find("\"mobilisation\": 60000,") != std::string::npos);
}

TEST_CASE("a layout that cannot be built has a reason and empty parts") {
    const Json json = written(crossroads::site());
    const Json& mixed = json["layouts"][2];
    CHECK(mixed["layout"] == "mixed");
    CHECK(mixed["status"] == "infeasible");
    CHECK(mixed["reason"] == "the rules allow no enclosure");
    for (const char* field : {"total_cost", "lower_bound", "gap", "trench_m", "worst_margin_db"})
        CHECK(mixed[field].is_null());
    for (const char* field :
         {"cost_by_category", "trench_m_by_ground", "cable_m_by_strands", "trenches", "cables", "links"})
        CHECK(mixed[field].empty());
    const Json nothing = Json::parse(compare_json(crossroads::site(), compare(crossroads::site(), {}), 1));
    CHECK(nothing["cheapest"].is_null());
    CHECK(nothing["layouts"].empty());
}

TEST_CASE("hostile names come through as valid JSON") {
    const Scenario scenario = crossroads::hostile_site();
    const Json json = written(scenario);
    CHECK(json["site"]["name"].get<std::string>().find("\x1b[2J") != std::string::npos);
    CHECK(json["layouts"][1]["trenches"].size() == 6);
}

TEST_CASE("the same comparison gives the same bytes") {
    const Scenario scenario = crossroads::site();
    CHECK(compare_json(scenario, crossroads::comparison_of(scenario), 1) ==
          compare_json(scenario, crossroads::comparison_of(scenario), 1));
}

}  // namespace spadework::report
