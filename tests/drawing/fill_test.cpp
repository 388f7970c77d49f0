#include "drawing/fill.hpp"

#include <cmath>
#include <set>

#include <doctest/doctest.h>

#include "drawing/support/svg_reading.hpp"

using namespace spadework::drawing;
using spadework::testing::contrast_to_white;

TEST_CASE("the first 64 fills differ, and neighbours differ in colour, hatch and lightness") {
    std::set<std::pair<int, int>> seen;
    for (int n = 0; n < palette_size * hatch_count; ++n) {
        const Fill fill = nth_fill(n);
        CHECK(seen.insert({fill.colour, fill.hatch}).second);
        const Fill next = nth_fill(n + 1);
        CHECK(fill.colour != next.colour);
        CHECK(fill.hatch != next.hatch);
        const double a = contrast_to_white(colour_of(fill));
        const double b = contrast_to_white(colour_of(next));
        CHECK(std::max(a, b) / std::min(a, b) > 1.5);
    }
}

TEST_CASE("patterns are written for hatched fills in use, each once") {
    Fills fills(Ids({}, "test"));
    CHECK(fills.definitions().written().empty());
    CHECK(fills.use({0, 0}) == colour_of({0, 0}));
    CHECK(fills.definitions().written().empty());
    const std::string url = fills.use({1, 1});
    CHECK(fills.use({1, 1}) == url);
    const auto defs = spadework::testing::read_svg([&] {
        std::string text = fills.definitions().written();
        return text.substr(text.find('<'));
    }());
    CHECK(defs.children.size() == 1);
    CHECK(url == "url(#" + defs.children[0].attribute("id") + ")");
}
