#pragma once

// One layout planned, checked, priced and verified: what risk and sweep do at many prices.

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "study/study.hpp"

namespace spadework {

struct PlannedLayout {
    LayoutResult result;                  ///< Neither plan nor reason where it was not begun.
    std::vector<std::string> violations;  ///< Bugs found by the verifier.
    bool interrupted = false;
};

/// One job of many: plans layouts at scenarios, with one thread each, the layouts that take longest first. What is not
/// begun when the observer of the study asks to stop is left as interrupted.
class PlanningJob {
public:
    /// The gap to its bound at which the search of a layout at a scenario stops, scenario by scenario, layout by layout
    /// in each; a layout without one is not planned there.
    using Gaps = std::vector<std::vector<std::optional<double>>>;

    explicit PlanningJob(const StudyOptions& study) : study_(study) {}

    /// Lets the mixed layout design the trunk layout too where both are to be planned: with the smaller of their gaps,
    /// in half the time where its plan has no home run.
    PlanningJob& with_trunks_in_mixes() {
        joined_ = true;
        return *this;
    }

    /// Scenario by scenario, layout by layout in each.
    std::vector<std::vector<PlannedLayout>> run(const std::vector<Scenario>& scenarios,
                                                const std::vector<LayoutKind>& layouts, const Gaps& gaps);

private:
    /// Layouts planned in one go at one scenario.
    struct Task {
        std::size_t scenario = 0;
        std::vector<std::size_t> layouts;
        double gap = 0;
    };
    [[nodiscard]] std::vector<Task> tasks(const std::vector<LayoutKind>& layouts, const Gaps& gaps) const;

    const StudyOptions& study_;
    bool joined_ = false;
};

/// Lets layouts learn from those that they contain, by totals and bounds: see reconcile(). A narrower layout's bound is
/// at least the wider one's.
void raise_bounds(std::vector<PlannedLayout>& planned, const std::vector<LayoutKind>& layouts);

/// Whether a layout's plans are among another's.
bool includes(LayoutKind wide, LayoutKind narrow);

}  // namespace spadework
