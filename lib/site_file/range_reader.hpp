#pragma once

#include <optional>
#include <string>

#include "scenario/range.hpp"
#include "site_file/document.hpp"
#include "site_file/key.hpp"
#include "site_file/reading.hpp"

namespace spadework::site_file {

/// The range in a mapping that stands behind `key` instead of a number, or nothing and every problem it has.
std::optional<UncertainValue> read_range(Reading& reading, const Document& document, NodeId node, const Key& key,
                                         const std::string& path);

/// "low 40, likely 50, high 70, triangular, group rock".
std::string in_words(const UncertainValue& value);

}  // namespace spadework::site_file
