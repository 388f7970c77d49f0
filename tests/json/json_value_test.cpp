#include "json/json_value.hpp"

#include <doctest/doctest.h>

namespace spadework::json {
namespace {

JsonValue value_of(const std::string& text) {
    Diagnostics diagnostics;
    const auto value = parse_json("file", text, diagnostics);
    REQUIRE(value);
    CHECK(diagnostics.empty());
    return *value;
}

std::string problem_of(const std::string& text) {
    Diagnostics diagnostics;
    CHECK_FALSE(parse_json("file", text, diagnostics));
    REQUIRE(diagnostics.size() == 1);
    return to_text(diagnostics.front());
}

}  // namespace

TEST_CASE("objects, lists, texts, numbers and null come apart as they were put together") {
    const JsonValue value =
        value_of(R"( {"a": [1, -2, 3], "b": [7], "c": [], "d": ["x", 1], "e": null, "f": {"g": "h"}} )");
    REQUIRE(value.members.size() == 6);
    CHECK(value.members[0].value.numbers == std::vector<std::int64_t>{1, -2, 3});
    CHECK(value.members[1].value.items.front().number == 7);
    CHECK(value.members[2].value.kind == JsonKind::list);
    CHECK(value.members[3].value.items[0].text == "x");
    CHECK(value.members[3].value.items[1].number == 1);
    CHECK(value.members[4].value.kind == JsonKind::null);
    CHECK(value.members[5].value.members[0].value.text == "h");
}

TEST_CASE("numbers in front of something else in a list are members like it") {
    const JsonValue value = value_of(R"([1, 2, "x", 3])");
    CHECK(value.numbers.empty());
    REQUIRE(value.items.size() == 4);
    CHECK(value.items[1].number == 2);
    CHECK(value.items[3].number == 3);
}

TEST_CASE("escapes stand for their characters") {
    CHECK(value_of(R"("a\"\\\/\b\f\n\r\t\u0041\u007f")").text == "a\"\\/\b\f\n\r\tA\x7f");
}

TEST_CASE("the ends of 64 bits are read and one more is refused") {
    CHECK(value_of("9223372036854775807").number == INT64_MAX);
    CHECK(value_of("-9223372036854775808").number == INT64_MIN);
    CHECK(problem_of("9223372036854775808").find("a number of more than 64 bits") != std::string::npos);
}

TEST_CASE("a file that has to be an object and begins otherwise is told what it has to be") {
    for (const char* text : {"# A site", "", " [1]", "\n\"x\""}) {
        Diagnostics diagnostics;
        CHECK_FALSE(parse_object("file", text, "a plan file", diagnostics));
        REQUIRE(diagnostics.size() == 1);
        CHECK(diagnostics.front().wanted == "a plan file, which begins with '{'");
    }
    Diagnostics diagnostics;
    CHECK(parse_object("file", "\n {}", "a plan file", diagnostics));
    CHECK_FALSE(parse_object("file", "{]", "a plan file", diagnostics));
    CHECK(diagnostics.front().wanted != "a plan file, which begins with '{'");
}

TEST_CASE("what is not such JSON is refused with its place") {
    CHECK(problem_of("") ==
          "file:1:1: error: the end of the file; expected an object, a list, a text, a whole number or null");
    CHECK(problem_of("{\n  \"a\": 1.5}") == "file:2:8: error: a number; expected a whole number");
    CHECK(problem_of("[01]").find("a whole number") != std::string::npos);
    CHECK(problem_of("[1e3]").find("a whole number") != std::string::npos);
    CHECK(problem_of("[true]").find("'t'") != std::string::npos);
    CHECK(problem_of("[1 2]").find("expected ',' or ']'") != std::string::npos);
    CHECK(problem_of("[1,]").find("']'") != std::string::npos);
    CHECK(problem_of("{\"a\": 1, \"a\": 2}").find("key 'a' twice") != std::string::npos);
    CHECK(problem_of("{a: 1}").find("a key in quotes") != std::string::npos);
    CHECK(problem_of("1 1").find("the end of the file") != std::string::npos);
    CHECK(problem_of("\"a").find("the end of the file") != std::string::npos);
    CHECK(problem_of("\"\n\"").find("a control character") != std::string::npos);
    CHECK(problem_of(R"("\u20ac")").find("an escape") != std::string::npos);
    CHECK(problem_of(R"("\u12)").find("an escape") != std::string::npos);
    CHECK(problem_of("-").find("expected an object") != std::string::npos);
}

TEST_CASE("lists within lists without end and values without number are refused") {
    CHECK(problem_of(std::string(1'000'000, '[')).find("more than 16 deep") != std::string::npos);
    std::string many = "[";
    for (int i = 0; i < 4'000'000; ++i)
        many += "[],";
    CHECK(problem_of(many + "[]]").find("more than 4000000 values") != std::string::npos);
}

}  // namespace spadework::json
