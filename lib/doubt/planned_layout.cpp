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

PlannedLayout planned(const Scenario& scenario, LayoutKind layout, double gap, const StudyOptions& study,
                      StopWish& stop) {
    PlannedLayout planned;
    planned.interrupted = true;
    if (stop.should_stop()) return planned;
    Study one = compare_layouts(
        scenario,
        {.layouts = {layout}, .seconds = study.seconds, .seed = study.seed, .observer = &stop, .target_gap = gap});
    planned.interrupted = one.interrupted;
    planned.violations = std::move(one.violations);
    planned.result = std::move(one.comparison.layouts.front());
    return planned;
}

}  // namespace

std::vector<std::vector<PlannedLayout>> PlanningJob::run_all(const std::vector<Scenario>& scenarios,
                                                             const std::vector<LayoutKind>& layouts,
                                                             const std::vector<std::vector<double>>& gaps) {
    const std::size_t width = layouts.size();
    std::vector<std::vector<PlannedLayout>> all(scenarios.size(), std::vector<PlannedLayout>(width));
    StopWish stop(study_.observer);
    std::mutex mutex;
    int done = 0;
    const auto jobs = static_cast<int>(scenarios.size() * width);
    do_side_by_side(jobs, study_.threads, [&](int job) {
        const std::size_t at = static_cast<std::size_t>(job) / width;
        const std::size_t layout = width - 1 - static_cast<std::size_t>(job) % width;
        all[at][layout] = planned(scenarios[at], layouts[layout], gaps[at][layout], study_, stop);
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
