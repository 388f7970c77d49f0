#include "diagnostics/diagnostic.hpp"

#include <doctest/doctest.h>

using namespace spadework;

TEST_CASE("a diagnostic says where, what, what would be right and the nearest name") {
    const Diagnostic diagnostic{{"site.yaml", 12, 5}, Severity::error, "unknown key 'pirce'", "one of price", "price"};
    CHECK(to_text(diagnostic) ==
          "site.yaml:12:5: error: unknown key 'pirce'; expected one of price; did you mean 'price'?");
    CHECK(to_text(Diagnostic{{"site.yaml", 0, 0}, Severity::warning, "too large", "", ""}) ==
          "site.yaml: warning: too large");
    CHECK(to_text(Diagnostic{{"a", 1, 1}, Severity::note, "x", "", ""}) == "a:1:1: note: x");
}

TEST_CASE("only errors count as errors") {
    CHECK_FALSE(has_errors({}));
    CHECK_FALSE(has_errors({{{"a", 1, 1}, Severity::warning, "x", "", ""}}));
    CHECK(has_errors({{{"a", 1, 1}, Severity::warning, "x", "", ""}, {{"a", 1, 1}, Severity::error, "y", "", ""}}));
}

TEST_CASE("diagnostics are read by file, line and column, each once") {
    Diagnostics diagnostics = {{{"b", 1, 1}, Severity::error, "x", "", ""},
                               {{"a", 10, 1}, Severity::error, "x", "", ""},
                               {{"a", 9, 7}, Severity::error, "x", "", ""},
                               {{"a", 9, 3}, Severity::error, "x", "", ""},
                               {{"a", 9, 7}, Severity::error, "x", "", ""}};
    sort_for_reading(diagnostics);
    REQUIRE(diagnostics.size() == 4);
    CHECK(diagnostics[0].where.column == 3);
    CHECK(diagnostics[1].where.column == 7);
    CHECK(diagnostics[2].where.line == 10);
    CHECK(diagnostics[3].where.file == "b");
}
