#include "site_file/parsing.hpp"

#include <random>

#include <doctest/doctest.h>

using namespace spadework;
using namespace spadework::site_file;

namespace {

std::string problem_of_yaml(const std::string& text) {
    Diagnostics diagnostics;
    const auto document = parse_yaml({"x.yaml", text}, diagnostics);
    CHECK(document.has_value() == diagnostics.empty());
    return diagnostics.empty() ? "" : to_text(diagnostics.front());
}

std::string problem_of_json(const std::string& text) {
    Diagnostics diagnostics;
    const auto document = parse_json({"x.json", text}, diagnostics);
    CHECK(document.has_value() == diagnostics.empty());
    return diagnostics.empty() ? "" : to_text(diagnostics.front());
}

std::string problem_of_bytes(const std::string& text) {
    Diagnostics diagnostics;
    const bool readable = is_readable({"x", text}, diagnostics);
    CHECK(readable == diagnostics.empty());
    return diagnostics.empty() ? "" : to_text(diagnostics.front());
}

std::string repeated(const std::string& text, int times) {
    std::string all;
    for (int i = 0; i < times; ++i)
        all += text;
    return all;
}

}  // namespace

TEST_CASE("every value of a YAML text has the line and column where it starts") {
    Diagnostics diagnostics;
    const auto document = parse_yaml({"x.yaml", "a: 1\nb:\n  - {c: \"two\"}\n"}, diagnostics);
    REQUIRE(document.has_value());
    const NodeId item = document->children(document->find(document->root, "b")).front();
    CHECK(document->at(item).line == 3);
    CHECK(document->at(item).column == 5);
    const Node& two = document->at(document->find(item, "c"));
    CHECK(two.column == 9);
    CHECK(two.quoted);
    CHECK_FALSE(document->at(document->find(document->root, "a")).quoted);
}

TEST_CASE("every value of a JSON text has the line and column where it starts") {
    Diagnostics diagnostics;
    const auto document =
        parse_json({"x.json", "{\n  \"a\" : [1,-2.5 ,\n 3e1],\"b\\u0041\": null, \"c\":{\"d\":true}}"}, diagnostics);
    REQUIRE(document.has_value());
    const NodeId list = document->find(document->root, "a");
    CHECK(document->at(list).line == 2);
    CHECK(document->at(list).column == 9);
    const std::vector<NodeId> items = document->children(list);
    REQUIRE(items.size() == 3);
    CHECK(document->at(items[0]).column == 10);
    CHECK(document->at(items[1]).column == 12);
    CHECK(document->at(items[1]).text == "-2.5");
    CHECK(document->at(items[2]).line == 3);
    CHECK(document->at(items[2]).column == 2);
    const NodeId null = document->find(document->root, "bA");
    CHECK(document->at(null).kind == NodeKind::null);
    CHECK(document->at(null).column == 18);
    CHECK(document->at(document->find(document->find(document->root, "c"), "d")).column == 33);
}

TEST_CASE("YAML that is broken is refused with its place") {
    CHECK(problem_of_yaml("a: [1, 2\nb: 3") ==
          "x.yaml:2:2: error: text that is not YAML: end of sequence flow not found");
    CHECK(problem_of_yaml("").find("a file with nothing in it") != std::string::npos);
    CHECK(problem_of_yaml("# only a remark\n").find("a file with nothing in it") != std::string::npos);
    CHECK(problem_of_yaml("a: 1\n---\nb: 2\n") ==
          "x.yaml:2:1: error: a second document; expected one document in the "
          "file");
    CHECK(problem_of_yaml("a: !!int 3\n") ==
          "x.yaml:1:4: error: tag 'tag:yaml.org,2002:int'; expected a value without a tag");
    CHECK_FALSE(problem_of_yaml("a: *nowhere\n").empty());
}

TEST_CASE("JSON that is broken is refused with its place") {
    CHECK(problem_of_json("{\"a\": 1,\n \"b\": }") ==
          "x.json:2:7: error: text that is not JSON: unexpected '}'; expected '[', '{', or a literal");
    CHECK_FALSE(problem_of_json("").empty());
    CHECK_FALSE(problem_of_json("{\"a\": NaN}").empty());
    CHECK_FALSE(problem_of_json("[1] x").empty());
    CHECK_FALSE(problem_of_json("[1e999]").empty());
}

TEST_CASE("nesting is refused beyond 64 levels, however deep it goes") {
    CHECK(problem_of_yaml("a: " + repeated("[", 63) + repeated("]", 63)).empty());
    for (const int depth : {64, 200, 100'000}) {
        CAPTURE(depth);
        const std::string wanted = "values nested more than 64 deep";
        CHECK(problem_of_yaml("a: " + repeated("[", depth)).find(wanted) != std::string::npos);
        CHECK(problem_of_yaml(repeated("{a: ", depth + 1)).find(wanted) != std::string::npos);
        CHECK(problem_of_yaml(repeated("- ", depth + 1) + "x").find(wanted) != std::string::npos);
        CHECK(problem_of_yaml(repeated("? ", depth + 1) + "x").find(wanted) != std::string::npos);
        CHECK(problem_of_json(repeated("[", depth + 1)).find(wanted) != std::string::npos);
        CHECK(problem_of_json(repeated("{\"a\":", depth + 1)).find(wanted) != std::string::npos);
    }
    std::string indented;
    for (int i = 0; i < 200; ++i)
        indented += std::string(static_cast<std::size_t>(i), ' ') + "a:\n";
    CHECK(problem_of_yaml(indented).find("values nested more than 64 deep") != std::string::npos);
}

TEST_CASE("references to earlier values are followed, bombs of them refused") {
    Diagnostics diagnostics;
    const auto document = parse_yaml({"x.yaml", "a: &price {x: 1}\nb: *price\n"}, diagnostics);
    REQUIRE(document.has_value());
    CHECK(document->at(document->find(document->find(document->root, "b"), "x")).text == "1");
    std::string bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n";
    for (int i = 1; i < 12; ++i) {
        const std::string last = "*a" + std::to_string(i - 1);
        bomb += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" + last + repeated(", " + last, 9) + "]\n";
    }
    CHECK(problem_of_yaml(bomb).find("references to earlier values that grow without end") != std::string::npos);
    CHECK(problem_of_yaml("a: &a [*a]\n").find("a value that is not complete") != std::string::npos);
}

TEST_CASE("bytes that are no text are refused") {
    CHECK(problem_of_bytes("a: ü – 日本 😀\n").empty());
    CHECK(problem_of_bytes(std::string("a: \0b", 5)) ==
          "x:1:4: error: control character U+0000; expected a text file in UTF-8");
    CHECK(problem_of_bytes("a: 1\nb: \x07") == "x:2:4: error: control character U+0007; expected a text file in UTF-8");
    // RFC 3629: stray and missing continuation bytes, overlong forms, surrogates, beyond U+10FFFF.
    for (const char* bytes : {"\x80", "\xC3", "\xC3x", "\xC0\xAF", "\xE0\x80\xAF", "\xF0\x80\x80\xAF", "\xED\xA0\x80",
                              "\xF4\x90\x80\x80", "\xFF", "\xE2\x82"}) {
        CHECK(problem_of_bytes(bytes).find("a byte that is not UTF-8 text") != std::string::npos);
    }
}

TEST_CASE("a file beyond the limit is refused before it is parsed") {
    CHECK(problem_of_bytes(std::string(largest_file_bytes, ' ')).empty());
    CHECK(problem_of_bytes(std::string(largest_file_bytes + 1, ' ')) ==
          "x: error: a file of 67108865 bytes; expected at most 67108864 bytes");
}

TEST_CASE("any bytes end in a document or an error") {
    std::mt19937 random(20);
    const std::string alphabet = "{}[]:,-?&*!|>'\"%@`#\n\n  \tab01.~<=\\";
    std::uniform_int_distribution<std::size_t> letter(0, alphabet.size() - 1);
    std::uniform_int_distribution<int> length(0, 60);
    for (int i = 0; i < 20'000; ++i) {
        std::string text;
        for (int n = length(random); n > 0; --n)
            text += alphabet[letter(random)];
        CAPTURE(text);
        problem_of_yaml(text);
        problem_of_json(text);
    }
}
