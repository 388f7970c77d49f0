#include "extension/untouched.hpp"

#include <functional>

#include <doctest/doctest.h>

namespace spadework {
namespace {

/// Two strands of a trunk that carry a link to the mill, one to the barn, one dark.
std::vector<KeptStrand> map_before() {
    return {{"trunk-1", 1, "mill", 1, 1, 1, 4, 1, 0},
            {"trunk-1", 2, "mill", 1, 2, 2, 4, 2, 0},
            {"trunk-1", 3, "barn", 1, 1, 3, 5, 3, 0},
            {"trunk-1", 4, "", 0, 0, 4, 0, 4, 0}};
}

Untouched after(const std::function<void(std::vector<KeptStrand>&)>& change,
                const std::vector<std::string>& gone = {}) {
    std::vector<KeptStrand> map = map_before();
    change(map);
    return compare_strands(map_before(), map, gone);
}

}  // namespace

TEST_CASE("a map that is as it was touches nothing, whatever comes to its dark strands") {
    const Untouched result = after([](auto& map) { map[3] = {"trunk-1", 4, "new", 1, 1, 4, 6, 4, 0}; });
    CHECK(result.touched.empty());
    CHECK(result.links == 2);
    CHECK(result.strands == 3);
    CHECK(result.freed == 0);
}

TEST_CASE("a strand that is gone, carries another leg, or sits elsewhere is told, each as what it is") {
    const auto how = [](const std::function<void(std::vector<KeptStrand>&)>& change) {
        const Untouched result = after(change);
        REQUIRE(result.touched.size() == 1);
        CHECK(result.touched.front().building == "mill");
        return result.touched.front().how;
    };
    CHECK(how([](auto& map) { map.erase(map.begin() + 1); }) == "trunk-1 strand 2 is gone");
    CHECK(how([](auto& map) { map[1].leg = 1; }) == "trunk-1 strand 2 carries leg 2 no longer");
    CHECK(how([](auto& map) { map[1].building = "barn"; }) == "trunk-1 strand 2 carries leg 2 no longer");
    CHECK(how([](auto& map) { map[1].near_adapter = 9; }) == "trunk-1 strand 2 sits in another adapter");
    CHECK(how([](auto& map) { map[1].far_adapter = 9; }) == "trunk-1 strand 2 sits in another adapter");
    CHECK(how([](auto& map) { map[1].near_port = 9; }) == "trunk-1 strand 2 is patched to another port");
}

TEST_CASE("two legs that change places are both touched") {
    const Untouched result = after([](auto& map) { std::swap(map[0].leg, map[1].leg); });
    CHECK(result.touched.size() == 2);
}

TEST_CASE("strands of a building that is gone are freed and no longer compared") {
    const Untouched result = after(
        [](auto& map) {
            map[0] = {"trunk-1", 1, "", 0, 0, 1, 0, 1, 0};
            map[1] = {"trunk-1", 2, "", 0, 0, 2, 0, 2, 0};
        },
        {"mill"});
    CHECK(result.touched.empty());
    CHECK(result.freed == 2);
    CHECK(result.links == 1);
}

}  // namespace spadework
