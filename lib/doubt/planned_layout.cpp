#include "doubt/planned_layout.hpp"

#include <algorithm>
#include <mutex>
#include <utility>

#include "layout/reconcile.hpp"
#include "study/side_by_side.hpp"

namespace spadework {

namespace {

/// Passes the wish to stop on, and nothing else.
class StopWish : public StudyObserver {
public:
    explicit StopWish(const StudyObserver* observer) : observer_(observer) {}
    void started(LayoutKind /*layout*/) override {}
    void improved(LayoutKind /*layout*/, std::int64_t /*value*/, std::int64_t /*bound*/) override {}
    [[nodiscard]] bool should_stop() const override { return observer_ != nullptr && observer_->should_stop(); }

private:
    const StudyObserver* observer_;
};

/// The layouts planned at a scenario, in their order.
std::vector<PlannedLayout> planned(const Scenario& scenario, const std::vector<LayoutKind>& layouts, double gap,
                                   const StudyOptions& study, StopWish& stop) {
    std::vector<PlannedLayout> planned(layouts.size());
    for (PlannedLayout& one : planned)
        one.interrupted = true;
    if (stop.should_stop()) return planned;
    Study made = compare_layouts(
        scenario,
        {.layouts = layouts, .seconds = study.seconds, .seed = study.seed, .observer = &stop, .target_gap = gap});
    for (std::size_t i = 0; i < planned.size(); ++i) {
        planned[i].interrupted = made.interrupted;
        planned[i].result = std::move(made.comparison.layouts[i]);
    }
    planned.front().violations = std::move(made.violations);
    return planned;
}

}  // namespace

std::vector<PlanningJob::Task> PlanningJob::tasks(const std::vector<LayoutKind>& layouts, const Gaps& gaps) const {
    const auto position = [&](LayoutKind kind) {
        return static_cast<std::size_t>(std::find(layouts.begin(), layouts.end(), kind) - layouts.begin());
    };
    const std::size_t trunk = position(LayoutKind::trunk);
    const std::size_t mixed = position(LayoutKind::mixed);
    std::vector<Task> tasks;
    for (std::size_t at = 0; at < gaps.size(); ++at) {
        const std::vector<std::optional<double>>& wanted = gaps[at];
        const bool join = joined_ && trunk < layouts.size() && mixed < layouts.size() && wanted[trunk] && wanted[mixed];
        for (std::size_t layout = layouts.size(); layout-- > 0;) {
            if (!wanted[layout] || (join && layout == trunk)) continue;
            Task task{at, {layout}, *wanted[layout]};
            if (join && layout == mixed) task = {at, {trunk, mixed}, std::min(*wanted[trunk], *wanted[mixed])};
            tasks.push_back(std::move(task));
        }
    }
    return tasks;
}

std::vector<std::vector<PlannedLayout>> PlanningJob::run(const std::vector<Scenario>& scenarios,
                                                         const std::vector<LayoutKind>& layouts, const Gaps& gaps) {
    std::vector<std::vector<PlannedLayout>> all(scenarios.size(), std::vector<PlannedLayout>(layouts.size()));
    StopWish stop(study_.observer);
    std::mutex mutex;
    int done = 0;
    const std::vector<Task> work = tasks(layouts, gaps);
    const auto jobs = static_cast<int>(work.size());
    do_side_by_side(jobs, study_.threads, [&](int job) {
        const Task& task = work[static_cast<std::size_t>(job)];
        std::vector<LayoutKind> kinds;
        for (const std::size_t layout : task.layouts)
            kinds.push_back(layouts[layout]);
        std::vector<PlannedLayout> made = planned(scenarios[task.scenario], kinds, task.gap, study_, stop);
        for (std::size_t i = 0; i < made.size(); ++i)
            all[task.scenario][task.layouts[i]] = std::move(made[i]);
        const std::scoped_lock lock(mutex);
        if (study_.observer != nullptr) study_.observer->explained(++done, jobs);
    });
    return all;
}

void raise_bounds(std::vector<PlannedLayout>& planned, const std::vector<LayoutKind>& layouts) {
    for (const auto& [narrow, wide] : contained_in) {
        const auto from = std::find(layouts.begin(), layouts.end(), narrow) - layouts.begin();
        const auto to = std::find(layouts.begin(), layouts.end(), wide) - layouts.begin();
        const auto count = static_cast<std::ptrdiff_t>(layouts.size());
        if (from == count || to == count) continue;
        LayoutResult& own = planned[static_cast<std::size_t>(from)].result;
        const LayoutResult& other = planned[static_cast<std::size_t>(to)].result;
        if (own.feasible() && other.feasible()) own.bound = std::max(own.bound, other.bound);
    }
}

bool includes(LayoutKind wide, LayoutKind narrow) {
    return std::any_of(contained_in.begin(), contained_in.end(),
                       [&](const auto& pair) { return pair.first == narrow && pair.second == wide; });
}

}  // namespace spadework
