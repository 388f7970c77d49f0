#include "costing/bill.hpp"

#include <algorithm>
#include <tuple>

#include "costing/lines.hpp"

namespace spadework {

Money Bill::total() const {
    Money sum;
    for (const CostLine& line : lines)
        sum += line.amount;
    return sum;
}

Money Bill::total(Category category) const {
    Money sum;
    for (const CostLine& line : lines) {
        if (line.category == category) sum += line.amount;
    }
    return sum;
}

WorkTime Bill::labour() const {
    WorkTime sum;
    for (const CostLine& line : lines)
        sum += line.labour;
    return sum;
}

void finish_bill(const Scenario& scenario, Bill& bill) {
    std::stable_sort(bill.lines.begin(), bill.lines.end(), [](const CostLine& a, const CostLine& b) {
        return std::tie(a.category, a.cause, a.cause_id) < std::tie(b.category, b.cause, b.cause_id);
    });
    add_quote_lines(scenario, bill.total(), bill.lines);
}

Bill price(const Scenario& scenario, const Plan& plan) {
    Bill bill;
    add_trench_lines(scenario, plan, bill.lines);
    add_cable_lines(scenario, plan, bill.lines);
    add_link_lines(scenario, plan, bill.lines);
    add_enclosure_lines(scenario, plan, bill.lines);
    add_gear_lines(scenario, plan, bill.lines);
    add_job_lines(scenario, bill.lines);
    finish_bill(scenario, bill);
    return bill;
}

Money direct_cost(const Bill& bill) {
    return bill.total() - bill.total(Category::contingency) - bill.total(Category::tax);
}

}  // namespace spadework

template class std::vector<spadework::CostLine>;
