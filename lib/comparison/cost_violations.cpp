#include <cmath>
#include <map>

#include <fmt/format.h>

#include "comparison/recount.hpp"
#include "comparison/verification_parts.hpp"

namespace spadework::verification {

namespace {

constexpr Category added_on_top[] = {Category::contingency, Category::tax};

std::int64_t sum_of(const Bill& bill, Category category) {
    std::int64_t sum = 0;
    for (const CostLine& line : bill.lines)
        sum += line.category == category ? line.amount.minor() : 0;
    return sum;
}

void check_total(const LayoutResult& result, Sentences& found) {
    std::int64_t sum = 0;
    for (const CostLine& line : result.bill.lines)
        sum += line.amount.minor();
    if (sum != result.total.minor()) {
        found.push_back(fmt::format("The lines of the bill sum to {}, the total is {}.", sum, result.total.minor()));
    }
    if (result.bound > result.total) {
        found.push_back(
            fmt::format("The lower bound {} is above the total {}.", result.bound.minor(), result.total.minor()));
    }
    const auto total = static_cast<double>(result.total.minor());
    const double gap = total == 0 ? 0 : (total - static_cast<double>(result.bound.minor())) / total;
    if (!(std::abs(gap - result.gap) <= 1e-9)) {
        found.push_back(fmt::format("The gap is {}, not {}.", gap, result.gap));
    }
}

/// Largest difference between an amount and quantity times unit price: half a unit of rounding, more where the price
/// was turned into one a foot.
double tolerance_of(const CostLine& line) {
    if (line.unit == "ft") return 0.501 + 0.0006 * line.quantity;
    return 0.501;
}

void check_lines(const Bill& bill, Sentences& found) {
    for (const CostLine& line : bill.lines) {
        if (line.unit == "%") continue;
        const double exact = line.quantity * static_cast<double>(line.unit_price.thousandths()) / 1000.0;
        if (std::abs(exact - static_cast<double>(line.amount.minor())) <= tolerance_of(line)) continue;
        found.push_back(fmt::format("The line '{}' for '{}' is {} {} at {} thousandths, which is not {}.", line.item,
                                    line.cause_id, line.quantity, line.unit, line.unit_price.thousandths(),
                                    line.amount.minor()));
    }
}

void check_categories(const Bill& bill, const Recount& count, Sentences& found) {
    for (int c = 0; c < category_count; ++c) {
        const auto category = static_cast<Category>(c);
        if (category == Category::contingency || category == Category::tax) continue;
        const Sum& expected = count.categories[static_cast<std::size_t>(c)];
        const std::int64_t billed = sum_of(bill, category);
        if (std::abs(static_cast<double>(billed - expected.minor)) <= expected.slack) continue;
        found.push_back(
            fmt::format("{} is billed at {}, counted again it is {}.", name_of(category), billed, expected.minor));
    }
}

void check_openings(const Bill& bill, const Recount& count, Sentences& found) {
    std::map<std::string, std::int64_t> billed;
    for (const auto& [segment, opening] : count.opening_by_segment)
        billed[segment] = 0;
    for (const CostLine& line : bill.lines) {
        const bool opening = line.category == Category::groundworks || line.category == Category::crossings_and_permits;
        if (opening) billed[line.cause_id] += line.amount.minor();
    }
    for (const auto& [segment, amount] : billed) {
        const auto expected = count.opening_by_segment.find(segment);
        const std::int64_t opening = expected == count.opening_by_segment.end() ? 0 : expected->second;
        if (opening == amount) continue;
        found.push_back(
            fmt::format("Opening segment {} is billed at {}, counted again it is {}.", segment, amount, opening));
    }
}

void check_on_top(const Scenario& scenario, const Bill& bill, Sentences& found) {
    std::int64_t base = 0;
    for (int c = 0; c < category_count; ++c) {
        const auto category = static_cast<Category>(c);
        if (category != Category::contingency && category != Category::tax) base += sum_of(bill, category);
    }
    for (const Category category : added_on_top) {
        const Percent share = category == Category::tax ? scenario.rules.tax : scenario.rules.contingency;
        const std::int64_t expected = product(share.thousandths(), base, 100000);
        if (sum_of(bill, category) != expected) {
            found.push_back(fmt::format("{} is billed at {}, it should be {}.", name_of(category),
                                        sum_of(bill, category), expected));
        }
        base += expected;
    }
}

void check_labour(const Bill& bill, const Recount& count, Sentences& found) {
    std::int64_t seconds = 0;
    for (const CostLine& line : bill.lines)
        seconds += line.labour.seconds();
    if (std::abs(static_cast<double>(seconds) - count.labour_seconds) <= count.labour_slack) return;
    found.push_back(
        fmt::format("The bill holds {} s of labour, counted again it is {:.0f} s.", seconds, count.labour_seconds));
}

}  // namespace

Sentences cost_violations(const Scenario& scenario, const LayoutResult& result) {
    Sentences found;
    const Recount count = recount(scenario, *result.plan);
    check_total(result, found);
    check_lines(result.bill, found);
    check_categories(result.bill, count, found);
    check_openings(result.bill, count, found);
    check_on_top(scenario, result.bill, found);
    check_labour(result.bill, count, found);
    return found;
}

}  // namespace spadework::verification
