#include "sheets/crew_hours.hpp"

#include <map>
#include <utility>

namespace spadework {

WorkTime CrewHours::of(Trade trade) const {
    WorkTime time;
    for (const CrewTask& task : tasks) {
        if (task.trade == trade) time += task.time;
    }
    return time;
}

CrewHours crew_hours(const Bill& bill, const Labour& labour) {
    std::map<std::pair<Trade, std::string>, CrewTask> tasks;
    CrewHours hours;
    for (const CostLine& line : bill.lines) {
        if (line.labour == WorkTime()) continue;
        CrewTask& task = tasks[{line.trade, line.item}];
        task.trade = line.trade;
        task.task = line.item;
        task.time += line.labour;
        task.amount += line.trade == Trade::groundworks ? amount(labour.groundworks_rate, line.labour) : line.amount;
        hours.total += line.labour;
    }
    for (auto& [key, task] : tasks)
        hours.tasks.push_back(std::move(task));
    return hours;
}

}  // namespace spadework
