#include "costing/line.hpp"
#include "costing/lines.hpp"

namespace spadework {

namespace {

CostLine line_of_share(Category category, const char* item, Percent share, Money share_amount) {
    CostLine line;
    line.category = category;
    line.item = item;
    line.quantity = share.percent();
    line.unit = "%";
    line.amount = share_amount;
    return line;
}

}  // namespace

void add_job_lines(const Scenario& scenario, std::vector<CostLine>& lines) {
    add_unless_empty(line_of_sum(Category::mobilisation, "mobilisation", scenario.labour.mobilisation, {}), lines);
}

void add_quote_lines(const Scenario& scenario, Money direct, std::vector<CostLine>& lines) {
    const Quote quote = quote_for(direct, scenario.rules);
    add_unless_empty(line_of_share(Category::contingency, "contingency on direct cost", scenario.rules.contingency,
                                   quote.contingency),
                     lines);
    add_unless_empty(line_of_share(Category::tax, "tax on direct cost and contingency", scenario.rules.tax, quote.tax),
                     lines);
}

}  // namespace spadework
