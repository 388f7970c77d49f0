#include "costing/line.hpp"

namespace spadework {

namespace {

CostLine line_for(Category category, const std::string& item, const Cause& cause) {
    CostLine line;
    line.category = category;
    line.item = item;
    line.cause = cause.kind;
    line.cause_id = cause.id;
    return line;
}

UnitPrice per_foot(UnitPrice per_metre) {
    return UnitPrice::from_minor(static_cast<double>(per_metre.thousandths()) / 1000.0 * 0.3048);
}

}  // namespace

CostLine line_of_pieces(Category category, const std::string& item, std::int64_t pieces, UnitPrice price,
                        const Cause& cause) {
    CostLine line = line_for(category, item, cause);
    line.quantity = static_cast<double>(pieces);
    line.unit = "piece";
    line.unit_price = price;
    line.amount = amount(price, pieces);
    return line;
}

CostLine line_of_length(Category category, const std::string& item, Length length, UnitPrice per_metre,
                        const Cause& cause, bool feet) {
    CostLine line = line_for(category, item, cause);
    line.quantity = feet ? length.feet() : length.metres();
    line.unit = feet ? "ft" : "m";
    line.unit_price = feet ? per_foot(per_metre) : per_metre;
    line.amount = amount(per_metre, length);
    return line;
}

CostLine line_of_work(Category category, const std::string& item, const Work& work, const Cause& cause) {
    CostLine line = line_for(category, item, cause);
    line.quantity = work.time.hours();
    line.unit = "h";
    line.unit_price = work.rate;
    line.amount = amount(work.rate, work.time);
    line.labour = work.time;
    line.trade = work.trade;
    return line;
}

CostLine line_of_sum(Category category, const std::string& item, Money sum, const Cause& cause) {
    return line_of_pieces(category, item, 1, UnitPrice::from_money(sum), cause);
}

void add_unless_empty(CostLine line, std::vector<CostLine>& lines) {
    if (line.amount == Money() && line.labour == WorkTime()) return;
    lines.push_back(std::move(line));
}

}  // namespace spadework
