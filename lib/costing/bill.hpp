#pragma once

// The cost of a plan as lines that add up exactly.

#include <array>
#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "rates/quote_rates.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"
#include "units/work_time.hpp"

namespace spadework {

enum class Category {
    groundworks,
    crossings_and_permits,
    ducts,
    cable,
    terminations,
    enclosures,
    optics,
    endpoint_gear,
    hub_gear,
    testing,
    mobilisation,
    contingency,
    tax,
};
inline constexpr int category_count = 13;

/// "groundworks", "crossings-and-permits", … as used in files.
const char* id_of(Category category);
/// "Groundworks", "Crossings and permits", … as used in tables.
const char* name_of(Category category);

/// Who does the work.
enum class Trade { none, groundworks, installer, splicer };
/// "", "groundworks crew", "installer", "splicer".
const char* name_of(Trade trade);

enum class CauseKind { job, segment, cable, building, enclosure, hub };

struct CostLine {
    Category category = Category::groundworks;
    std::string item;  ///< "open cut, grass", "cable-12", "pull cable".
    double quantity = 0;
    std::string unit;           ///< "m", "piece", "h", "%"; "ft" where the site is in feet.
    UnitPrice unit_price;       ///< A unit of `unit`.
    Money amount;               ///< Exact: see the rates it comes from.
    WorkTime labour;            ///< Crew time in it, 0 where none.
    Trade trade = Trade::none;  ///< Whose time.
    CauseKind cause = CauseKind::job;
    std::string cause_id;  ///< Segment, cable, building id or place of the enclosure.
};

struct Bill {
    std::vector<CostLine> lines;  ///< By category, then cause, in a fixed order; contingency and tax last.
    [[nodiscard]] Money total() const;
    [[nodiscard]] Money total(Category category) const;
    [[nodiscard]] WorkTime labour() const;
};

/// Prices everything in a plan.
Bill price(const Scenario& scenario, const Plan& plan);

/// Direct cost: the bill without contingency and tax.
Money direct_cost(const Bill& bill);

}  // namespace spadework

// Lists that many sources copy: compiled once, in bill.cpp.
extern template class std::vector<spadework::CostLine>;
