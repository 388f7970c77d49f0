#include "survey/tag_table_reading.hpp"

#include <doctest/doctest.h>

#include "support/drawn_things.hpp"

using namespace spadework;
using namespace spadework::survey;

namespace {

std::vector<std::string> problems_of(const std::string& text) {
    Diagnostics diagnostics;
    const auto table = read_tag_table({"tags.yaml", text}, {"grass", "asphalt"}, {}, diagnostics);
    CHECK(table.has_value() == !has_errors(diagnostics));
    std::vector<std::string> texts;
    for (const Diagnostic& diagnostic : diagnostics)
        texts.push_back(to_text(diagnostic));
    return texts;
}

}  // namespace

TEST_CASE("every problem of a tag table is told at once, with its line and column") {
    const auto problems = problems_of(
        "format: 1\n"
        "lines:\n"
        "  - {tag: highway, ground: gras}\n"
        "  - {tag: highway, use: digg}\n"
        "  - {tag: highway, use: barred}\n"
        "  - {valeus: [x], use: dig}\n");
    REQUIRE(problems.size() == 4);
    CHECK(problems[0] ==
          "tags.yaml:3:28: error: no ground 'gras'; expected one of grass, asphalt; did you mean 'grass'?");
    CHECK(problems[1].starts_with("tags.yaml:4:25: error: "));
    CHECK(problems[2].starts_with("tags.yaml:5:25: error: a barred line without a reason"));
    CHECK(problems[3].find("did you mean 'values'?") != std::string::npos);
}

TEST_CASE("a table may have charges, and they are in the site's currency") {
    Diagnostics diagnostics;
    const auto table = read_tag_table({"tags.yaml",
                                       "format: 1\nlines:\n  - {tag: highway, values: [primary], charges: "
                                       "[{what: permit, category: permit, amount: 120.50}]}\n"},
                                      {"grass"}, {}, diagnostics);
    REQUIRE(table);
    REQUIRE(table->lines.size() == 1);
    REQUIRE(table->lines[0].charges.size() == 1);
    CHECK(table->lines[0].charges[0].amount.minor() == 12050);
    CHECK(table->lines[0].charges[0].category == ChargeCategory::permit);
}

TEST_CASE("what is no table, or names no grounds, is refused") {
    CHECK_FALSE(problems_of("just a text").empty());
    CHECK_FALSE(problems_of("").empty());
    CHECK_FALSE(problems_of("format: 2\n").empty());
    Diagnostics diagnostics;
    CHECK_FALSE(ground_names({"grounds.yaml", "[a, b]"}, diagnostics));
    CHECK(has_errors(diagnostics));
}

TEST_CASE("the shipped table is right, and all its grounds are shipped") {
    CHECK(shipped_table().lines.size() > 5);
    CHECK(shipped_table().surfaces.size() > 3);
}
