#include "report/sheets_csv.hpp"

#include <map>
#include <set>
#include <string>

#include <doctest/doctest.h>

#include "report/support/crossroads_comparison.hpp"
#include "report/support/csv_reading.hpp"

namespace spadework::report {
namespace {

struct Sheets {
    Scenario scenario = crossroads::site();
    Comparison comparison = crossroads::comparison_of(scenario);
};

/// Money of one category of a layout's bill, without work.
std::int64_t bought(const LayoutResult& layout) {
    std::int64_t sum = 0;
    for (const CostLine& line : layout.bill.lines) {
        const bool goods = line.category != Category::groundworks && line.category != Category::crossings_and_permits &&
                           line.category != Category::testing && line.category != Category::mobilisation &&
                           line.category != Category::contingency && line.category != Category::tax;
        if (goods && line.labour == WorkTime()) sum += line.amount.minor();
    }
    return sum;
}

}  // namespace

TEST_CASE("materials sum to what the bills have for goods, and rows to their total") {
    const Sheets sheets;
    const Rows rows = read(materials_csv(sheets.scenario, sheets.comparison));
    std::map<std::string, std::int64_t> sum;
    std::map<std::string, std::int64_t> total;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        auto& into = rows[r][column(rows, "category")] == "total" ? total : sum;
        into[rows[r][0]] += cents(rows[r][column(rows, "amount")]);
    }
    CHECK(sum == total);
    for (const LayoutResult& layout : sheets.comparison.layouts) {
        if (layout.feasible()) CHECK(total.at(id_of(layout.layout)) == bought(layout));
    }
}

TEST_CASE("the cable order adds up in metres and money") {
    const Sheets sheets;
    const Rows rows = read(cable_order_csv(sheets.scenario, sheets.comparison));
    std::map<std::string, std::int64_t> left;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        const bool total = rows[r][column(rows, "product")] == "total";
        left[rows[r][0]] += (total ? -1 : 1) * cents(rows[r][column(rows, "amount")]);
        left[rows[r][0] + " ordered"] += (total ? -1 : 1) * cents(rows[r][column(rows, "ordered_m")]);
    }
    for (const auto& sum : left)
        CHECK_MESSAGE(sum.second == 0, sum.first);
}

TEST_CASE("the strand map names every strand once, and what is joined names each other") {
    const Sheets sheets;
    const Rows rows = read(strand_map_csv(sheets.scenario, sheets.comparison));
    std::map<std::string, std::string> joined;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        const std::string name = rows[r][0] + " " + rows[r][column(rows, "label")];
        CHECK(joined.emplace(name, rows[r][column(rows, "joined_to")]).second);
    }
    std::size_t pairs = 0;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        const std::string& other = rows[r][column(rows, "joined_to")];
        if (other.empty()) continue;
        ++pairs;
        CHECK(joined.at(rows[r][0] + " " + other) == rows[r][column(rows, "label")]);
    }
    CHECK(pairs > 0);
}

TEST_CASE("the test sheet has every strand from both ends at each wavelength, with room for readings") {
    const Sheets sheets;
    const Rows rows = read(test_sheet_csv(sheets.scenario, sheets.comparison));
    std::map<std::string, int> ends;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        CHECK(rows[r][column(rows, "measured_loss_db")].empty());
        CHECK(std::stod(rows[r][column(rows, "pass_limit_db")]) >
              std::stod(rows[r][column(rows, "too_good_below_db")]));
        ++ends[rows[r][0] + " " + rows[r][column(rows, "way")] + " " + rows[r][column(rows, "wavelength_nm")]];
    }
    for (const auto& strand : ends)
        CHECK_MESSAGE(strand.second == 2, strand.first);
}

TEST_CASE("events on a trace lie in order, and their two distances sum to the fibre's length") {
    const Sheets sheets;
    const Rows rows = read(trace_events_csv(sheets.scenario, sheets.comparison));
    std::map<std::string, double> length;
    std::map<std::string, double> last;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        const std::string strand = rows[r][0] + " " + rows[r][column(rows, "way")];
        const double from_hub = std::stod(rows[r][column(rows, "distance_from_hub_end_m")]);
        const double whole = from_hub + std::stod(rows[r][column(rows, "distance_from_building_m")]);
        CHECK(length.emplace(strand, whole).first->second == doctest::Approx(whole));
        CHECK(from_hub >= last[strand]);
        last[strand] = from_hub;
    }
    CHECK(length.size() > 1);
}

TEST_CASE("crew hours sum to the hours of the layout") {
    const Sheets sheets;
    const Rows rows = read(crew_hours_csv(sheets.scenario, sheets.comparison));
    std::map<std::string, double> sum;
    for (std::size_t r = 1; r < rows.size(); ++r) {
        if (rows[r][column(rows, "trade")] != "total") sum[rows[r][0]] += std::stod(rows[r][column(rows, "hours")]);
    }
    for (const LayoutResult& layout : sheets.comparison.layouts) {
        if (layout.feasible())
            CHECK(sum.at(id_of(layout.layout)) == doctest::Approx(layout.bill.labour().hours()).epsilon(1e-4));
    }
}

}  // namespace spadework::report
