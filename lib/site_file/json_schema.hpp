#pragma once

#include <string>

namespace spadework::site_file {

/// JSON Schema (draft 2020-12) of a site file, made from the table of keys, so that editors can complete and check it.
/// It holds types, ranges, required and unknown keys; that names refer to something is beyond a schema. Ends with a
/// line end.
std::string json_schema();

/// The table of keys in Markdown: for each kind of mapping its keys with type and unit, default and its source, and
/// meaning. Ends with a line end.
std::string key_table_markdown();

}  // namespace spadework::site_file
