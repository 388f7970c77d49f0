#include "strand_map/kept_map.hpp"

#include <doctest/doctest.h>

#include "strand_map/strand_map_check.hpp"
#include "support/small_site.hpp"

namespace spadework {
namespace {

struct Earlier {
    Scenario site = small_site::site();
    Plan plan = small_site::trunk(site);
    KeptMap kept = {{{"trunk-1", "hub", "gate"}, {"drop-barn", "gate", "barn"}, {"drop-mill", "gate", "mill"}},
                    kept_strands(site, plan, map_strands(site, plan, tia_598_order()))};
};

using Sentences = std::vector<std::string>;

}  // namespace

TEST_CASE("a plan that did not change keeps every strand") {
    const Earlier earlier;
    const auto rows = strands_still_there(earlier.site, earlier.plan, earlier.kept);
    CHECK(rows.size() == earlier.kept.strands.size());
    const StrandMap map = map_strands(earlier.site, earlier.plan, tia_598_order(), rows);
    CHECK(notes_on_kept(earlier.site, earlier.plan, map, earlier.kept) ==
          Sentences{"Of the 8 strands in use of the earlier plan, 8 stay as they are, with their adapters and ports."});
}

TEST_CASE("cables that are gone or lead elsewhere are named, and their strands not kept") {
    Earlier earlier;
    earlier.kept.cables[0].to = "barn";
    Plan plan = small_site::trunk(earlier.site);
    plan.cables[2].id = "drop-mill-2";
    const auto rows = strands_still_there(earlier.site, plan, earlier.kept);
    CHECK(rows.size() == 4);
    const StrandMap map = map_strands(earlier.site, plan, tia_598_order(), rows);
    CHECK(notes_on_kept(earlier.site, plan, map, earlier.kept) ==
          Sentences{"Of the 8 strands in use of the earlier plan, 2 stay as they are, with their adapters and ports.",
                    "Cable trunk-1 no longer leads from hub to barn.", "This plan has no cable drop-mill."});
}

TEST_CASE("a strand that had to move is named") {
    const Earlier earlier;
    StrandMap map = map_strands(earlier.site, earlier.plan, tia_598_order());
    for (MappedStrand& strand : map) {
        if (strand.cable == 0 && strand.number == 1) strand.far.adapter.number = 8;
    }
    const Sentences notes = notes_on_kept(earlier.site, earlier.plan, map, earlier.kept);
    REQUIRE(notes.size() == 2);
    CHECK(notes[1] == "Strand 1 of trunk-1, barn link 1, could not stay where it was.");
}

TEST_CASE("adapters and ports that an enclosure or gear no longer has are not kept, and the map still holds") {
    Earlier earlier;
    for (KeptStrand& strand : earlier.kept.strands) {
        if (strand.cable == "trunk-1" && strand.far_adapter > 0) strand.far_adapter += 6;
        if (strand.near_port > 0) strand.near_port += 20;
    }
    const StrandMap map = map_strands(earlier.site, earlier.plan, tia_598_order(),
                                      strands_still_there(earlier.site, earlier.plan, earlier.kept));
    CHECK(strand_map_violations(earlier.site, earlier.plan, map) == Sentences{});
}

TEST_CASE("an earlier plan without strands in use has nothing to be told of") {
    const Earlier earlier;
    const StrandMap map = map_strands(earlier.site, earlier.plan, tia_598_order());
    CHECK(notes_on_kept(earlier.site, earlier.plan, map, {}).empty());
}

}  // namespace spadework
