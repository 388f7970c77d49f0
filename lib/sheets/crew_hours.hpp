#pragma once

#include <string>
#include <vector>

#include "costing/bill.hpp"
#include "units/work_time.hpp"

namespace spadework {

/// Hours of one trade at one kind of task.
struct CrewTask {
    Trade trade = Trade::none;
    std::string task;  ///< "open cut, grass", "pull cable", "test link".
    WorkTime time;
    Money amount;  ///< Of the labour alone.
};

struct CrewHours {
    std::vector<CrewTask> tasks;  ///< By trade, then task.
    WorkTime total;
    [[nodiscard]] WorkTime of(Trade trade) const;
};

/// The labour of a bill by trade and task. Groundworks lines hold plant and material too: their amount here is the
/// hours at the crew's rate.
CrewHours crew_hours(const Bill& bill, const Labour& labour);

}  // namespace spadework
