#pragma once

#include <optional>
#include <string>

#include "site_file/source_text.hpp"

namespace spadework {

/// All of a file, or why it cannot be read. "-" is standard input. Files above 1 GiB are refused.
site_file::LoadedText read_file(const std::string& path);

/// Whether there is a file or a folder at a path; false as well for what can be no path.
bool is_there(const std::string& path);

/// What a file is reported as: its path, or "<standard input>" for "-".
std::string name_of_input(const std::string& path);

/// The text of a file; nothing, and a complaint, where it cannot be read.
std::optional<std::string> text_of_input(const std::string& path);

}  // namespace spadework
