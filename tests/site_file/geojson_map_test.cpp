#include "site_file/geojson_map.hpp"

#include <algorithm>

#include <GeographicLib/Geodesic.hpp>
#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "geometry/geodesic.hpp"
#include "scenario/connectivity.hpp"
#include "scenario/lookup.hpp"
#include "site_file/site_texts.hpp"

using namespace spadework;
using namespace spadework::site_file;
using namespace spadework::site_file::testing;

namespace {

std::string feature(const std::string& geometry, const std::string& properties = "{}", const std::string& id = "") {
    return R"({"type": "Feature", )" + (id.empty() ? "" : "\"id\": \"" + id + "\", ") +
           "\"properties\": " + properties + ", \"geometry\": " + geometry + "}";
}

std::string line(const std::string& coordinates) {
    return R"({"type": "LineString", "coordinates": )" + coordinates + "}";
}

std::string point(const std::string& coordinates) {
    return R"({"type": "Point", "coordinates": )" + coordinates + "}";
}

std::string polygon(const std::string& ring) {
    return R"({"type": "Polygon", "coordinates": [)" + ring + "]}";
}

std::string collection(const std::vector<std::string>& features) {
    std::string text = R"({"type": "FeatureCollection", "features": [)";
    for (std::size_t i = 0; i < features.size(); ++i)
        text += (i > 0 ? ",\n" : "\n") + features[i];
    return text + "]}";
}

/// A street of 0.004 degrees at 50 N with a side street from its middle, a hall to the west and a shed to the east.
std::vector<std::string> street() {
    return {feature(line("[[10, 50], [10.002, 50], [10.004, 50]]"), R"({"surface": "asphalt"})", "street"),
            feature(line("[[10.002, 50], [10.002, 50.001]]"), "{}", "side street"),
            feature(polygon("[[9.9995, 50.0001], [9.9998, 50.0001], [9.9998, 50.0003], [9.9995, 50.0003], [9.9995, "
                            "50.0001]]"),
                    R"({"name": "Hall"})", "way/7"),
            feature(point("[10.003, 50.0002]"), R"({"name": "Shed"})", "node/8"),
            feature(point("[10.0021, 50.001]"), R"({"name": "Kiosk"})", "node/9")};
}

LoadedSite read_map(const std::string& hub, const std::string& more, const std::vector<std::string>& features) {
    return read_text(geojson_site(hub, more), {{"map.geojson", collection(features)}});
}

const Segment& segment(const Scenario& scenario, const std::string& id) {
    const auto number = find_segment(scenario, id);
    REQUIRE_MESSAGE(number.has_value(), id);
    return scenario.segments[static_cast<std::size_t>(*number)];
}

const std::string take_all = "    buildings: {take: all}\n";

}  // namespace

TEST_CASE("lines are cut where they share a vertex and where laterals join") {
    const LoadedSite site = read_map("{place: Hall}", take_all, street());
    CHECK(said(site).empty());
    REQUIRE(site.scenario.has_value());
    const Scenario& s = *site.scenario;
    // The street: to the side street, to the shed's lateral, to its end.
    CHECK(segment(s, "street.1").length.metres() ==
          doctest::Approx(metres_between({10, 50}, {10.002, 50}, CoordinateSystem::wgs84_degrees)).epsilon(1e-5));
    CHECK(segment(s, "street.2").length.metres() == doctest::Approx(71.70).epsilon(0.001));
    CHECK(segment(s, "street.3").length.metres() == doctest::Approx(71.70).epsilon(0.001));
    CHECK(segment(s, "side street").length.metres() == doctest::Approx(111.23).epsilon(0.001));
    CHECK(s.segments.size() == 7);
    CHECK(s.coordinates == CoordinateSystem::wgs84_degrees);
    CHECK(s.buildings.size() == 2);
    CHECK(s.places[static_cast<std::size_t>(s.hub.place)].name == "Hall");
}

TEST_CASE("a building is joined from the nearest point of its outline to the nearest point of the network") {
    const Scenario s = *read_map("{place: Hall}", take_all, street()).scenario;
    // The shed is 0.0002 degrees north of the street: 22.25 m.
    const Segment& to_shed = segment(s, "lateral to node/8");
    CHECK(to_shed.length.metres() == doctest::Approx(22.246).epsilon(0.0001));
    CHECK(to_shed.polyline.front() == Position{10.003, 50});
    // The hall's nearest corner to the street's end.
    const Segment& to_hall = segment(s, "lateral to way/7");
    CHECK(to_hall.length.metres() ==
          doctest::Approx(metres_between({9.9998, 50.0001}, {10, 50}, CoordinateSystem::wgs84_degrees)).epsilon(1e-4));
}

TEST_CASE("grounds come from the property ground, from the table, from a ground of that name, or by default") {
    auto features = street();
    features[1] =
        feature(line("[[10.002, 50], [10.002, 50.001]]"), R"({"ground": "asphalt", "surface": "grass"})", "side");
    features.push_back(feature(line("[[10.004, 50], [10.005, 50]]"), R"({"surface": "mud"})", "muddy"));
    features.push_back(feature(line("[[10.005, 50], [10.006, 50]]"), R"({"surface": "concrete"})", "hard"));
    const auto site = read_text(with(geojson_site("{place: Hall}", take_all), "{default: grass}",
                                     "{values: {concrete: asphalt}, default: grass}"),
                                {{"map.geojson", collection(features)}});
    REQUIRE(site.scenario.has_value());
    const Scenario& s = *site.scenario;
    const int asphalt = *find_ground(s, "asphalt");
    CHECK(segment(s, "street.1").ground == asphalt);
    CHECK(segment(s, "side").ground == asphalt);
    CHECK(segment(s, "hard").ground == asphalt);
    CHECK(segment(s, "muddy").ground == *find_ground(s, "grass"));
    CHECK(segment(s, "lateral to node/8").ground == *find_ground(s, "grass"));
    CHECK(said(site).find("warning: surface 'mud' has no ground of its own; it is taken as 'grass'") !=
          std::string::npos);
}

TEST_CASE("properties say what else is true of a line") {
    auto features = street();
    features[1] =
        feature(line("[[10.002, 50], [10.002, 50.001]]"),
                R"({"poles": true, "duct": {"room": 3}, "charges": [{"what": "gate", "amount": 12.5}]})", "side");
    const auto site = read_map("{place: Hall}", take_all, features);
    REQUIRE(site.scenario.has_value());
    const Segment& side = segment(*site.scenario, "side");
    CHECK(side.pole_line);
    CHECK(side.duct_room == 3);
    REQUIRE(side.charges.size() == 1);
    CHECK(side.charges[0].amount == Money::from_minor(1250));
    features[1] =
        feature(line("[[10.002, 50], [10.002, 50.001]]"), R"({"poles": "perhaps", "duct": 3, "ground": "gras"})");
    const std::string text = said(read_map("{place: Hall}", take_all, features));
    CHECK(text.find("poles is 'perhaps'; expected true or false") != std::string::npos);
    CHECK(text.find("'3' where a duct belongs") != std::string::npos);
    CHECK(text.find("no ground 'gras'; expected the id of a ground; did you mean 'grass'?") != std::string::npos);
}

TEST_CASE("banned lines join nothing; what only they reach is cut off") {
    auto features = street();
    features[1] = feature(line("[[10.002, 50], [10.002, 50.01]]"), R"({"highway": "motorway"})", "motorway");
    features[4] = feature(point("[10.0021, 50.01]"), R"({"name": "Kiosk"})", "node/9");
    const std::string bans = "    bans: {values: {motorway: no digging}}\n";
    const auto cut_off = read_map("{place: Hall}", take_all + bans, features);
    CHECK(said(cut_off).find("'node/9' is cut off from the hub: it is 1112.") != std::string::npos);
    CHECK(said(cut_off).find("expected at most longest-lateral, 300 m; or 'cut-off: skip'") != std::string::npos);
    const auto skipped = read_map("{place: Hall}", take_all + bans + "    cut-off: skip\n", features);
    REQUIRE(skipped.scenario.has_value());
    CHECK(skipped.scenario->buildings.size() == 1);
    CHECK(said(skipped).find("warning: 'node/9' is cut off") != std::string::npos);
    CHECK(segment(*skipped.scenario, "motorway").ban == "no digging");
}

TEST_CASE("listed buildings are known by id or name, taken ones need no listing") {
    const std::string listed =
        with(geojson_site("{place: Hall}", ""),
             "catalogue:", "buildings:\n  - {id: shed, place: Shed, links: [{rate: 10G}]}\ncatalogue:");
    const auto only = read_text(listed, {{"map.geojson", collection(street())}});
    CHECK(said(only).empty());
    REQUIRE(only.scenario.has_value());
    CHECK(only.scenario->buildings.size() == 1);
    CHECK(only.scenario->buildings[0].links[0].rate == BitRate::from_megabits(10000));
    // What nobody wants is no place of the site.
    CHECK_FALSE(find_place(*only.scenario, "node/9").has_value());
    const auto all = read_text(with(listed, "    grounds", "    buildings: {take: all}\n    grounds"),
                               {{"map.geojson", collection(street())}});
    REQUIRE(all.scenario.has_value());
    REQUIRE(all.scenario->buildings.size() == 2);
    CHECK(all.scenario->buildings[0].id == "node/9");
    CHECK(all.scenario->buildings[0].links[0].rate == BitRate::from_megabits(1000));
    CHECK(all.scenario->buildings[1].id == "shed");
    const auto some = read_map("{place: Hall}", "    buildings: {take: [Kiosk, node/8], nearest: 1}\n", street());
    REQUIRE(some.scenario.has_value());
    REQUIRE(some.scenario->buildings.size() == 1);
    CHECK(some.scenario->buildings[0].name == "Kiosk");
    CHECK(said(read_map("{place: Hall}", "    buildings: {take: [Kiosque]}\n", street()))
              .find("no point or polygon 'Kiosque'") != std::string::npos);
}

TEST_CASE("only points and polygons with the property are buildings; others may be places of another kind") {
    auto features = street();
    features[3] = feature(point("[10.003, 50]"), R"({"building": "shed"})", "node/8");
    features.push_back(feature(point("[10.001, 50]"), R"({"place": "handhole"})", "hh1"));
    features[2] = feature(point("[10, 50.0001]"), R"({"building": "yes", "name": "Hall"})", "way/7");
    const auto site = read_map("{place: Hall}", "    buildings: {property: building, take: all}\n", features);
    REQUIRE(site.scenario.has_value());
    const Scenario& s = *site.scenario;
    REQUIRE(s.buildings.size() == 1);
    CHECK(s.buildings[0].id == "node/8");
    const auto handhole = find_place(s, "hh1");
    REQUIRE(handhole.has_value());
    CHECK(s.places[static_cast<std::size_t>(*handhole)].kind == PlaceKind::handhole);
    CHECK(s.places[static_cast<std::size_t>(*handhole)].enclosure_allowed);
    // Both stand on the street: the line is cut there and needs no lateral.
    CHECK_FALSE(find_segment(s, "lateral to hh1").has_value());
    CHECK_FALSE(find_segment(s, "lateral to node/8").has_value());
    CHECK(segment(s, "street.1").to == *handhole);
}

TEST_CASE("the hub may be the building or the point of a line nearest to a position") {
    const auto inside = read_map("{near: [9.9996, 50.0002]}", take_all, street());
    REQUIRE(inside.scenario.has_value());
    CHECK(inside.scenario->places[static_cast<std::size_t>(inside.scenario->hub.place)].name == "Hall");
    const auto at_vertex = read_map("{near: [10.00201, 50.00001]}", take_all, street());
    REQUIRE(at_vertex.scenario.has_value());
    const Place& hub = at_vertex.scenario->places[static_cast<std::size_t>(at_vertex.scenario->hub.place)];
    CHECK(hub.id == "10.0020000,50.0000000");
    CHECK(hub.kind == PlaceKind::hub);
    CHECK(at_vertex.scenario->buildings.size() == 3);
}

TEST_CASE("a path that goes through a building meets it at the wall") {
    auto features = street();
    features[3] = feature(polygon("[[10.0025, 49.9999], [10.0035, 49.9999], [10.0035, 50.0001], [10.0025, 50.0001], "
                                  "[10.0025, 49.9999]]"),
                          "{}", "arcade");
    const auto site = read_map("{place: Hall}", take_all, features);
    REQUIRE(site.scenario.has_value());
    const auto arcade = find_place(*site.scenario, "arcade");
    REQUIRE(arcade.has_value());
    CHECK(site.scenario->places[static_cast<std::size_t>(*arcade)].at.x == doctest::Approx(10.0025).epsilon(1e-9));
    CHECK_FALSE(find_segment(*site.scenario, "lateral to arcade").has_value());
}

TEST_CASE("a closed way is cut so that no segment ends where it starts") {
    std::vector<std::string> features = street();
    features.push_back(
        feature(line("[[10.004, 50], [10.005, 50], [10.005, 50.001], [10.004, 50.001], [10.004, 50]]"), "{}", "round"));
    const auto site = read_map("{place: Hall}", take_all, features);
    REQUIRE(site.scenario.has_value());
    CHECK(segment(*site.scenario, "round.1").length.metres() + segment(*site.scenario, "round.2").length.metres() ==
          doctest::Approx(2 * 71.70 + 2 * 111.24).epsilon(0.001));
    for (const Segment& s : site.scenario->segments)
        CHECK(s.from != s.to);
}

TEST_CASE("order of features changes numbers, never the network") {
    auto features = street();
    const Scenario forward = *read_map("{place: Hall}", take_all, features).scenario;
    std::reverse(features.begin(), features.end());
    const Scenario backward = *read_map("{place: Hall}", take_all, features).scenario;
    REQUIRE(forward.places.size() == backward.places.size());
    for (std::size_t i = 0; i < forward.places.size(); ++i) {
        CHECK(forward.places[i].id == backward.places[i].id);
        CHECK(forward.places[i].at == backward.places[i].at);
    }
    REQUIRE(forward.segments.size() == backward.segments.size());
    for (std::size_t i = 0; i < forward.segments.size(); ++i) {
        CHECK(forward.segments[i].id == backward.segments[i].id);
        CHECK(forward.segments[i].length == backward.segments[i].length);
        CHECK(forward.segments[i].from == backward.segments[i].from);
    }
}

TEST_CASE("coordinates in projected metres are refused with the reason") {
    const auto site =
        read_map("{near: [10, 50]}", take_all, {feature(line("[[313198.08, 4330288.62], [313250, 4330300]]"))});
    CHECK(said(site) ==
          "map.geojson:2:90: error: position [313198.08, 4330288.62] and 1 more are out of range: these look like "
          "projected metres, not degrees; expected longitude from -180 to 180 and latitude from -90 to 90 (RFC 7946 "
          "section 4)\n");
}

TEST_CASE("a map is either listed or GeoJSON, and GeoJSON needs lines") {
    CHECK(said(read_map("{near: [10, 50]}", "  places: []\n", street())).find("both 'geojson' and 'places' in a map") !=
          std::string::npos);
    CHECK(said(read_map("{place: Hall}", take_all, {street()[2]})).find("a GeoJSON map without a line") !=
          std::string::npos);
    CHECK(said(read_map("{place: Hell}", take_all, street())).find("no point or polygon 'Hell'") != std::string::npos);
}

TEST_CASE("escapes in JSON cannot smuggle control characters into names, and two buildings need two points") {
    auto features = street();
    features[3] = feature(point("[10.003, 50.0002]"), R"({"name": "Sh\u001bed"})", "node/8");
    CHECK(said(read_map("{place: Hall}", take_all, features)).find("name is 'Sh?ed', with a line end or control") !=
          std::string::npos);
    features[3] = feature(point("[10.002, 50.001]"), "{}", "node/8");
    features[4] = feature(point("[10.002, 50.001]"), "{}", "node/9");
    CHECK(said(read_map("{place: Hall}", take_all, features)).find("'node/9' stands where 'node/8' stands already") !=
          std::string::npos);
}

TEST_CASE("a change of any single byte of a map ends in a site or an error") {
    const std::string map = collection(street());
    const std::string site = geojson_site("{place: Hall}", take_all);
    for (std::size_t at = 0; at < map.size(); at += 2) {
        for (const char byte : std::string("0-{}[]\"e,.")) {
            std::string changed = map;
            changed[at] = byte;
            const LoadedSite loaded = read_text(site, {{"map.geojson", changed}});
            CHECK(loaded.scenario.has_value() == !has_errors(loaded.diagnostics));
        }
    }
}

namespace {

/// What a map holds, read again by simple code of its own: metres of all lines, features with the property "building".
struct Counted {
    double metres = 0;
    std::size_t buildings = 0;
};

Counted counted(const std::string& text) {
    Counted found;
    const nlohmann::json document = nlohmann::json::parse(text);
    for (const auto& item : document["features"]) {
        const auto& geometry = item["geometry"];
        if (geometry["type"] != "LineString") {
            found.buildings += item["properties"].contains("building") ? 1 : 0;
            continue;
        }
        const auto& points = geometry["coordinates"];
        for (std::size_t i = 1; i < points.size(); ++i) {
            double metres = 0;
            GeographicLib::Geodesic::WGS84().Inverse(points[i - 1][1], points[i - 1][0], points[i][1], points[i][0],
                                                     metres);
            found.metres += metres;
        }
    }
    return found;
}

}  // namespace

TEST_CASE("real maps load, connect and keep their length and their buildings") {
    const auto folder = shared_data_folder() / "maps";
    if (!std::filesystem::is_directory(folder)) {
        MESSAGE("skipped: no folder ", folder.string());
        return;
    }
    // (c) OpenStreetMap contributors, ODbL 1.0.
    struct Case {
        const char* file;
        const char* hub;
    };
    const Case cases[] = {{"atlanta_tiny_us.geojson", "{near: [-84.5637, 33.6372]}"},
                          {"frederiksted_town_vi.geojson", "{near: [-64.8825, 17.7115]}"},
                          {"harsdorf_village_de.geojson", "{near: [11.59038, 50.00764]}"},
                          {"rockville_college_us.geojson", "{near: [-77.160, 39.098]}"}};
    for (const Case& map : cases) {
        CAPTURE(std::string(map.file));
        const std::string text = text_of_file(folder / map.file);
        const std::string more = "    buildings: {property: building, take: all}\n    cut-off: skip\n";
        const auto site = read_text(geojson_site(map.hub, more), {{"map.geojson", text}});
        REQUIRE(site.scenario.has_value());
        const Scenario& s = *site.scenario;
        CHECK(cut_off_buildings(s).empty());
        double pieces = 0;
        std::size_t laterals = 0;
        for (const Segment& piece : s.segments) {
            CHECK(piece.from != piece.to);
            CHECK(piece.length > Length());
            const bool is_lateral = piece.id.starts_with("lateral to ");
            laterals += is_lateral ? 1 : 0;
            if (!is_lateral) pieces += piece.length.metres();
        }
        const Counted file = counted(text);
        // A cut puts a point to 10^-7 degree, and every piece is rounded to a millimetre.
        CHECK(pieces == doctest::Approx(file.metres).epsilon(1e-5));
        // The hub may be one of the buildings; all others are reached.
        const bool hub_is_building = s.buildings.size() + 1 == file.buildings;
        CHECK((hub_is_building || s.buildings.size() == file.buildings));
        CHECK(laterals <= file.buildings);
    }
}

TEST_CASE("a map in projected metres from a survey is refused with the reason") {
    const auto file = shared_data_folder() / "maps" / "formats" / "rockville_paths_3857_nocrs.geojson";
    if (!std::filesystem::is_regular_file(file)) {
        MESSAGE("skipped: no file ", file.string());
        return;
    }
    const auto site =
        read_text(geojson_site("{near: [-77.160, 39.098]}", take_all), {{"map.geojson", text_of_file(file)}});
    CHECK_FALSE(site.scenario.has_value());
    CHECK(said(site).find("these look like projected metres, not degrees") != std::string::npos);
}
