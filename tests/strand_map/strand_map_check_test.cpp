#include "strand_map/strand_map_check.hpp"

#include <algorithm>
#include <functional>

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

/// What is said of the small trunk's map after a change to it.
std::vector<std::string> after(const std::function<void(StrandMap&)>& change) {
    const Scenario site = small_site::site();
    const Plan plan = small_site::trunk(site);
    StrandMap map = map_strands(site, plan, tia_598_order());
    change(map);
    return strand_map_violations(site, plan, map);
}

bool says(const std::vector<std::string>& sentences, const std::string& words) {
    return std::ranges::any_of(sentences, [&](const std::string& one) { return one.find(words) != std::string::npos; });
}

}  // namespace

TEST_CASE("a map as made has no violations") {
    CHECK(after([](StrandMap&) {}).empty());
}

TEST_CASE("each kind of wrong strand is found") {
    CHECK(says(after([](StrandMap& map) { map.pop_back(); }), "is not on the map"));
    CHECK(says(after([](StrandMap& map) { map.push_back(map.front()); }), "rows for the"));
    CHECK(says(after([](StrandMap& map) { map[4].purpose = StrandPurpose::beyond_need; }), "the plan has"));
    CHECK(says(after([](StrandMap& map) { map[0].far.adapter.number = 2; }), "shares adapter"));
    CHECK(says(after([](StrandMap& map) { map[0].far.adapter.number = 99; }), "which is not there"));
    CHECK(says(after([](StrandMap& map) { map[5].far.holder = Holder::stored; }), "ends nowhere"));
    CHECK(says(after([](StrandMap& map) { std::swap(map[0].far.adapter, map[2].far.adapter); }), "breaks off"));
    CHECK(says(after([](StrandMap& map) {
                   std::swap(map[0].leg, map[2].leg);
                   map[0].link = 1;
               }),
               "has not one strand"));
    CHECK(says(after([](StrandMap& map) { map[0].near.port.reset(); }), "not patched to gear"));
    CHECK(says(after([](StrandMap& map) { map[0].near.port->number = 2; }), "serves 2 links"));
    CHECK(says(after([](StrandMap& map) { map[0].near.port->piece = 7; }), "is not there"));
    CHECK(says(after([](StrandMap& map) { map[6].near.port = Opening{1, 5}; }), "dark and patched"));
    CHECK(says(after([](StrandMap& map) { map[0].far.place = 0; }), "does not end where its cable does"));
}

}  // namespace spadework
