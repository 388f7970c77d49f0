#include "growth/changed_labels.hpp"

#include <set>
#include <tuple>

namespace spadework {

namespace {

using LabelName = std::tuple<std::string, std::string, std::string>;  ///< Place, what it marks, first line.

/// Whether a label is of this cable or of a strand of it.
bool names(const std::string& line, const std::string& cable) {
    return line == cable || line.starts_with(cable + "/");
}

}  // namespace

std::vector<ChangedLabel> changed_labels(const plan_file::PlanFile& before, const plan_file::PlanFile& after,
                                         const std::string& old_name, const std::string& new_name) {
    std::set<LabelName> there;
    for (const plan_file::NamedLabel& label : after.labels)
        there.emplace(label.place, label.marks, label.line_1);
    std::vector<ChangedLabel> changed;
    for (const plan_file::NamedLabel& label : before.labels) {
        if (!names(label.line_1, old_name) || there.contains({label.place, label.marks, label.line_1})) continue;
        std::string line = new_name + label.line_1.substr(old_name.size());
        if (!there.contains({label.place, label.marks, line})) line.clear();
        changed.push_back({label.place, label.marks, label.line_1, line});
    }
    return changed;
}

}  // namespace spadework
