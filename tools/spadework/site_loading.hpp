#pragma once

#include <optional>

#include "site_file/site_file.hpp"
#include "spadework/options.hpp"

namespace spadework {

/// Reads the site that the options name, with the files it names itself. Complains of every problem on standard error,
/// each with its line and a caret (of warnings and notes not when quiet), and hands back the site when it is valid.
std::optional<site_file::LoadedSite> load_site(const SiteOptions& options,
                                               site_file::Varying varying = site_file::Varying::where_it_has_ranges);

}  // namespace spadework
