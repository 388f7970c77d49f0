#include "report/sheet_tables.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "report/figures.hpp"
#include "report/support/crossroads_comparison.hpp"
#include "report/support/text_checks.hpp"
#include "sheets/labels.hpp"
#include "sheets/test_sheet.hpp"

namespace spadework::report {
namespace {

struct Sheets {
    Scenario scenario = crossroads::site();
    Comparison comparison = crossroads::comparison_of(scenario);
};

/// "1,234.50" as cents.
std::int64_t cents_of(std::string figure) {
    std::erase_if(figure, [](char c) { return c == ',' || c == '.'; });
    return std::stoll(figure);
}

/// Sum of a money column over rows that are no sums, and its last row.
void check_total(const TextTable& table, std::size_t column) {
    std::int64_t sum = 0;
    for (const TextTable::Row& row : table.rows())
        sum += row.is_sum ? 0 : cents_of(row.cells[column]);
    CHECK(table.rows().back().rule_above);
    CHECK(cents_of(table.rows().back().cells[column]) == sum);
}

}  // namespace

TEST_CASE("materials, cable order, crew hours and terminations have totals that are the sums of their rows") {
    const Sheets sheets;
    for (const LayoutResult& layout : sheets.comparison.layouts) {
        if (!layout.feasible()) continue;
        check_total(materials_table(sheets.scenario, layout), 5);
        check_total(cable_order_table(sheets.scenario, *layout.plan), 5);
        check_total(crew_hours_table(sheets.scenario, layout), 4);
        check_total(termination_table(sheets.scenario, *layout.plan), 2);
        check_total(termination_table(sheets.scenario, *layout.plan), 4);
    }
}

TEST_CASE("strand map, labels and test sheet have a row for each of what they are of") {
    const Sheets sheets;
    for (const LayoutResult& layout : sheets.comparison.layouts) {
        if (!layout.feasible()) continue;
        CHECK(strand_map_table(sheets.scenario, layout).rows().size() == layout.strand_map.size());
        CHECK(label_table(sheets.scenario, layout).rows().size() ==
              labels(sheets.scenario, *layout.plan, layout.strand_map).size());
        std::size_t limits = 0;
        for (const StrandTest& test : test_sheet(sheets.scenario, *layout.plan, layout.strand_map))
            limits += test.limits.size();
        CHECK(test_sheet_table(sheets.scenario, layout).rows().size() == limits);
    }
}

TEST_CASE("reels stand on the page where cables are spliced and reels are cheaper, with a total below the order's") {
    Sheets sheets;
    const Plan& plan = *sheets.comparison.layouts.front().plan;
    CHECK(reel_table(sheets.scenario, plan).empty());
    Scenario spliced = sheets.scenario;
    spliced.rules.termination = Termination::spliced;
    Plan wasteful = plan;
    for (PlannedCable& cable : wasteful.cables)
        cable.lengths.ordered = cable.lengths.with_slack + Length::from_metres(5);
    const TextTable reels = reel_table(spliced, wasteful);
    REQUIRE(!reels.empty());
    const TextTable order = cable_order_table(spliced, wasteful);
    CHECK(cents_of(reels.rows().back().cells[5]) < cents_of(order.rows().back().cells[5]));
}

TEST_CASE("the sentence on terminations names both ways, their difference and what the bill is for") {
    const Sheets sheets;
    const std::string sentence = termination_sentence(sheets.scenario, *sheets.comparison.layouts.front().plan);
    CHECK(sentence.find("made in the factory") != std::string::npos);
    CHECK(sentence.find("spliced on site") != std::string::npos);
    CHECK(sentence.find("The bill is for ends made in the factory.") != std::string::npos);
}

TEST_CASE("sheets of a site with hostile names keep to what a terminal may show") {
    const Scenario scenario = crossroads::hostile_site();
    const Comparison comparison = crossroads::comparison_of(scenario);
    const LayoutResult& layout = comparison.layouts.front();
    for (const TextTable& table : {strand_map_table(scenario, layout), label_table(scenario, layout),
                                   pull_table(scenario, *layout.plan), test_sheet_table(scenario, layout)}) {
        for (const TextTable::Row& row : table.rows()) {
            for (const std::string& cell : row.cells)
                CHECK(shown(cell) == cell);
        }
    }
}

}  // namespace spadework::report
