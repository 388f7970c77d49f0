#pragma once

// The one place that calls the stages in order.

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "graph/progress.hpp"
#include "layout/design.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Told what is being worked on, and asked whether to stop. Told one thing at a time, from any thread; asked from
/// several threads at once.
class StudyObserver {
public:
    virtual ~StudyObserver() = default;
    virtual void started(LayoutKind layout) = 0;
    /// Best total and bound so far in the solver's own units; only their ratio has a meaning outside.
    virtual void improved(LayoutKind layout, std::int64_t value, std::int64_t bound) = 0;
    /// So many of all alternatives that explain() looks at are done.
    virtual void explained(int /*done*/, int /*of*/) {}
    [[nodiscard]] virtual bool should_stop() const = 0;
};

struct StudyOptions {
    std::vector<LayoutKind> layouts;  ///< Empty: all that the rules allow.
    double seconds = 30.0;            ///< For the whole study, wall clock.
    int threads = 1;                  ///< Layouts run side by side; the answer does not depend on it.
    std::uint64_t seed = 1;
    StudyObserver* observer = nullptr;
    double target_gap = 0;           ///< A layout's solver stops at this gap.
    std::vector<Design> known = {};  ///< Plans of this site to take over where none cheaper is found.
    KeptMap kept = {};               ///< Strands of an earlier plan, to stay where they are.
};

struct Study {
    Comparison comparison;
    bool interrupted = false;
    std::vector<std::string> violations;  ///< Bugs found by the verifier; nothing may be shown when there are any.
};

/// The layouts worth comparing under these rules: home runs, trunk, daisy chain and ring always; a mix where an
/// enclosure may stand; one enclosure apart from several where several may. In the order of LayoutKind.
std::vector<LayoutKind> layouts_allowed(const Rules& rules);

/// Designs, checks, prices, verifies and compares every layout.
Study compare_layouts(const Scenario& scenario, const StudyOptions& options);

/// One allowed place for the enclosure.
struct PlaceRank {
    PlaceIndex place = 0;
    LayoutResult result;
    Money over_best;  ///< Against the best place.
    std::string why;  ///< What makes it dear, in words and figures; "" for the best.
};
struct BarredPlace {
    PlaceIndex place = 0;
    std::string reason;
};
struct EnclosureStudy {
    std::vector<PlaceRank> ranking;      ///< Cheapest first, ties by place id.
    std::vector<BarredPlace> barred;     ///< By place id.
    std::vector<LayoutResult> by_count;  ///< Best trunk plan with 1, 2, … enclosures.
    std::string reason;                  ///< Why no place can take the enclosure; "" when one can.
    bool interrupted = false;
    std::vector<std::string> violations;
};
EnclosureStudy rank_enclosure_places(const Scenario& scenario, const StudyOptions& options);

/// The ranking alone, in a quarter of the time or so: `by_count` stays empty.
EnclosureStudy rank_places_for_one(const Scenario& scenario, const StudyOptions& options);

}  // namespace spadework
