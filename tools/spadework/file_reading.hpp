#pragma once

#include <string>

#include "site_file/source_text.hpp"

namespace spadework {

/// All of a file, or why it cannot be read. "-" is standard input. Files above 1 GiB are refused.
site_file::LoadedText read_file(const std::string& path);

}  // namespace spadework
