#include "layout/cable_pieces.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"

namespace spadework {
namespace {

using drawing::Dice;

int strands_of(const Scenario& site, const CablePiece& piece) {
    return site.catalogue.cables[static_cast<std::size_t>(piece.product)].strands;
}

}  // namespace

TEST_CASE("one cable holds all links where one is large enough") {
    const Scenario site = drawing::bare_site();
    const auto pieces = pieces_for(site, {4, 2, 1}, 2, Length::from_metres(100));
    REQUIRE(pieces);
    REQUIRE(pieces->size() == 1);
    CHECK(pieces->front().product == 1);
    CHECK(pieces->front().links == std::vector<int>{0, 1});
    CHECK(pieces->front().need.in_use == 4);
    CHECK(pieces->front().need.spare == 2);
    CHECK(pieces->front().need.headroom == 1);
}

TEST_CASE("a duplex link is never split between two cables, even where the strands alone would fit") {
    Scenario site = drawing::bare_site();
    site.catalogue.cables = {drawing::cable(3, 60)};
    // Two links need four strands; two cables of three have six, but each holds one whole link only.
    const auto two = pieces_for(site, {4, 0, 0}, 2, Length::from_metres(100));
    REQUIRE(two);
    CHECK(two->size() == 2);
    // Three links need six strands, which two cables of three would hold if links could be split.
    const auto three = pieces_for(site, {6, 0, 0}, 3, Length::from_metres(100));
    REQUIRE(three);
    CHECK(three->size() == 3);
}

TEST_CASE("no pieces where no cable holds a whole link") {
    Scenario site = drawing::bare_site();
    site.catalogue.cables = {drawing::cable(1, 60)};
    CHECK_FALSE(pieces_for(site, {2, 0, 0}, 1, Length::from_metres(100)));
    site.rules.strand_use = StrandUse::bidirectional;
    CHECK(pieces_for(site, {1, 0, 0}, 1, Length::from_metres(100)));
    site.catalogue.cables.clear();
    CHECK_FALSE(pieces_for(site, {1, 0, 0}, 1, Length::from_metres(100)));
}

TEST_CASE("pieces hold every link once and the whole need, on random catalogues") {
    Dice dice(31);
    int several = 0;
    for (int round = 0; round < 3000; ++round) {
        Scenario site = drawing::bare_site();
        site.catalogue.cables.clear();
        for (int strands = static_cast<int>(dice.between(2, 4)); strands < 20;
             strands += static_cast<int>(dice.between(1, 12))) {
            site.catalogue.cables.push_back(drawing::cable(strands, static_cast<double>(dice.between(10, 200))));
        }
        if (dice.one_in(2)) site.rules.strand_use = StrandUse::bidirectional;
        const int links = static_cast<int>(dice.between(1, 20));
        const StrandNeed need{links * strands_per_link(site.rules.strand_use), static_cast<int>(dice.between(0, 5)),
                              static_cast<int>(dice.between(0, 5))};
        const auto pieces = pieces_for(site, need, links, Length::from_metres(100));
        REQUIRE(pieces);
        several += pieces->size() > 1 ? 1 : 0;
        std::vector<int> seen(static_cast<std::size_t>(links), 0);
        StrandNeed held;
        for (const CablePiece& piece : *pieces) {
            CHECK(piece.need.total() <= strands_of(site, piece));
            CHECK(piece.need.in_use == static_cast<int>(piece.links.size()) * strands_per_link(site.rules.strand_use));
            CHECK(std::is_sorted(piece.links.begin(), piece.links.end()));
            for (const int link : piece.links)
                ++seen[static_cast<std::size_t>(link)];
            held.in_use += piece.need.in_use;
            held.spare += piece.need.spare;
            held.headroom += piece.need.headroom;
        }
        CHECK(std::all_of(seen.begin(), seen.end(), [](int times) { return times == 1; }));
        CHECK(held.in_use == need.in_use);
        CHECK(held.spare == need.spare);
        CHECK(held.headroom == need.headroom);
    }
    CHECK(several > 500);
}

}  // namespace spadework
