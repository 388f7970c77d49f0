#pragma once

#include <optional>

#include "site_file/document.hpp"
#include "site_file/source_text.hpp"

namespace spadework::site_file {

/// Largest file taken, in bytes.
inline constexpr std::size_t largest_file_bytes = std::size_t{64} * 1024 * 1024;

/// Whether the text may be parsed at all: not too large, valid UTF-8 (RFC 3629), no control characters other than tab
/// and line ends. Says the first thing wrong with it.
bool is_readable(const SourceText& source, Diagnostics& diagnostics);

/// Parses a YAML text of one document. Nothing, and the reason in `diagnostics`, where it is not YAML, holds nothing,
/// is nested deeper than `deepest_nesting`, or grows by its references ("*name") beyond measure. Tags are refused.
std::optional<Document> parse_yaml(const SourceText& source, Diagnostics& diagnostics);

/// Parses a JSON text (RFC 8259) under the same limits.
std::optional<Document> parse_json(const SourceText& source, Diagnostics& diagnostics);

}  // namespace spadework::site_file
