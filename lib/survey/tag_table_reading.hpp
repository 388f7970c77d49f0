#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "site_file/source_text.hpp"
#include "survey/tag_table.hpp"
#include "units/money.hpp"

namespace spadework::survey {

/// Reads a tag table (YAML; scenarios/survey/tags.yaml says how one is written). Grounds must be among `grounds`,
/// prices are in `currency`. Nothing, and every problem with its line and column, where it has errors.
std::optional<TagTable> read_tag_table(const site_file::SourceText& source, const std::vector<std::string>& grounds,
                                       const Currency& currency, Diagnostics& diagnostics);

/// Names of the grounds in the text of a section `grounds` of a site file. Nothing, and the reasons, where it is not
/// YAML or names none.
std::optional<std::vector<std::string>> ground_names(const site_file::SourceText& source, Diagnostics& diagnostics);

}  // namespace spadework::survey
