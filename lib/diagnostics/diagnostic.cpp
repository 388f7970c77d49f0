#include "diagnostics/diagnostic.hpp"

#include <algorithm>
#include <tuple>

namespace spadework {

namespace {

const char* name_of(Severity severity) {
    switch (severity) {
        case Severity::note:
            return "note";
        case Severity::warning:
            return "warning";
        case Severity::error:
            return "error";
    }
    return "error";
}

auto reading_key(const Diagnostic& d) {
    return std::tie(d.where.file, d.where.line, d.where.column, d.found, d.wanted, d.nearest);
}

}  // namespace

bool has_errors(const Diagnostics& diagnostics) {
    return std::any_of(diagnostics.begin(), diagnostics.end(),
                       [](const Diagnostic& d) { return d.severity == Severity::error; });
}

void sort_for_reading(Diagnostics& diagnostics) {
    std::stable_sort(diagnostics.begin(), diagnostics.end(),
                     [](const Diagnostic& a, const Diagnostic& b) { return reading_key(a) < reading_key(b); });
    const auto same = [](const Diagnostic& a, const Diagnostic& b) { return reading_key(a) == reading_key(b); };
    diagnostics.erase(std::unique(diagnostics.begin(), diagnostics.end(), same), diagnostics.end());
}

std::string to_text(const Diagnostic& diagnostic) {
    std::string text = diagnostic.where.file;
    if (diagnostic.where.line > 0) {
        text += ":" + std::to_string(diagnostic.where.line) + ":" + std::to_string(diagnostic.where.column);
    }
    text += std::string(": ") + name_of(diagnostic.severity) + ": " + diagnostic.found;
    if (!diagnostic.wanted.empty()) text += "; expected " + diagnostic.wanted;
    if (!diagnostic.nearest.empty()) text += "; did you mean '" + diagnostic.nearest + "'?";
    return text;
}

}  // namespace spadework
