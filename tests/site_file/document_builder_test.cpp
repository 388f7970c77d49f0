#include "site_file/document_builder.hpp"

#include <doctest/doctest.h>

using namespace spadework::site_file;

TEST_CASE("nodes hang under the one that is open") {
    Document document;
    DocumentBuilder builder(document);
    CHECK(builder.start(NodeKind::mapping, 1, 1));
    CHECK(builder.scalar(1, 2, "key", false));
    CHECK(builder.start(NodeKind::sequence, 1, 7));
    CHECK(builder.scalar(1, 8, "x", false));
    CHECK(builder.null(1, 10));
    builder.end();
    builder.end();
    REQUIRE(document.root == 0);
    CHECK(document.children(0) == std::vector<NodeId>{1, 2});
    CHECK(document.children(2) == std::vector<NodeId>{3, 4});
    CHECK(document.at(4).kind == NodeKind::null);
}

TEST_CASE("nesting beyond the limit is refused") {
    Document document;
    DocumentBuilder builder(document);
    for (int i = 0; i < deepest_nesting; ++i)
        CHECK(builder.start(NodeKind::sequence, 1, i + 1));
    CHECK_FALSE(builder.start(NodeKind::sequence, 1, 65));
    CHECK(builder.problem().where.column == 65);
    CHECK(builder.problem().found == "values nested more than 64 deep");
}

TEST_CASE("a copy has everything below the original, at its own position") {
    Document document;
    DocumentBuilder builder(document);
    builder.start(NodeKind::sequence, 1, 1);
    const NodeId original = builder.next_id();
    builder.start(NodeKind::mapping, 1, 2);
    builder.scalar(1, 3, "a", true);
    builder.scalar(1, 6, "b", false);
    builder.end();
    CHECK_FALSE(builder.is_open(original));
    const NodeId copy = builder.next_id();
    CHECK(builder.copy(original, 2, 5));
    builder.end();
    CHECK(document.children(document.root) == std::vector<NodeId>{original, copy});
    CHECK(document.at(document.find(copy, "a")).text == "b");
    CHECK(document.at(document.find(copy, "a")).line == 2);
}
