#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "layout/plan.hpp"
#include "plan_file/plan_file.hpp"
#include "scenario/scenario.hpp"

namespace spadework::plan_file {

/// A plan file's plan, found again on a site.
struct PlanOnSite {
    std::optional<Plan> plan;  ///< Nothing when something is missing.
    /// What the plan has and the site has not, or no longer in that way, a sentence each: "The site has no segment
    /// lane." Empty when it has everything.
    std::vector<std::string> missing;
    /// What the site has otherwise than the plan's file says, a sentence each: a segment of another length, a cable of
    /// another strand count. The plan's own lengths stand.
    std::vector<std::string> changed;
};

/// The site with the straight lines over open ground that the file's plan lays; the site itself where there are none.
/// Also the site itself where it no longer has a place or segment that a line needs: their names count the lines
/// through, and plan_of() will miss them all.
std::shared_ptr<const Scenario> site_with_lines(std::shared_ptr<const Scenario> scenario, const PlanFile& file);

/// The plan on a site that may have grown since: every name looked up, lists in the order of Plan. The site has to have
/// the file's straight lines; see site_with_lines(). The digest may differ.
PlanOnSite plan_of(const Scenario& scenario, const PlanFile& file);

}  // namespace spadework::plan_file
