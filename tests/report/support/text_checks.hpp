#pragma once

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <doctest/doctest.h>

#include "report/shown_text.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

inline std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        lines.push_back(line);
    return lines;
}

/// Nothing that a terminal obeys, no line too wide, no space at a line's end.
inline void check_form(const std::string& text) {
    for (const std::string& line : lines_of(text)) {
        CHECK_MESSAGE(display_width(line) <= report_width, line);
        CHECK_MESSAGE(shown(line) == line, line);
        CHECK_MESSAGE((line.empty() || line.back() != ' '), line);
    }
    CHECK(text.back() == '\n');
}

/// The text must be the one kept in tests/report/golden. Set SPADEWORK_REWRITE_GOLDEN to 1 to keep a new one, then read
/// it; that run fails, so that it cannot be mistaken for a test.
inline void check_golden(const std::string& text, const std::string& name) {
    const std::string path = std::string(SPADEWORK_SOURCE_DIR) + "/tests/report/golden/" + name;
    const char* rewrite = std::getenv("SPADEWORK_REWRITE_GOLDEN");
    if (rewrite != nullptr && std::string(rewrite) == "1") {
        std::ofstream(path) << text;
        FAIL_CHECK("kept anew: ", path);
    }
    std::ifstream file(path);
    std::ostringstream kept;
    kept << file.rdbuf();
    const std::vector<std::string> now = lines_of(text);
    const std::vector<std::string> then = lines_of(kept.str());
    CHECK(now.size() == then.size());
    for (std::size_t i = 0; i < std::min(now.size(), then.size()); ++i)
        CHECK(now[i] == then[i]);
}

}  // namespace spadework::report
