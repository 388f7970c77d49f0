#include "diagnostics/nearest_name.hpp"

#include <algorithm>
#include <random>

#include <doctest/doctest.h>

using namespace spadework;

TEST_CASE("the edit distance counts insertions, deletions, substitutions and swaps of neighbours") {
    CHECK(edit_distance("", "") == 0);
    CHECK(edit_distance("price", "price") == 0);
    CHECK(edit_distance("pirce", "price") == 1);
    // The classic pair: two substitutions and one insertion.
    CHECK(edit_distance("kitten", "sitting") == 3);
    CHECK(edit_distance("", "abc") == 3);
    // Optimal string alignment never edits a swapped pair again: 3, where unrestricted Damerau distance is 2.
    CHECK(edit_distance("ca", "abc") == 3);
}

TEST_CASE("the edit distance is symmetric and zero only for equal texts") {
    std::mt19937 random(3);
    std::uniform_int_distribution<int> letter('a', 'c');
    std::uniform_int_distribution<int> length(0, 6);
    for (int i = 0; i < 500; ++i) {
        std::string a(static_cast<std::size_t>(length(random)), ' ');
        std::string b(static_cast<std::size_t>(length(random)), ' ');
        for (char& c : a)
            c = static_cast<char>(letter(random));
        for (char& c : b)
            c = static_cast<char>(letter(random));
        CHECK(edit_distance(a, b) == edit_distance(b, a));
        CHECK((edit_distance(a, b) == 0) == (a == b));
        CHECK(edit_distance(a, b) <= static_cast<int>(std::max(a.size(), b.size())));
    }
}

TEST_CASE("the nearest name is offered only when it is near") {
    const std::vector<std::string> known = {"labour", "plant", "material", "duct"};
    CHECK(nearest_name("labor", known) == "labour");
    CHECK(nearest_name("plnat", known) == "plant");
    CHECK(nearest_name("completely-different", known).empty());
    CHECK(nearest_name("", known).empty());
    CHECK(nearest_name("duct", {}).empty());
    CHECK(nearest_name("ab", {"ac", "ad"}) == "ac");
    CHECK(nearest_name("a", {"b", "c"}).empty());
}

TEST_CASE("texts of any length are compared in bounded time") {
    const std::string long_text(1'000'000, 'x');
    CHECK(nearest_name(long_text, {"labour"}).empty());
    CHECK(edit_distance(long_text, long_text) == 0);
}
