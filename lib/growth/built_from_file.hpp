#pragma once

// A plan file as what was built: found again on the site as it is now, without the buildings that are gone, and written
// anew with what was added.

#include <optional>
#include <string>
#include <vector>

#include "extension/extension.hpp"
#include "plan_file/plan_file.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

struct BuiltFromFile {
    std::optional<BuiltPlan> built;     ///< Nothing when there are problems.
    std::vector<std::string> problems;  ///< Why the plan cannot be extended on this site, a sentence each, all of them.
    std::vector<std::string> notes;     ///< What the site has otherwise than the plan, a sentence each.
    std::vector<std::string> gone;      ///< Ids of buildings that the plan links and the site no longer has.
};

/// The site has to have the file's straight lines and one strand use (see plan_file::site_with_lines, site_to_extend).
BuiltFromFile built_from_file(const Scenario& scenario, const plan_file::PlanFile& file);

/// The site with the strand use of the plan's links where its own rules leave that open. Ports kept at the hub for
/// growth are there to be used: none are wanted beyond what comes.
Scenario site_to_extend(const Scenario& scenario, const plan_file::PlanFile& file);

/// Takes the links to buildings that are gone out of a plan file. Their cables stay where they lie, without a building;
/// strands that carried them are spares.
plan_file::PlanFile without_buildings(plan_file::PlanFile file, const std::vector<std::string>& gone);

/// The plan file after an extension: everything built with everything new, the costs of both together, and what was
/// measured on links that are still there.
plan_file::PlanFile extended_file(const Scenario& scenario, const plan_file::PlanFile& before,
                                  const Extension& extension);

}  // namespace spadework
