#include "spadework/complaints.hpp"

#include <functional>

#include <fmt/format.h>

#include "report/shown_text.hpp"
#include "spadework/excerpt.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

std::string in_words(int count, const char* what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

}  // namespace

std::string tally(const Diagnostics& diagnostics) {
    std::map<Severity, int, std::greater<>> counts;
    for (const Diagnostic& diagnostic : diagnostics)
        ++counts[diagnostic.severity];
    std::string text;
    for (const auto& [severity, count] : counts) {
        const char* what = severity == Severity::error ? "error" : severity == Severity::warning ? "warning" : "note";
        text += (text.empty() ? "" : ", ") + in_words(count, what);
    }
    return text;
}

void complain_of(const Diagnostics& diagnostics, const Texts& texts, bool quiet) {
    for (const Diagnostic& diagnostic : diagnostics) {
        if (quiet && diagnostic.severity != Severity::error) continue;
        complain(report::shown(to_text(diagnostic)) + "\n");
        const auto source = texts.find(diagnostic.where.file);
        if (source != texts.end()) complain(excerpt(source->second, diagnostic.where));
    }
}

}  // namespace spadework
