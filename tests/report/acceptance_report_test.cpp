#include "report/acceptance_report.hpp"

#include <doctest/doctest.h>

#include "acceptance/support/lakeside_plan.hpp"
#include "plan_file/making.hpp"
#include "report/acceptance_tables.hpp"
#include "report/plan_file_json.hpp"
#include "report/support/crossroads_comparison.hpp"
#include "report/support/csv_reading.hpp"
#include "report/support/text_checks.hpp"

namespace spadework::report {
namespace {

using acceptance::Acceptance;
using acceptance::Reading;
using plan_file::PlanFile;

/// Readings with one of everything that can be wrong.
Acceptance everything_wrong(const PlanFile& plan) {
    std::vector<Reading> readings = acceptance::testing::good_readings(plan);
    const auto of = [&](const char* building, int leg) {
        return acceptance::testing::of_strand(readings, building, leg);
    };
    std::swap(of("kiosk", 1)[0]->length, of("sauna", 2)[0]->length);
    std::swap(of("kiosk", 1)[1]->length, of("sauna", 2)[1]->length);
    of("cabins", 1)[0]->loss_mdb = 9000;
    of("cabins", 2)[0]->loss_mdb = 1;
    of("cabins", 2)[1]->loss_mdb.reset();
    of("boathouse", 1)[0]->length = Length::from_metres(600);
    Reading stray = readings.front();
    stray.key.building = "boathose";
    readings.push_back(stray);
    return acceptance::judge(plan, readings, {});
}

}  // namespace

TEST_CASE("an acceptance names each verdict with its count, and the counts come to all readings") {
    const PlanFile plan = acceptance::testing::lakeside();
    const Acceptance result = everything_wrong(plan);
    CHECK(acceptance_sentence(result) ==
          "Not accepted: of 17 readings 4 are of swapped strands, 1 is over its limit, 1 has a wrong length, 1 is too "
          "good to be true, 1 differs by direction, 1 is missing, 1 is not in the plan; 7 pass.");
    int sum = 0;
    for (const int count : result.counts)
        sum += count;
    CHECK(sum == 17);
    const TextTable table = verdict_table(result);
    CHECK(table.rows().size() == 9);
    CHECK(table.rows().back().cells == std::vector<std::string>{"All", "17", "9"});
}

TEST_CASE("each strand that does not pass gets a step, and all that passes gets one for the record") {
    const PlanFile plan = acceptance::testing::lakeside();
    const auto steps = next_steps(plan, everything_wrong(plan));
    REQUIRE(steps.size() == 9);
    CHECK(steps[2].find("cabins link 1 strand 1 (trunk-lawn-corner/3 > drop-cabins/1): with the light off") == 0);
    CHECK(steps[2].find("hub (0.0 m), enclosure at lawn-corner (300.0 m), building cabins (440.0 m)") !=
          std::string::npos);
    CHECK(steps[6] == "cabins link 1 strand 2 (trunk-lawn-corner/4 > drop-cabins/2): measure from cabins at 1310 nm.");
    const Acceptance good = acceptance::judge(plan, acceptance::testing::good_readings(plan), {});
    CHECK(next_steps(plan, good).size() == 1);
    CHECK(acceptance_text(plan, good).find("Accepted: all 16 readings pass.") != std::string::npos);
}

TEST_CASE("the report keeps to its width and says what could not be looked for") {
    const PlanFile plan = acceptance::testing::lakeside();
    std::vector<Reading> readings = acceptance::testing::good_readings(plan);
    for (Reading& reading : readings)
        reading.length.reset();
    const std::string text = acceptance_text(plan, acceptance::judge(plan, readings, {}));
    CHECK(text.find("No length was measured") != std::string::npos);
    check_form(text);
    check_form(acceptance_text(plan, everything_wrong(plan)));
}

TEST_CASE("the as-built table has every reading with its margin and can be handed in again") {
    const PlanFile plan = acceptance::testing::lakeside();
    const Acceptance result = everything_wrong(plan);
    const std::string table = as_built_csv(plan, result);
    const auto read = acceptance::read_readings("as_built.csv", table);
    CHECK_FALSE(has_errors(read.diagnostics));
    const Acceptance again = acceptance::judge(plan, read.readings, {});
    CHECK(as_built_csv(plan, again) == table);
}

TEST_CASE("an as-built record is a plan file: written, read and written with the same bytes, and accepted again") {
    const PlanFile plan = acceptance::testing::lakeside();
    const Acceptance result = everything_wrong(plan);
    const std::string text = plan_file_json(acceptance::as_built(plan, result));
    const auto read = plan_file::read_plan_file("as_built.json", text);
    REQUIRE(read.plan);
    CHECK(plan_file_json(*read.plan) == text);
    const Acceptance again = acceptance::judge(*read.plan, {}, {});
    CHECK(again.counts[0] == result.counts[0]);
    CHECK(again.from_earlier == 16);  // One of them a length without a loss.
}

TEST_CASE("hostile names and remarks are shown, never obeyed, in the text, the page and the table") {
    const Scenario site = crossroads::hostile_site();
    const LayoutResult result = crossroads::comparison_of(site).layouts.front();
    const PlanFile plan = plan_file::plan_file_of(site, result);
    std::vector<Reading> readings = acceptance::testing::good_readings(plan);
    readings[0].loss_mdb = 900000;
    readings[0].tested_by = crossroads::hostile;
    readings[1].key.building = crossroads::hostile;
    const Acceptance judged = acceptance::judge(plan, readings, {});
    const std::string text = acceptance_text(plan, judged);
    check_form(text);
    const std::string page = acceptance_html(plan, judged);
    CHECK(page.find("<b>") == std::string::npos);
    CHECK(page.find('\x1b') == std::string::npos);
    CHECK(as_built_csv(plan, judged).find(",=cmd") == std::string::npos);
}

}  // namespace spadework::report
