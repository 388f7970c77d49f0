#pragma once

// From the text of a site file to a Scenario: reads, checks everything, and says where each value came from.

#include <optional>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "scenario/scenario.hpp"
#include "site_file/reading.hpp"
#include "site_file/source_text.hpp"

namespace spadework::site_file {

/// What became of a site file.
struct LoadedSite {
    std::optional<Scenario> scenario;  ///< Nothing when the diagnostics hold an error.
    Diagnostics diagnostics;           ///< Every problem found, in reading order.
    /// Values the plan will be made with and where each came from, in the order of the table of keys. The places and
    /// segments of the map are left out: they are the site itself, not settings.
    std::vector<ValueInForce> values;
};

/// Reads a site file in YAML (format 1; see scenarios/README.md for every key) and the files it names. Reports all
/// problems in one pass with file, line and column; throws nothing on bad input. Same bytes, same result.
LoadedSite read_site(const SourceText& main, const FileLoader& load);

}  // namespace spadework::site_file
