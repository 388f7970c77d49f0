#pragma once

// From the text of a site file to a Scenario: reads, checks everything, and says where each value came from.

#include <memory>
#include <optional>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "scenario/scenario.hpp"
#include "site_file/reading.hpp"
#include "site_file/source_text.hpp"
#include "site_file/varying_site.hpp"

namespace spadework::site_file {

/// What became of a site file.
struct LoadedSite {
    std::optional<Scenario> scenario;  ///< Nothing when the diagnostics hold an error.
    Diagnostics diagnostics;           ///< Every problem found, in reading order.
    /// Values the plan will be made with and where each came from, in the order of the table of keys. The places and
    /// segments of the map are left out: they are the site itself, not settings.
    std::vector<ValueInForce> values;
    /// The same site at other values; null unless it was asked for, or the file has no error and holds ranges.
    std::shared_ptr<const VaryingSite> varying;
};

/// Whether a site may be asked for at other values: then its text is kept in memory.
enum class Varying { where_it_has_ranges, always };

/// Reads a site file in YAML (format 1; see scenarios/README.md for every key) and the files it names. Reports all
/// problems in one pass with file, line and column; throws nothing on bad input. Same bytes, same result. Where values
/// are ranges the scenario has their likely values.
LoadedSite read_site(const SourceText& main, const FileLoader& load, Varying varying = Varying::where_it_has_ranges);

}  // namespace spadework::site_file
