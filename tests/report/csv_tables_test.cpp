#include "report/csv_tables.hpp"

#include <cmath>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "report/support/crossroads_comparison.hpp"
#include "report/support/csv_reading.hpp"

namespace spadework::report {

TEST_CASE("every table has as many cells in each row as headings, and no heading twice") {
    for (const Scenario& scenario : {crossroads::site(), crossroads::hostile_site()}) {
        for (const NamedTable& table : csv_tables(scenario, crossroads::comparison_of(scenario))) {
            const Rows rows = read(table.content);
            CHECK_MESSAGE(rows.size() > 1, table.name);
            CHECK(std::set<std::string>(rows[0].begin(), rows[0].end()).size() == rows[0].size());
            for (const auto& row : rows)
                CHECK_MESSAGE(row.size() == rows[0].size(), table.name);
        }
    }
}

TEST_CASE("lines of the cost table sum to the totals of the layout table") {
    const Scenario scenario = crossroads::site();
    const Comparison comparison = crossroads::comparison_of(scenario);
    const Rows layouts = read(layouts_csv(scenario, comparison));
    const Rows costs = read(costs_csv(scenario, comparison));
    std::map<std::string, std::int64_t> sums;
    for (std::size_t r = 1; r < costs.size(); ++r)
        sums[costs[r][0]] += cents(costs[r][column(costs, "amount")]);
    for (std::size_t r = 1; r < layouts.size(); ++r) {
        if (layouts[r][1] == "infeasible") continue;
        CHECK(sums[layouts[r][0]] == cents(layouts[r][column(layouts, "total")]));
        std::int64_t by_category = 0;
        for (std::size_t c = 0; c < layouts[0].size(); ++c)
            by_category += layouts[0][c].rfind("cost_", 0) == 0 ? cents(layouts[r][c]) : 0;
        CHECK(by_category == cents(layouts[r][column(layouts, "total")]));
    }
}

TEST_CASE("segments of the trench table sum to trench and reused metres") {
    const Scenario scenario = crossroads::site();
    const Comparison comparison = crossroads::comparison_of(scenario);
    const Rows trenches = read(trenches_csv(scenario, comparison));
    std::map<std::string, double> dug;
    for (std::size_t r = 1; r < trenches.size(); ++r) {
        if (trenches[r][column(trenches, "dug")] == "yes") {
            dug[trenches[r][0]] += std::stod(trenches[r][column(trenches, "length_m")]);
        }
    }
    for (const LayoutResult& layout : comparison.layouts) {
        if (layout.feasible()) CHECK(dug[id_of(layout.layout)] == doctest::Approx(layout.trench.metres()));
    }
}

TEST_CASE("headings name feet and prices are a foot where the site is in feet") {
    Scenario scenario = crossroads::site();
    scenario.feet = true;
    const Comparison comparison = crossroads::comparison_of(scenario);
    const Rows trenches = read(trenches_csv(scenario, comparison));
    // 90.5 m is 296.916 ft.
    CHECK(trenches[1][column(trenches, "length_ft")] == "296.916");
    const Rows costs = read(costs_csv(scenario, comparison));
    CHECK(costs[1][column(costs, "unit")] == "ft");
    // 18.40 a metre.
    CHECK(costs[1][column(costs, "unit_price")] == "5.60832");
    CHECK(costs[1][column(costs, "amount")] == "1665.20");
}

TEST_CASE("no cell of any origin begins a formula, and none holds a control character but line breaks") {
    const Scenario scenario = crossroads::hostile_site();
    for (const NamedTable& table : csv_tables(scenario, crossroads::comparison_of(scenario))) {
        for (const auto& row : read(table.content)) {
            for (const std::string& cell : row) {
                if (cell.empty()) continue;
                CHECK(std::string("=+@\t\r").find(cell.front()) == std::string::npos);
                CHECK(cell.find('\x1b') == std::string::npos);
            }
        }
    }
}

}  // namespace spadework::report
