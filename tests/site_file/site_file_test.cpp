#include "site_file/site_file.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "scenario/lookup.hpp"
#include "site_file/site_texts.hpp"

using namespace spadework;
using namespace spadework::site_file;
using namespace spadework::site_file::testing;

namespace {

const ValueInForce* value_of(const LoadedSite& site, const std::string& key) {
    const auto found = std::find_if(site.values.begin(), site.values.end(),
                                    [&](const ValueInForce& value) { return value.key == key; });
    return found == site.values.end() ? nullptr : &*found;
}

/// A site with every section, kept beside this test.
LoadedSite holiday_park() {
    const auto path = std::filesystem::path(SPADEWORK_SOURCE_DIR) / "tests" / "site_file" / "holiday_park.yaml";
    return read_site({"holiday_park.yaml", text_of_file(path)}, loader_of({}));
}

}  // namespace

TEST_CASE("a holiday park is read as it is written") {
    const LoadedSite site = holiday_park();
    CHECK(said(site).empty());
    REQUIRE(site.scenario.has_value());
    const Scenario& s = *site.scenario;
    CHECK(s.name == "Lakeside holiday park");
    CHECK(s.currency.code == "EUR");
    CHECK(s.places.size() == 8);
    CHECK(s.segments.size() == 8);
    CHECK(s.buildings.size() == 4);
    CHECK(s.places[static_cast<std::size_t>(s.hub.place)].id == "office");
    CHECK(s.places[static_cast<std::size_t>(s.hub.place)].kind == PlaceKind::hub);
    const Place& jetty = s.places[static_cast<std::size_t>(*find_place(s, "jetty"))];
    CHECK_FALSE(jetty.enclosure_allowed);
    CHECK(jetty.enclosure_reason == "floods in spring");
    const Place& gate = s.places[static_cast<std::size_t>(*find_place(s, "gate"))];
    CHECK(gate.enclosure_allowed);
    const Place& kiosk = s.places[static_cast<std::size_t>(*find_place(s, "kiosk"))];
    CHECK_FALSE(kiosk.enclosure_allowed);
    CHECK(kiosk.enclosure_reason == "not allowed by the rules at a building");
    const Segment& shore = s.segments[static_cast<std::size_t>(*find_segment(s, "shore-path"))];
    // 40 by 25 and 50 by 15.
    CHECK(shore.length == Length::from_metres(47.16990566 + 52.20153254));
    CHECK(shore.polyline.size() == 3);
    const Segment& road = s.segments[static_cast<std::size_t>(*find_segment(s, "road"))];
    REQUIRE(road.charges.size() == 1);
    CHECK(road.charges[0].amount == Money::from_minor(45000));
    const OpeningMethod& plough = s.grounds[static_cast<std::size_t>(*find_ground(s, "grass"))].methods[1];
    CHECK(plough.kind == MethodKind::plough);
    CHECK(plough.plant_per_metre == UnitPrice::from_minor(900));
    CHECK(plough.set_up == Money::from_minor(35000));
    CHECK(s.catalogue.cables[0].price_per_metre == UnitPrice::from_minor(95));
    CHECK(s.catalogue.optics[0].to_building.penalties_db == 4.5);
    CHECK(s.catalogue.optics[0].price_per_end == UnitPrice::from_minor(1900));
    CHECK(s.labour.plug_time == WorkTime::from_minutes(5));
    CHECK(s.rules.most_enclosures == 2);
    CHECK(s.rules.tax == Percent::from_percent(20));
    CHECK(s.growth.buildings[0].chance == 0.6);
    CHECK(s.digest.size() == 16);
}

TEST_CASE("every shipped scenario is read without a problem") {
    int scenarios = 0;
    for (const auto& entry : std::filesystem::directory_iterator(scenarios_folder())) {
        if (entry.path().extension() != ".yaml") continue;
        const std::string text = text_of_file(entry.path());
        if (text.find("format: 1") == std::string::npos) continue;  // A part that others name.
        CAPTURE(entry.path().string());
        ++scenarios;
        const LoadedSite site = read_site({entry.path().filename().string(), text}, loader_in(scenarios_folder()));
        CHECK(said(site).empty());
        CHECK(site.scenario.has_value());
    }
    CHECK(scenarios > 0);
}

TEST_CASE("every list is sorted by id and every index points into its list") {
    const Scenario s = *holiday_park().scenario;
    const auto sorted = [](const auto& list) {
        return std::is_sorted(list.begin(), list.end(), [](const auto& a, const auto& b) { return a.id < b.id; });
    };
    CHECK(sorted(s.places));
    CHECK(sorted(s.segments));
    CHECK(sorted(s.grounds));
    CHECK(sorted(s.buildings));
    for (const Segment& segment : s.segments) {
        CHECK(segment.polyline.front() == s.places[static_cast<std::size_t>(segment.from)].at);
        CHECK(segment.polyline.back() == s.places[static_cast<std::size_t>(segment.to)].at);
    }
    for (const Building& building : s.buildings)
        CHECK(s.places[static_cast<std::size_t>(building.place)].id == building.id);
}

TEST_CASE("defaults have their published source, values given their place in the file") {
    const LoadedSite site = holiday_park();
    CHECK(value_of(site, "rules.slack.coil")->value == "3");
    CHECK(value_of(site, "rules.slack.coil")->unit == "m");
    CHECK(value_of(site, "rules.slack.coil")->origin == "default: UFGS-16768A 3.1.4, service loop of 3 m at least");
    CHECK(value_of(site, "rules.slack.ordering-allowance")->origin == "default: MIL-HDBK-1012/3");
    CHECK(value_of(site, "rules.loss.mated-pair")->value == "0.75");
    CHECK(value_of(site, "rules.hop-limit")->origin.find("holiday_park.yaml:87:14") != std::string::npos);
    CHECK(value_of(site, "catalogue.cables[cable-4].price")->value == "0.95");
    CHECK(value_of(site, "rules.enclosure-kinds")->value == "[junction, handhole, pole]");
}

TEST_CASE("the same bytes give the same site, other bytes another digest") {
    const LoadedSite first = read_text(small_site());
    const LoadedSite again = read_text(small_site());
    REQUIRE(first.scenario.has_value());
    CHECK(first.scenario->digest == again.scenario->digest);
    CHECK(first.scenario->digest != read_text(small_site() + "\n").scenario->digest);
}

TEST_CASE("a length that is given goes before the polyline's") {
    const LoadedSite site = read_text(small_site());
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->segments[2].id == "j-b");
    CHECK(site.scenario->segments[2].length == Length::from_metres(61.5));
    CHECK(site.scenario->segments[0].length == Length::from_metres(50));
}

TEST_CASE("a site in feet is a site in metres") {
    std::string text = with(small_site(), "currency: EUR", "units: feet\ncurrency: USD");
    const LoadedSite site = read_text(text);
    CHECK(said(site).empty());
    REQUIRE(site.scenario.has_value());
    const Scenario& s = *site.scenario;
    CHECK(s.feet);
    CHECK(s.segments[0].length == Length::from_millimetres(15240));  // 50 ft
    CHECK(s.segments[2].length == Length::from_millimetres(18745));  // 61.5 ft
    CHECK(s.places[static_cast<std::size_t>(*find_place(s, "j"))].at.y == doctest::Approx(40 * 0.3048));
    CHECK(s.catalogue.cables[0].price_per_metre == UnitPrice::from_minor(130 / 0.3048));
    CHECK(s.rules.slack.coil_per_end == Length::from_metres(3));
    CHECK(value_of(site, "rules.slack.coil")->value == "9.84252");
    CHECK(value_of(site, "rules.slack.coil")->unit == "ft");
}

TEST_CASE("sections may stand in files of their own, and their problems are told there") {
    const std::string text = small_site();
    const std::size_t map = text.find("map:");
    const std::size_t grounds = text.find("grounds:");
    const std::string map_text = text.substr(map + 5, grounds - map - 5);
    std::string main = text.substr(0, map) + "map: parts/map.yaml\n" + text.substr(grounds);
    CHECK(said(read_text(main, {{"parts/map.yaml", map_text}})).empty());
    CHECK(said(read_text(main)) ==
          "site.yaml:4:6: error: file 'parts/map.yaml' cannot be read: no such file; expected the path of a readable "
          "file\n");
    const auto broken = read_text(main, {{"parts/map.yaml", with(map_text, "to: b,", "to: bb,")}});
    CHECK(said(broken).find("parts/map.yaml:9:30: error: no place 'bb'; expected the id of a place") !=
          std::string::npos);
    const auto whole = read_text(with(main, "map: parts/map.yaml", "map: /etc/passwd"));
    CHECK(said(whole).find("expected a path relative to this file") != std::string::npos);
    const auto other = read_text(main, {{"parts/map.yaml", map_text + "\n"}});
    CHECK(other.scenario->digest != read_text(main, {{"parts/map.yaml", map_text}}).scenario->digest);
}

TEST_CASE("all problems are told in one run, each with its line, its column and what would be right") {
    std::string text = small_site();
    text = with(text, "{id: a, at: [30, 90]}", "{id: j, at: [30, 90]}");
    text = with(text, "to: b, ground: grass, length: 61.5", "to: bb, ground: gras, length: 010");
    text = with(text, "plant: 4", "pant: -4");
    text = with(text, "price: 19", "price: -19");
    text = with(text, "installer-rate: 48", "installer-rate: .nan");
    CHECK(said(read_text(text)) ==
          "site.yaml:8:12: error: place 'j' is there already, at site.yaml:7:12; expected an id of its own\n"
          "site.yaml:12:30: error: no place 'a'; expected the id of a place\n"
          "site.yaml:13:30: error: no place 'bb'; expected the id of a place; did you mean 'b'?\n"
          "site.yaml:13:42: error: no ground 'gras'; expected the id of a ground; did you mean 'grass'?\n"
          "site.yaml:13:56: error: length is '010', a number with a leading zero; expected a number from 0.001 to "
          "1000000 (m)\n"
          "site.yaml:15:65: error: unknown key 'pant' in a method; expected one of id, kind, labour, plant, material, "
          "reinstatement, set-up, depth, duct, pull; did you mean 'plant'?\n"
          "site.yaml:18:10: error: no place 'a' for building 'a'; expected a place with the building's id, or key "
          "'place'\n"
          "site.yaml:24:50: error: price is '-19'; expected a number from 0 to 1000000000 (EUR)\n"
          "site.yaml:32:48: error: installer-rate is '.nan', not a number; expected a number from 0 to 1000000000 (EUR "
          "an hour)\n");
}

TEST_CASE("buildings cut off from the hub are told with their part of the map and how far it is from the rest") {
    const std::string apart = with(small_site(), "    - {id: j-b, from: j, to: b, ground: grass, length: 61.5}\n", "");
    CHECK(said(read_text(apart)) ==
          "site.yaml:18:10: error: building 'b' is cut off from the hub: its part of the map (1 place) is 60.0 m from "
          "the rest, between 'b' and 'j'; expected a segment that joins them\n");
    const std::string banned = with(small_site(), "length: 61.5}", "length: 61.5, ban: private land}");
    CHECK(said(read_text(banned)) ==
          "site.yaml:19:10: error: building 'b' is cut off from the hub: its part of the map (1 place) is 60.0 m from "
          "the rest, between 'b' and 'j'; segment 'j-b' would join them but is banned (private land); expected a "
          "segment that joins them\n");
}

TEST_CASE("segments without length are refused, below a millimetre too") {
    for (const char* at : {"[0, 0]", "[0.0004, 0.0004]"}) {
        const auto site =
            read_text(with(small_site(), "{id: j, at: [30, 40]}", std::string("{id: j, at: ") + at + "}"));
        CHECK(said(site).find("site.yaml:11:7: error: segment 'h-j' has no length: it is under 1 mm from end to end") !=
              std::string::npos);
    }
    const auto loop = read_text(with(small_site(), "from: h, to: j", "from: h, to: h"));
    CHECK(said(loop).find("segment 'h-j' ends where it starts, at 'h'; expected two different places") !=
          std::string::npos);
    const auto zero = read_text(with(small_site(), "length: 61.5", "length: 0"));
    CHECK(said(zero).find("length is '0'; expected a number from 0.001") != std::string::npos);
}

TEST_CASE("hub and buildings each need a place of their own") {
    CHECK(said(read_text(with(small_site(), "hub: {place: h}", "hub: {place: a}")))
              .find("building 'a' stands at 'a', the hub's place") != std::string::npos);
    CHECK(said(read_text(with(small_site(), "{id: b, links", "{id: b, place: a, links")))
              .find("building 'b' stands at 'a', where building 'a' stands already, from site.yaml:18:10") !=
          std::string::npos);
    CHECK(said(read_text(with(small_site(), "hub: {place: h}", "hub: {}")))
              .find("site.yaml:16:6: error: the hub's place is missing; expected key 'place' or 'near'") !=
          std::string::npos);
    CHECK(said(read_text(with(small_site(), "hub: {place: h}\n", "")))
              .find("site.yaml:1:1: error: key 'hub' is missing in a site") != std::string::npos);
    CHECK(said(read_text(with(small_site(), "{id: j, at", "{id: j, kind: hub, at")))
              .find("place 'j' is of kind hub, but the hub is at 'h'; expected one hub") != std::string::npos);
    CHECK(said(read_text(with(small_site(),
                              "  - {id: a, links: [{rate: 1G}]}\n  - {id: b, links: [{rate: 1G, count: "
                              "2}]}",
                              "  []")))
              .find("there are no buildings") != std::string::npos);
}

TEST_CASE("the hub may be the place nearest to a position, if one is near") {
    const auto near = read_text(with(small_site(), "hub: {place: h}", "hub: {near: [1, -2]}"));
    REQUIRE(near.scenario.has_value());
    CHECK(near.scenario->places[static_cast<std::size_t>(near.scenario->hub.place)].id == "h");
    const auto far = read_text(with(small_site(), "hub: {place: h}", "hub: {near: [5000, 0]}"));
    CHECK(said(far).find("error: the nearest place is 4910 m away; expected a position within 1000 m of a place") !=
          std::string::npos);
}

TEST_CASE("the format heads the file, and only format 1 is read") {
    CHECK(said(read_text(with(small_site(), "format: 1", "format: 2")))
              .find("site.yaml:1:9: error: format is '2'; expected a whole number that is 1") != std::string::npos);
    CHECK(said(read_text(with(small_site(), "format: 1\nsite: Small", "site: Small\nformat: 1")))
              .find("site.yaml:2:9: error: key 'format' is not the first of the file") != std::string::npos);
}

TEST_CASE("currencies are known by their code") {
    CHECK(said(read_text(with(small_site(), "currency: EUR", "currency: EUX"))) ==
          "site.yaml:3:11: error: currency is 'EUX'; expected an ISO 4217 letter code such as EUR; did you mean "
          "'EUR'?\n");
    const auto dinar = read_text(with(small_site(), "currency: EUR", "currency: KWD"));
    CHECK(dinar.scenario->catalogue.optics[0].price_per_end == UnitPrice::from_minor(19000));
    const auto yen = read_text(with(small_site(), "currency: EUR", "currency: JPY"));
    CHECK(yen.scenario->catalogue.optics[0].price_per_end == UnitPrice::from_minor(19));
}

TEST_CASE("standard optics bring their figures, and each may be put right") {
    const auto site = read_text(with(small_site(), "standard: 1000BASE-LX10,",
                                     "standard: 1000BASE-LX10, reach: 9000, to-hub: {penalties: 3},"));
    REQUIRE(site.scenario.has_value());
    const OpticProduct& optic = site.scenario->catalogue.optics[0];
    CHECK(optic.reach == Length::from_metres(9000));
    CHECK(optic.to_hub.penalties_db == 3);
    CHECK(optic.to_hub.launch_min_dbm == -9);
    CHECK(optic.to_building.penalties_db == 4.5);
    CHECK(said(read_text(with(small_site(), "1000BASE-LX10", "1000BASE-LX01"))).find("did you mean '1000BASE-LX10'?") !=
          std::string::npos);
    CHECK(said(read_text(with(small_site(), "standard: 1000BASE-LX10, ", ""))) ==
          "site.yaml:24:7: error: key 'rate' is missing in an optic; expected key 'standard', or every figure of the "
          "transceiver\n"
          "site.yaml:24:7: error: key 'reach' is missing in an optic; expected key 'standard', or every figure of the "
          "transceiver\n"
          "site.yaml:24:7: error: key 'strand-use' is missing in an optic; expected key 'standard', or every figure "
          "of the transceiver\n"
          "site.yaml:24:7: error: key 'to-building' is missing in an optic; expected key 'standard', or every figure "
          "of the transceiver\n");
    const auto own = read_text(with(
        small_site(), "standard: 1000BASE-LX10,",
        "rate: 1G, strand-use: duplex, reach: 5000, to-building: {wavelength: 1310, launch-min: -9, launch-max: -3, "
        "receive-min: -19, receive-max: -3},"));
    REQUIRE(own.scenario.has_value());
    CHECK(own.scenario->catalogue.optics[0].to_hub.receive_min_dbm == -19);
}

TEST_CASE("the catalogue must have optics and cords for the rule on strands") {
    const std::string text = small_site() + "rules: {strand-use: bidirectional}\n";
    CHECK(said(read_text(text)).find("no bidirectional optic in the catalogue") != std::string::npos);
    CHECK(said(read_text(text)).find("no patch cord with strands: 1 in the catalogue") != std::string::npos);
}

TEST_CASE("pole lines and ducts without prices are warned of, and the site still loads") {
    const auto site = read_text(with(small_site(), "length: 61.5", "poles: true, duct: {room: 2}"));
    CHECK(site.scenario.has_value());
    CHECK(said(site).find("site.yaml:1:1: warning: there are pole lines, but no section 'pole-line'") !=
          std::string::npos);
    CHECK(said(site).find("site.yaml:1:1: warning: there are existing ducts") != std::string::npos);
    CHECK(site.scenario->segments[2].duct_room == 2);
    CHECK(site.scenario->segments[2].pole_line);
}

TEST_CASE("sums of money that could overflow are refused") {
    std::string text = with(small_site(), "length: 61.5", "length: 1000000");
    text = with(text, "plant: 4", "plant: 1000000000");
    CHECK(said(read_text(text)).empty() == false);
    CHECK(said(read_text(text)).find("could grow too large to count") != std::string::npos);
}

TEST_CASE("positions are pairs of numbers in range") {
    CHECK(said(read_text(with(small_site(), "at: [30, 90]", "at: [30, 90, 5]")))
              .find("position is a list of 3; expected [x, y]") != std::string::npos);
    CHECK(
        said(read_text(with(small_site(), "at: [30, 90]", "at: north"))).find("position is 'north'; expected [x, y]") !=
        std::string::npos);
    CHECK(said(read_text(with(small_site(), "at: [30, 90]", "at: [30, 1e3]")))
              .find("coordinate is '1e3', a number with an exponent") != std::string::npos);
    const std::string degrees = with(small_site(), "map:\n", "map:\n  coordinates: wgs84\n");
    CHECK(
        said(read_text(with(degrees, "at: [30, 90]", "at: [30, 91]")))
            .find(
                "position [30, 91] is out of range; expected longitude from -180 to 180 and latitude from -90 to 90") !=
        std::string::npos);
}

TEST_CASE("names may be anything printable, in any language") {
    const auto site =
        read_text(with(small_site(), "{id: a, links", "{id: a, name: 'Bücherei \"Zum Löwen\", 図書館', links"));
    REQUIRE(site.scenario.has_value());
    CHECK(site.scenario->buildings[0].name == "Bücherei \"Zum Löwen\", 図書館");
}

TEST_CASE("escapes cannot smuggle control characters into names") {
    CHECK(said(read_text(with(small_site(), "{id: a, links", R"({id: a, name: "x\e[2Jy", links)")))
              .find("name is 'x?[2Jy', with a line end or control character in it; expected a text") !=
          std::string::npos);
    const auto note = read_text(with(small_site(), "currency:", "note: |\n  One line.\n  Another.\ncurrency:"));
    REQUIRE(note.scenario.has_value());
    CHECK(note.scenario->note == "One line.\nAnother.\n");
}

TEST_CASE("a change of any single byte ends in a site or an error") {
    const std::string text = small_site();
    const std::string bytes = "0-:{}[]\n\t'\"#&*x.";
    for (std::size_t at = 0; at < text.size(); at += 3) {
        for (const char byte : bytes) {
            std::string changed = text;
            changed[at] = byte;
            const LoadedSite site = read_text(changed);
            CHECK(site.scenario.has_value() == !has_errors(site.diagnostics));
        }
    }
}

TEST_CASE("a text cut short anywhere ends in a site or an error") {
    const std::string text = small_site();
    for (std::size_t length = 0; length < text.size(); length += 2) {
        const LoadedSite site = read_text(text.substr(0, length));
        CHECK(site.scenario.has_value() == !has_errors(site.diagnostics));
    }
}
