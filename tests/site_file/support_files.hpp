#pragma once

// Files for tests of the reader: from disk, or made up on the spot.

#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include "site_file/site_file.hpp"

namespace spadework::site_file::testing {

inline std::string text_of_file(const std::string& path) {
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

/// A loader that reads files beside the named one.
inline FileLoader loader_beside(const std::string& main_path) {
    const std::string folder = main_path.substr(0, main_path.rfind('/') + 1);
    return [folder](const std::string& path) -> LoadedText {
        std::ifstream stream(folder + path, std::ios::binary);
        if (!stream) return {std::nullopt, "no such file"};
        std::ostringstream text;
        text << stream.rdbuf();
        return {text.str(), {}};
    };
}

/// A loader that knows only these files.
inline FileLoader loader_of(std::map<std::string, std::string> files) {
    return [files = std::move(files)](const std::string& path) -> LoadedText {
        const auto found = files.find(path);
        if (found == files.end()) return {std::nullopt, "no such file"};
        return {found->second, {}};
    };
}

inline LoadedSite read_text(const std::string& text, std::map<std::string, std::string> files = {}) {
    return read_site({"site.yaml", text}, loader_of(std::move(files)));
}

/// All diagnostics, one a line.
inline std::string said(const LoadedSite& site) {
    std::string text;
    for (const Diagnostic& diagnostic : site.diagnostics)
        text += to_text(diagnostic) + "\n";
    return text;
}

inline std::string scenario_path(const std::string& name) {
    return std::string(SPADEWORK_SOURCE_DIR) + "/scenarios/" + name;
}

}  // namespace spadework::site_file::testing
