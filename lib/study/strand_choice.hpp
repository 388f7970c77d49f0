#pragma once

// Sites whose rules leave the strand use to the price: all links of a plan with two strands or all with one, whichever
// makes the plan cheaper. Each strand use is a site of its own, designed, checked and verified as such; here the two
// answers become one.

#include <map>
#include <vector>

#include "comparison/comparison.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// A site once for each strand use that its plans may have.
class StrandUseSites {
public:
    /// The scenario must outlive this.
    explicit StrandUseSites(const Scenario& scenario);

    [[nodiscard]] const std::vector<StrandUse>& uses() const { return uses_; }
    [[nodiscard]] const Scenario& of(StrandUse use) const;
    /// The site of the strand use that a result's plan has; the first where it has none.
    [[nodiscard]] const Scenario& of(const LayoutResult& result) const;

private:
    const Scenario& scenario_;
    std::vector<StrandUse> uses_;
    std::map<StrandUse, Scenario> settled_;
};

/// Of one layout with either strand use, in their order: the cheaper, the first among equals, with what the other
/// comes to. No plan of either undercuts the smaller of the two bounds, which is the answer's; a strand use for which
/// no plan exists bounds nothing.
LayoutResult cheaper_of(const Scenario& scenario, LayoutResult first, LayoutResult second);

}  // namespace spadework
