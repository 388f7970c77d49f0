#include "survey/yaml_text.hpp"

#include <doctest/doctest.h>

#include "site_file/parsing.hpp"

using namespace spadework::survey;

TEST_CASE("texts that a reader could take for something else are put in quotes") {
    CHECK(yaml_scalar("Town hall") == "Town hall");
    CHECK(yaml_scalar("way/123.2") == "way/123.2");
    for (const char* text :
         {"", "yes", "No", "null", "12", "-3", "1:30", "a, b", "a: b", "[a]", "# a", " a", "a ", "é"})
        CHECK(yaml_scalar(text).front() == '"');
}

TEST_CASE("whatever a name holds, it is read back as it was") {
    for (const std::string name :
         {"\"quoted\" \\ {a: [b, c]} # d", "' & * ! | > % @ `", "Straße 5 — \u202ertl", "- x", "? y"}) {
        spadework::Diagnostics diagnostics;
        const auto document =
            spadework::site_file::parse_yaml({"a.yaml", "list: [" + yaml_scalar(name) + "]\n"}, diagnostics);
        REQUIRE(document);
        const auto list = document->find(document->root, "list");
        CHECK(document->at(document->children(list).front()).text == name);
    }
}

TEST_CASE("positions have at most seven digits and never an exponent") {
    std::string text;
    append_position(text, {-77.160263, 0.0000001});
    append_position(text, {-0.00000001, 50});
    CHECK(text == "[-77.160263, 0.0000001][0, 50]");
}

TEST_CASE("indenting leaves empty lines empty and ends in one line break") {
    CHECK(indented("a:\n\n  b: 1", 2) == "  a:\n\n    b: 1\n");
}
