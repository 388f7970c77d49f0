#include "strand_map/strand_map.hpp"

#include <algorithm>
#include <map>

#include <doctest/doctest.h>

#include "layout/design.hpp"
#include "layout/support/drawn_site.hpp"
#include "strand_map/strand_map_check.hpp"
#include "support/effort.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

StrandMap mapped(const Scenario& site, const Plan& plan, const std::vector<KeptStrand>& kept = {}) {
    return map_strands(site, plan, tia_598_order(), kept);
}

const MappedStrand& strand(const StrandMap& map, int cable, int number) {
    return *std::ranges::find_if(map,
                                 [&](const MappedStrand& row) { return row.cable == cable && row.number == number; });
}

/// Rows of a map by cable and number.
std::map<std::pair<std::string, int>, KeptStrand> by_name(const std::vector<KeptStrand>& kept) {
    std::map<std::pair<std::string, int>, KeptStrand> rows;
    for (const KeptStrand& row : kept)
        rows[{row.cable, row.number}] = row;
    return rows;
}

/// A trunk of the small site: barn and mill behind an enclosure at the gate, 4 strands in use, 2 spare, 2 for growth.
struct SmallTrunk {
    Scenario site = small_site::site();
    Plan plan = small_site::trunk(site);
    StrandMap map = mapped(site, plan);
};

}  // namespace

TEST_CASE("strands of a trunk: links in order, then spares, headroom, and what is beyond need") {
    const SmallTrunk trunk;
    REQUIRE(trunk.map.size() == 12 + 4 + 4);
    const std::vector<StrandPurpose> wanted = {
        StrandPurpose::link,        StrandPurpose::link,        StrandPurpose::link,        StrandPurpose::link,
        StrandPurpose::spare,       StrandPurpose::spare,       StrandPurpose::headroom,    StrandPurpose::headroom,
        StrandPurpose::beyond_need, StrandPurpose::beyond_need, StrandPurpose::beyond_need, StrandPurpose::beyond_need};
    for (int number = 1; number <= 12; ++number)
        CHECK(strand(trunk.map, 0, number).purpose == wanted[static_cast<std::size_t>(number) - 1]);
    CHECK(strand(trunk.map, 0, 1).link == 0);
    CHECK(strand(trunk.map, 0, 3).link == 1);
    CHECK(strand(trunk.map, 0, 4).leg == 2);
}

TEST_CASE("strands are coloured blue, orange, green, brown, slate, white (TIA-598, COL-1)") {
    const SmallTrunk trunk;
    const std::vector<std::string> colours = {"blue", "orange", "green", "brown", "slate", "white"};
    for (int number = 1; number <= 6; ++number)
        CHECK(strand(trunk.map, 0, number).colour.strand == colours[static_cast<std::size_t>(number) - 1]);
}

TEST_CASE("a drop's strand faces the trunk's strand of the same leg across one adapter") {
    const SmallTrunk trunk;
    for (int leg = 1; leg <= 2; ++leg) {
        const StrandEnd& trunk_end = strand(trunk.map, 0, 2 + leg).far;  // mill's link is the trunk's third and fourth
        const StrandEnd& drop_end = strand(trunk.map, 2, leg).near;
        CHECK(trunk_end.holder == Holder::enclosure);
        CHECK(trunk_end.adapter == drop_end.adapter);
        CHECK(drop_end.adapter == Opening{1, 2 + leg});
    }
}

TEST_CASE("both strands of a link are patched to one port at the hub and one in the building") {
    const SmallTrunk trunk;
    CHECK(strand(trunk.map, 0, 1).near.port == Opening{1, 1});
    CHECK(strand(trunk.map, 0, 2).near.port == Opening{1, 1});
    CHECK(strand(trunk.map, 0, 3).near.port == Opening{1, 2});
    CHECK(strand(trunk.map, 2, 1).far.port == Opening{1, 1});
    CHECK_FALSE(strand(trunk.map, 0, 1).far.port);
}

TEST_CASE("ports that are free at the hub already are taken first and counted as piece 0") {
    SmallTrunk trunk;
    trunk.site.hub.free_optic_ports = 1;
    const StrandMap map = mapped(trunk.site, trunk.plan);
    CHECK(strand(map, 0, 1).near.port == Opening{0, 1});
    CHECK(strand(map, 0, 3).near.port == Opening{1, 1});
}

TEST_CASE("every strand of home runs, trunks and chains ends somewhere, by separate code") {
    const Scenario site = small_site::site();
    for (const Plan& plan : {small_site::home_runs(site), small_site::trunk(site), small_site::chain(site)})
        CHECK(strand_map_violations(site, plan, mapped(site, plan)) == std::vector<std::string>{});
}

TEST_CASE("a building that joins moves no strand, adapter or port of the others") {
    const SmallTrunk before;
    const std::vector<KeptStrand> kept = kept_strands(before.site, before.plan, before.map);
    // The same plan with its links the other way round: the building that joined comes first.
    Plan after = before.plan;
    std::ranges::reverse(after.links);
    const std::vector<KeptStrand> now = kept_strands(before.site, after, mapped(before.site, after, kept));
    const auto rows = by_name(now);
    for (const auto& [name, row] : by_name(kept)) {
        const KeptStrand& same = rows.at(name);
        CHECK(same.building == row.building);
        CHECK(same.near_adapter == row.near_adapter);
        CHECK(same.far_adapter == row.far_adapter);
        CHECK(same.near_port == row.near_port);
        CHECK(same.far_port == row.far_port);
    }
    const auto without = by_name(kept_strands(before.site, after, mapped(before.site, after)));
    CHECK(without.at({"trunk-1", 1}).building != by_name(kept).at({"trunk-1", 1}).building);
}

TEST_CASE("on random sites every strand of every layout ends somewhere, also after a building joined") {
    for (unsigned number = 0; number < static_cast<unsigned>(effort(40)); ++number) {
        CAPTURE(number);
        drawing::Dice dice(number);
        Scenario site =
            drawing::row_site(static_cast<int>(dice.between(1, 5)), 40.0 * static_cast<double>(dice.between(1, 6)));
        site.rules.most_enclosures = 2;
        site.rules.spare.drop_spare_least = static_cast<int>(dice.between(0, 2));
        site.rules.spare.trunk_spare_least = static_cast<int>(dice.between(0, 4));
        for (Building& building : site.buildings)
            building.links[0].count = static_cast<int>(dice.between(1, 3));
        for (const LayoutKind kind : {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::trunk,
                                      LayoutKind::mixed, LayoutKind::daisy_chain, LayoutKind::ring}) {
            const Design design = spadework::design(kind, site, {});
            if (!design.plan) continue;
            const StrandMap map = mapped(site, *design.plan);
            CHECK(strand_map_violations(site, *design.plan, map) == std::vector<std::string>{});
            const auto kept = kept_strands(site, *design.plan, map);
            CHECK(strand_map_violations(site, *design.plan, mapped(site, *design.plan, kept)) ==
                  std::vector<std::string>{});
        }
    }
}

}  // namespace spadework
