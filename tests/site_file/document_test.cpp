#include "site_file/document.hpp"

#include <doctest/doctest.h>

#include "site_file/parsing.hpp"

using namespace spadework;
using namespace spadework::site_file;

TEST_CASE("the value of a key is found, of a repeated key the first") {
    Diagnostics diagnostics;
    const auto document = parse_yaml({"x.yaml", "a: 1\nb: {c: 2}\na: 3\n"}, diagnostics);
    REQUIRE(document.has_value());
    CHECK(document->at(document->find(document->root, "a")).text == "1");
    CHECK(document->at(document->find(document->find(document->root, "b"), "c")).text == "2");
    CHECK(document->find(document->root, "d") == no_node);
    CHECK(document->find(document->find(document->root, "a"), "d") == no_node);
    CHECK(document->find(no_node, "d") == no_node);
    CHECK(document->children(no_node).empty());
    CHECK(document->children(document->root).size() == 6);
}

TEST_CASE("texts are quoted short and without control characters") {
    CHECK(quoted("gate") == "'gate'");
    CHECK(quoted("a\nb\tc") == "'a?b?c'");
    CHECK(quoted("a\x1b[2J\xC2\x9Bü") == "'a?[2J?ü'");
    CHECK(site_file::quoted(std::string(100, 'x')) == "'" + std::string(60, 'x') + "…'");
    // Cut between characters, never inside one.
    CHECK(site_file::quoted(std::string(59, 'x') + "üü") == "'" + std::string(59, 'x') + "…'");
}
