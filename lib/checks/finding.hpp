#pragma once

#include <string>
#include <vector>

namespace spadework {

enum class FindingSeverity { note, warning, error };

/// Something a check measured against a limit. Kinds are short fixed words: "link-loss", "link-overload", "link-reach",
/// "link-too-short", "link-rate", "attenuator", "patch-cord"; "copper-ports", "copper-length", "poe-budget",
/// "poe-class", "optic-ports", "gear-rate", "gear-missing"; "hub-ports", "hub-copper-ports", "hub-uplink";
/// "strands-short", "ordered-short", "joints", "enclosure-adapters", "enclosure-place"; "duct-full", "duct-fill",
/// "duct-jam"; "hop-limit", "shared-rate".
struct Finding {
    std::string kind;
    FindingSeverity severity = FindingSeverity::note;
    std::string where;  ///< Id of what it concerns: "building kiosk", "segment road".
    std::string what;   ///< One sentence for people.
    double measured = 0;
    double limit = 0;
    std::string unit;
};

using Findings = std::vector<Finding>;

bool has_errors(const Findings& findings);

}  // namespace spadework

// Lists that many sources copy: compiled once, in finding.cpp.
extern template class std::vector<spadework::Finding>;
