#pragma once

// What is wrong with the input, said on standard error.

#include <map>
#include <string>

#include "diagnostics/diagnostic.hpp"

namespace spadework {

/// The text of every file read, by the name it is reported under.
using Texts = std::map<std::string, std::string>;

/// Says every problem, each with its line and a caret where the text is there; only errors when quiet.
void complain_of(const Diagnostics& diagnostics, const Texts& texts, bool quiet);

/// How many problems of each severity there are: "2 errors, 1 warning"; "" when there are none.
std::string tally(const Diagnostics& diagnostics);

}  // namespace spadework
