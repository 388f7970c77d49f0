#pragma once

// Reading maps in tests.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <vector>

#include "drawn_map/reading.hpp"
#include "geometry/geodesic.hpp"

namespace spadework::drawn_map::testing {

struct ReadMap {
    std::optional<DrawnMap> map;
    Diagnostics diagnostics;

    /// All problems as a person reads them, a line each.
    [[nodiscard]] std::string said() const {
        std::string lines;
        for (const Diagnostic& diagnostic : diagnostics)
            lines += to_text(diagnostic) + "\n";
        return lines;
    }
};

inline ReadMap read_map(const std::string& name, const std::string& bytes, const ReadingOptions& options = {}) {
    ReadMap result;
    result.map = read_drawn_map(name, bytes, options, result.diagnostics);
    return result;
}

inline ReadingOptions metres_on_a_plan() {
    ReadingOptions options;
    options.coordinates = CoordinateSystem::plane_metres;
    return options;
}

inline int count_of(const DrawnMap& map, Shape shape) {
    return static_cast<int>(std::ranges::count(map.features, shape, &Feature::shape));
}

inline double metres_of_lines(const DrawnMap& map) {
    double metres = 0;
    for (const Feature& feature : map.features) {
        if (feature.shape == Shape::line) metres += metres_along(feature.parts.front(), map.coordinates);
    }
    return metres;
}

inline int left_out(const DrawnMap& map, const std::string& what) {
    const auto found = map.left_out.find(what);
    return found == map.left_out.end() ? 0 : found->second;
}

inline std::filesystem::path shared_data() {
    return std::filesystem::path(SPADEWORK_SHARED_DIR) / "data";
}

inline std::string bytes_of(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// All files below a folder, in order of their names; none where it is absent.
inline std::vector<std::filesystem::path> files_below(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    if (!std::filesystem::is_directory(folder)) return files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) files.push_back(entry.path());
    }
    std::ranges::sort(files);
    return files;
}

}  // namespace spadework::drawn_map::testing
