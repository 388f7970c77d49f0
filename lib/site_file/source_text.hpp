#pragma once

// Input arrives as text with a name: the library opens no files.

#include <functional>
#include <optional>
#include <string>

namespace spadework::site_file {

/// The text of one input file and the name it is reported under.
struct SourceText {
    std::string file;
    std::string text;
};

/// What became of a file that another file names.
struct LoadedText {
    std::optional<std::string> text;
    std::string problem;  ///< Why there is no text: "no such file".
};

/// Reads a file by its path relative to the folder of the main site file, with '/' between folders.
using FileLoader = std::function<LoadedText(const std::string& path)>;

}  // namespace spadework::site_file
