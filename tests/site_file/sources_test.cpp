#include "site_file/sources.hpp"

#include <doctest/doctest.h>

using namespace spadework::site_file;

TEST_CASE("the digest is FNV-1a of 64 bits") {
    // Test vectors of the authors' reference code (Fowler, Noll, Vo; also in draft-eastlake-fnv), values from memory.
    const auto digest = [](std::string_view text) {
        Fnv1a64 hash;
        hash.add(text);
        return hash.hex();
    };
    CHECK(digest("") == "cbf29ce484222325");
    CHECK(digest("a") == "af63dc4c8601ec8c");
    CHECK(digest("foobar") == "85944171f73967e8");
    Fnv1a64 in_parts;
    in_parts.add("foo");
    in_parts.add("bar");
    CHECK(in_parts.hex() == digest("foobar"));
}

TEST_CASE("a path is found beside the file that names it") {
    CHECK(beside("", "map.yaml") == "map.yaml");
    CHECK(beside("maps/a.yaml", "b.geojson") == "maps/b.geojson");
    CHECK(beside("/home/x/site.yaml", "maps/a.yaml") == "/home/x/maps/a.yaml");
    CHECK(beside("maps/a.yaml", "../prices.yaml") == "maps/../prices.yaml");
}
