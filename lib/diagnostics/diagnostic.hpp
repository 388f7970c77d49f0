#pragma once

// What is wrong with the input, where, and what would be right.

#include <string>
#include <vector>

namespace spadework {

/// A place in an input file. Lines and columns count from 1; 0 means "the file as a whole".
struct SourcePosition {
    std::string file;
    int line = 0;
    int column = 0;
};

enum class Severity { note, warning, error };

/// One problem with the input.
struct Diagnostic {
    SourcePosition where;
    Severity severity = Severity::error;
    std::string found;    ///< What is there: "price is -3".
    std::string wanted;   ///< What would be right: "a price of 0 or more". May be empty.
    std::string nearest;  ///< The known name closest to what was found. May be empty.
};

/// Problems in the order they were found.
using Diagnostics = std::vector<Diagnostic>;

[[nodiscard]] bool has_errors(const Diagnostics& diagnostics);

/// By file, line and column, then by text, without repeats: the order a person reads them in.
void sort_for_reading(Diagnostics& diagnostics);

/// "site.yaml:12:5: error: unknown key 'pirce'; expected one of …; did you mean 'price'?" without a line break.
[[nodiscard]] std::string to_text(const Diagnostic& diagnostic);

}  // namespace spadework
