#pragma once

// One layout planned, checked, priced and verified: what risk and sweep do at many prices.

#include <string>
#include <vector>

#include "study/study.hpp"

namespace spadework {

struct PlannedLayout {
    LayoutResult result;                  ///< Neither plan nor reason where it was not begun.
    std::vector<std::string> violations;  ///< Bugs found by the verifier.
    bool interrupted = false;
};

/// One job of many: plans each layout at each scenario, with one thread each, the layouts that take longest first.
/// `gap_of` gives the gap to their bound at which the searches of a scenario and layout stop. What is not begun when
/// the observer of the study asks to stop is left as interrupted. Scenario by scenario, layout by layout in each.
class PlanningJob {
public:
    explicit PlanningJob(const StudyOptions& study) : study_(study) {}

    template <typename GapOf>
    std::vector<std::vector<PlannedLayout>> run(const std::vector<Scenario>& scenarios,
                                                const std::vector<LayoutKind>& layouts, GapOf gap_of) {
        std::vector<std::vector<double>> gaps;
        for (std::size_t at = 0; at < scenarios.size(); ++at) {
            gaps.emplace_back();
            for (std::size_t layout = 0; layout < layouts.size(); ++layout)
                gaps.back().push_back(gap_of(scenarios[at], layout));
        }
        return run_all(scenarios, layouts, gaps);
    }

private:
    std::vector<std::vector<PlannedLayout>> run_all(const std::vector<Scenario>& scenarios,
                                                    const std::vector<LayoutKind>& layouts,
                                                    const std::vector<std::vector<double>>& gaps);
    const StudyOptions& study_;
};

/// Lets layouts learn from those that they contain, by totals and bounds: see reconcile(). A narrower layout's bound is
/// at least the wider one's.
void raise_bounds(std::vector<PlannedLayout>& planned, const std::vector<LayoutKind>& layouts);

/// Whether a layout's plans are among another's.
bool includes(LayoutKind wide, LayoutKind narrow);

}  // namespace spadework
