#include "checks/finding.hpp"

#include <algorithm>

namespace spadework {

bool has_errors(const Findings& findings) {
    return std::any_of(findings.begin(), findings.end(),
                       [](const Finding& finding) { return finding.severity == FindingSeverity::error; });
}

}  // namespace spadework

template class std::vector<spadework::Finding>;
