#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace spadework {

/// A file to write: its path within the folder, and all its text.
struct OutputFile {
    std::string name;
    std::string text;
};

/// The folder of --out. Files appear whole or not at all: each is written beside its place under another name, and only
/// when all are written are they moved to their names, over those that were there.
class OutputFolder {
public:
    /// Makes the folder if it is not there. Throws CannotWrite.
    explicit OutputFolder(const std::string& path);

    /// Throws CannotWrite; what stood in the folder before then still stands.
    void write(const std::vector<OutputFile>& files) const;

    /// Removes files of these names where they are. Throws CannotWrite.
    void remove(const std::vector<std::string>& names) const;

private:
    std::filesystem::path path_;
};

/// The folder that --out names, or nothing where it was not given. Throws CannotWrite.
std::optional<OutputFolder> open_folder(const std::string& path);

}  // namespace spadework
