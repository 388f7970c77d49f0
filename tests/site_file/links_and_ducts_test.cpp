// What a site file says of attenuators, hub ports, copper runs, strand use and the inside of ducts.

#include <doctest/doctest.h>

#include "site_file/section_readers.hpp"
#include "site_texts.hpp"

using namespace spadework;
using namespace spadework::site_file;
using namespace spadework::site_file::testing;

namespace {

bool says(const std::string& text, const std::string& words) {
    const std::string all = said(read_text(text));
    INFO(all);
    const bool found = all.find(words) != std::string::npos;
    CHECK(found);
    return found;
}

std::string with_duct(const std::string& duct) {
    return with(small_site(), "length: 61.5", "length: 61.5, duct: " + duct) + "existing-duct: {pull: 0.02}\n";
}

}  // namespace

TEST_CASE("attenuators are read with loss and price, and a loss of nothing is refused") {
    const std::string text =
        with(small_site(), "  building-gear:", "  attenuators: [{id: att-5, loss: 5, price: 11}]\n  building-gear:");
    const auto site = read_text(text);
    REQUIRE(site.scenario.has_value());
    REQUIRE(site.scenario->catalogue.attenuators.size() == 1);
    CHECK(site.scenario->catalogue.attenuators[0].name == "att-5");
    CHECK(site.scenario->catalogue.attenuators[0].loss_db == 5);
    CHECK(amount(site.scenario->catalogue.attenuators[0].price, std::int64_t{1}).minor() == 1100);
    says(with(text, "loss: 5", "loss: 0"), "loss is '0'; expected a number above 0 and at most 60 (dB)");
    says(with(text, "{id: att-5, loss: 5, price: 11}", "{id: a, loss: 5, price: 1}, {id: a, loss: 9, price: 1}"),
         "attenuator 'a'");
}

TEST_CASE("the hub says its copper ports, what takes them, its growth ports and its uplink") {
    const auto site = read_text(with(small_site(), "hub: {place: h}",
                                     "hub: {place: h, free-copper-ports: 2, growth-ports: 3, uplink: 10G, devices: "
                                     "[{what: recorder, count: 2}, {what: server}]}"));
    REQUIRE(site.scenario.has_value());
    const Hub& hub = site.scenario->hub;
    CHECK(hub.free_copper_ports == 2);
    CHECK(hub.growth_ports == 3);
    CHECK(hub.uplink == BitRate::from_megabits(10000));
    REQUIRE(hub.devices.size() == 2);
    CHECK(hub.devices[0].count == 2);
    CHECK(hub.devices[1].what == "server");
    CHECK(hub.devices[1].count == 1);
    says(with(small_site(), "hub: {place: h}", "hub: {place: h, devices: [{what: recorder, count: 0}]}"),
         "count is '0'; expected a whole number from 1 to 1000");
}

TEST_CASE("a hub may have ports of its own and the catalogue no gear for it") {
    const auto site =
        read_text(with(small_site(),
                       "  hub-gear:\n    - {id: core, optic-ports: 8, fastest-rate: 10G, price: 480, install-hours: "
                       "1.5}\n",
                       ""));
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->catalogue.hub_gear.empty());
}

TEST_CASE("devices say how long their copper is, and the rules how long it may be") {
    const auto site = read_text(with(small_site(), "- {id: a, links: [{rate: 1G}]}",
                                     "- {id: a, links: [{rate: 1G}], devices: [{what: camera, copper-length: 92.5}]}") +
                                "rules: {copper-length: 90}\n");
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->buildings[0].devices[0].copper_length == Length::from_metres(92.5));
    CHECK(site.scenario->rules.longest_copper == Length::from_metres(90));
    const auto silent = read_text(small_site());
    REQUIRE(silent.scenario.has_value());
    CHECK(silent.scenario->rules.longest_copper == Length::from_metres(100));
}

TEST_CASE("strand use may be left to the price, and then either kind of optic will do") {
    const auto site = read_text(small_site() + "rules: {strand-use: cheaper}\n");
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->rules.either_strand_use);
    const auto duplex = read_text(small_site() + "rules: {strand-use: duplex}\n");
    REQUIRE(duplex.scenario.has_value());
    CHECK_FALSE(duplex.scenario->rules.either_strand_use);
    says(small_site() + "rules: {strand-use: cheapest}\n", "did you mean 'cheaper'?");
}

TEST_CASE("a one-strand optic whose two ends transmit at one wavelength has no optical path (RULE-5)") {
    const std::string figures =
        "{wavelength: 1310, launch-min: -9, launch-max: -3, receive-min: -19.5, receive-max: -3, penalties: 4.5}";
    const std::string optic = "{id: bx, rate: 1G, strand-use: bidirectional, reach: 10000, price: 19, to-building: ";
    says(with(small_site(), "{id: lx10, standard: 1000BASE-LX10, price: 19}", optic + figures + "}"),
         "both ends of a bidirectional optic transmit at 1310 nm; expected two wavelengths");
    const auto pair = read_text(with(
        small_site(), "{id: lx10, standard: 1000BASE-LX10, price: 19}",
        "{id: lx10, standard: 1000BASE-LX10, price: 19}\n    - " + optic + figures + ", to-hub: {wavelength: 1490}}"));
    CHECK(pair.scenario.has_value());
}

TEST_CASE("a cable's tension and a hub switch's copper ports are read where they are given") {
    const auto site = read_text(with(with(small_site(), "diameter: 0.009", "diameter: 0.0095, tension: 1500"),
                                     "optic-ports: 8, fastest", "optic-ports: 8, copper-ports: 16, fastest"));
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->catalogue.cables[0].most_tension_n == 1500);
    CHECK(site.scenario->catalogue.cables[0].diameter_mm == doctest::Approx(9.5));
    CHECK(site.scenario->catalogue.hub_gear[0].copper_ports == 16);
}

TEST_CASE("the room of a duct follows from its inside and the thickest cable, with those in it counted") {
    // 9 mm cables in 26 mm: one fills 12.0 % of 53 %, two 24.0 % of 31 %, three 35.9 % of 40 %, four 47.9 % of 40 %.
    const auto room = [](const std::string& duct) {
        const auto site = read_text(with_duct(duct));
        INFO(said(site));
        REQUIRE(site.scenario.has_value());
        CHECK(site.diagnostics.empty());
        return site.scenario->segments[2].duct_room.value();
    };
    CHECK(room("{inner-diameter: 0.026}") == 3);
    CHECK(room("{inner-diameter: 0.026, cables: [{diameter: 0.009}]}") == 2);
    CHECK(room("{inner-diameter: 0.026, cables: [{diameter: 0.009, count: 3}]}") == 0);
    CHECK(room("{inner-diameter: 0.026, room: 2}") == 2);
    CHECK(room("{room: 5}") == 5);
}

TEST_CASE("a duct one cable too full is told with its fill and the limit, and the smaller room counts") {
    const auto site = read_text(with_duct("{room: 4, inner-diameter: 0.026}"));
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->segments[2].duct_room == 3);
    CHECK(said(site) ==
          "site.yaml:13:12: warning: the duct in segment 'j-b' is said to have room for 4 cables; rules.duct-fill "
          "leaves room for 3, as 4 in it with the catalogue's thickest of 9.0 mm fill 47.9 % of 40 %; expected "
          "room: 3, which counts here\n");
}

TEST_CASE("fill shares are the site's own, and a duct needs its room or its inside") {
    const auto site = read_text(with_duct("{inner-diameter: 0.026}") + "rules: {duct-fill: {one: 10}}\n");
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->segments[2].duct_room == 0);
    says(with_duct("{cables: [{diameter: 0.01}], room: 2}"), "cables in a duct without its inner diameter");
    says(with_duct("{}"), "neither 'room' nor 'inner-diameter' for a duct");
    says(small_site() + "rules: {duct-fill: {two: 101}}\n",
         "two is '101'; expected a number above 0 and at most 100 (%)");
}

TEST_CASE("a GeoJSON line says the inside of its duct too") {
    const std::string map = R"({"type": "FeatureCollection", "features": [
        {"type": "Feature", "id": "way", "properties": {"duct": {"inner-diameter": 0.026}},
         "geometry": {"type": "LineString", "coordinates": [[8, 50], [8.001, 50]]}},
        {"type": "Feature", "id": "a", "properties": {},
         "geometry": {"type": "Point", "coordinates": [8.001, 50]}}]})";
    const auto site = read_text(geojson_site("{near: [8, 50]}", "") + "buildings: [{id: a, links: [{rate: 1G}]}]\n",
                                {{"map.geojson", map}});
    INFO(said(site));
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->segments[0].duct_room == 3);
    REQUIRE(site.scenario->segments[0].duct_bore.has_value());
    CHECK(site.scenario->segments[0].duct_bore->inner_diameter_mm == doctest::Approx(26));
}
