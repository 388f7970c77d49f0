#pragma once

#include <string>
#include <vector>

#include "plan_file/plan_file.hpp"

namespace spadework {

/// A label that has to be written anew: it stays where it is and marks what it marked.
struct ChangedLabel {
    std::string place;
    std::string marks;
    std::string before;  ///< Its first line.
    std::string after;
};

/// Labels of a cable that has another name in the later plan: those of the plan before that name it, and are not in the
/// plan after. Where the later plan has no such label, `after` is empty.
std::vector<ChangedLabel> changed_labels(const plan_file::PlanFile& before, const plan_file::PlanFile& after,
                                         const std::string& old_name, const std::string& new_name);

}  // namespace spadework
