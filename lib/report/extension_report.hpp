#pragma once

#include <string>
#include <vector>

#include "extension/extension.hpp"
#include "growth/changed_labels.hpp"
#include "scenario/scenario.hpp"

namespace spadework::report {

/// What an extension came from, for its report.
struct ExtensionStory {
    const Plan& built;                      ///< On the site as it is now.
    std::vector<std::string> gone;          ///< Ids of buildings that were taken out.
    std::vector<std::string> notes;         ///< What the site has otherwise than the plan.
    std::vector<ChangedLabel> labels = {};  ///< To be written anew.
};

/// What is new, what it digs, takes and costs, how good that is, and that no existing link is touched.
std::string extension_text(const Scenario& scenario, const Extension& extension, const ExtensionStory& story);

/// The same as one JSON object. Lengths in metres, money in the currency's major unit.
std::string extension_json(const Scenario& scenario, const Extension& extension, const ExtensionStory& story);

}  // namespace spadework::report
