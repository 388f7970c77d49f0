#pragma once

// Single lines, each with the amount its rate gives.

#include <string>

#include "costing/bill.hpp"

namespace spadework {

/// What a line is charged to.
struct Cause {
    CauseKind kind = CauseKind::job;
    std::string id;
};

/// So many pieces at a price each.
CostLine line_of_pieces(Category category, const std::string& item, std::int64_t pieces, UnitPrice price,
                        const Cause& cause);

/// A length at a price a metre; the quantity is in feet, priced a foot, where the site is.
CostLine line_of_length(Category category, const std::string& item, Length length, UnitPrice per_metre,
                        const Cause& cause, bool feet);

/// Somebody's time at a rate an hour.
struct Work {
    WorkTime time;
    UnitPrice rate;
    Trade trade = Trade::installer;
};
CostLine line_of_work(Category category, const std::string& item, const Work& work, const Cause& cause);

/// One sum.
CostLine line_of_sum(Category category, const std::string& item, Money sum, const Cause& cause);

/// Adds the line unless its amount and its labour are nothing.
void add_unless_empty(CostLine line, std::vector<CostLine>& lines);

}  // namespace spadework
