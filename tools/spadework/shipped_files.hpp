#pragma once

#include <string_view>
#include <vector>

namespace spadework {

/// A file of the scenarios folder, compiled in.
struct ShippedFile {
    std::string_view name;  ///< Relative to the scenarios folder: "lakeside.yaml".
    std::string_view text;
};

/// All of them, by name. The source is made by tools/embed_scenarios.cmake.
const std::vector<ShippedFile>& shipped_files();

}  // namespace spadework
