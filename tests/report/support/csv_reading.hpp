#pragma once

// Reads tables back for tests.

#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <doctest/doctest.h>

namespace spadework::report {

using Rows = std::vector<std::vector<std::string>>;

/// Reads RFC 4180: a small reader of its own, so that what is written is not checked by what wrote it.
inline Rows read(const std::string& table) {
    Rows rows;
    std::vector<std::string> row(1);
    bool quoted = false;
    for (std::size_t i = 0; i < table.size(); ++i) {
        const char c = table[i];
        if (quoted) {
            if (c != '"') {
                row.back() += c;
            } else if (i + 1 < table.size() && table[i + 1] == '"') {
                row.back() += '"';
                ++i;
            } else {
                quoted = false;
            }
        } else if (c == '"') {
            quoted = true;
        } else if (c == ',') {
            row.emplace_back();
        } else if (c == '\r') {
            REQUIRE(table[i + 1] == '\n');
            ++i;
            rows.push_back(row);
            row.assign(1, "");
        } else {
            row.back() += c;
        }
    }
    CHECK(row == std::vector<std::string>(1));
    return rows;
}

inline std::size_t column(const Rows& rows, const std::string& name) {
    for (std::size_t c = 0; c < rows[0].size(); ++c) {
        if (rows[0][c] == name) return c;
    }
    FAIL("no column ", name);
    return 0;
}

inline std::int64_t cents(const std::string& money) {
    return std::llround(std::stod(money) * 100.0);
}

}  // namespace spadework::report
