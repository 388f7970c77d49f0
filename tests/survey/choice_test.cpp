#include "survey/choice.hpp"

#include <doctest/doctest.h>

#include "support/drawn_things.hpp"

using namespace spadework;
using namespace spadework::survey;

namespace {

MapContents three_houses() {
    auto hall = house("way/1", 0, 0);
    hall.name = "Hall";
    return contents_of_lines({hall, house("way/2", 40, 0), house("way/3", 90, 0)});
}

}  // namespace

TEST_CASE("a hub is chosen by name in any case, by what the file calls it, or by a position inside it") {
    const MapContents contents = three_houses();
    Diagnostics diagnostics;
    for (const char* name : {"Hall", "hALL", "way/1"}) {
        SurveyOptions options;
        options.hub = name;
        const auto hub = choose_hub(contents, options, diagnostics);
        REQUIRE(hub);
        CHECK(contents.buildings[hub->building.value()].id == "Hall");
    }
    SurveyOptions options;
    options.hub_near = degrees_at(1, 1);
    CHECK(contents.buildings[choose_hub(contents, options, diagnostics)->building.value()].id == "Hall");
    options.hub_near = degrees_at(20, 20);
    CHECK_FALSE(choose_hub(contents, options, diagnostics)->building);
    CHECK(diagnostics.empty());
}

TEST_CASE("no hub, and one that no building is called, are errors that name what there is") {
    const MapContents contents = three_houses();
    Diagnostics diagnostics;
    SurveyOptions options;
    CHECK_FALSE(choose_hub(contents, options, diagnostics));
    options.hub = "Hell";
    CHECK_FALSE(choose_hub(contents, options, diagnostics));
    REQUIRE(diagnostics.size() == 2);
    CHECK(diagnostics[0].wanted.find("'Hall'") != std::string::npos);
    CHECK(diagnostics[1].nearest == "Hall");
}

TEST_CASE("buildings come nearest first, by name or inside a polygon where asked for, and never the hub") {
    const MapContents contents = three_houses();
    Diagnostics diagnostics;
    SurveyOptions options;
    options.hub = "Hall";
    const HubChoice hub = choose_hub(contents, options, diagnostics).value();
    const auto ids = [&] {
        std::vector<std::string> list;
        for (const std::size_t building : choose_buildings(contents, hub, options, diagnostics))
            list.push_back(contents.buildings[building].id);
        return list;
    };
    CHECK(ids() == std::vector<std::string>{"way/2", "way/3"});
    options.within = {{in_degrees({{80, -10}, {100, -10}, {100, 10}, {80, 10}})}};
    CHECK(ids() == std::vector<std::string>{"way/3"});
    options.within.clear();
    options.buildings = {"way/2"};
    CHECK(ids() == std::vector<std::string>{"way/2"});
    CHECK(diagnostics.empty());
    options.buildings = {"way/4"};
    ids();
    CHECK(has_errors(diagnostics));
}

TEST_CASE("a polygon holds what is inside it and not in a hole") {
    const Polygon ring = {{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {{4, 4}, {6, 4}, {6, 6}, {4, 6}}};
    CHECK(polygon_holds(ring, {1, 1}));
    CHECK_FALSE(polygon_holds(ring, {5, 5}));
    CHECK_FALSE(polygon_holds(ring, {11, 5}));
}
