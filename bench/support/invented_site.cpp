#include "support/invented_site.hpp"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

namespace spadework::bench {

namespace {

/// What a building wants, and how many of ten want it.
struct Use {
    int of_ten;
    const char* wants;
};
constexpr Use kUses[] = {
    {3,
     "links: [{rate: 1G}], devices: [{what: camera, count: 3, watts: 7}, {what: access point, count: 2, watts: 12}]"},
    {2, "links: [{rate: 1G}], devices: [{what: camera, count: 4, watts: 7}, {what: time clock}]"},
    {2, "links: [{rate: 1G}], devices: [{what: access point, count: 3, watts: 12}, {what: till, count: 2}]"},
    {1, "links: [{rate: 1G}], devices: [{what: alarm panel}]"},
    {1, "links: [{rate: 10G}], devices: [{what: floor switch, count: 6}, {what: access point, count: 4, watts: 20}]"},
    {1,
     "links: [{rate: 1G, count: 2}], devices: [{what: counter, count: 5}, {what: access point, count: 4, watts: 12}]"},
};

const char* use_of(Dice& dice) {
    std::int64_t pick = dice.between(1, 10);
    for (const Use& use : kUses) {
        pick -= use.of_ten;
        if (pick <= 0) return use.wants;
    }
    return kUses[0].wants;
}

/// Metres with one decimal.
std::string metres(std::int64_t dm) {
    const std::int64_t size = dm < 0 ? -dm : dm;
    return fmt::format("{}{}.{}", dm < 0 ? "-" : "", size / 10, size % 10);
}

const char* kind_text(MapPlaceKind kind) {
    switch (kind) {
        case MapPlaceKind::handhole:
            return ", kind: handhole";
        case MapPlaceKind::building:
            return ", kind: building";
        case MapPlaceKind::hub:
            return ", kind: hub";
        case MapPlaceKind::junction:
            break;
    }
    return "";
}

void append_map(const StreetMap& map, std::string& text) {
    const auto out = std::back_inserter(text);
    text += "map:\n  places:\n";
    for (std::size_t p = 0; p < map.places.size(); ++p) {
        const MapPlace& place = map.places[p];
        fmt::format_to(out, "    - {{id: p{:05}{}, at: [{}, {}]", p, kind_text(place.kind), metres(place.x_dm),
                       metres(place.y_dm));
        if (place.enclosure_extra > 0)
            fmt::format_to(out, ", enclosure: {{extra: {}, reason: needs a guard rail}}", place.enclosure_extra);
        text += "}\n";
    }
    text += "  segments:\n";
    for (std::size_t s = 0; s < map.segments.size(); ++s) {
        const MapSegment& segment = map.segments[s];
        fmt::format_to(out, "    - {{id: s{:05}, from: p{:05}, to: p{:05}, ground: {}", s, segment.from, segment.to,
                       segment.ground);
        if (segment.crossing_charge > 0)
            fmt::format_to(out, ", charges: [{{what: traffic control, amount: {}}}]", segment.crossing_charge);
        text += "}\n";
    }
}

void append_buildings(const StreetMap& map, Dice& dice, std::string& text) {
    text += "buildings:\n";
    for (std::size_t b = 0; b < map.building_places.size(); ++b) {
        fmt::format_to(std::back_inserter(text), "  - {{id: unit-{:04}, place: p{:05}, {}}}\n", b + 1,
                       map.building_places[b], use_of(dice));
    }
}

}  // namespace

std::string invented_site(const SiteSize& size, std::uint64_t seed) {
    Dice dice(seed);
    const StreetMap map = street_map(size, dice);
    std::string text = fmt::format(
        "# An invented site of {0} buildings and {1} segments, made by bench_compare with seed {2}.\n"
        "format: 1\nsite: Invented site of {0} buildings and {1} segments, seed {2}\ncurrency: EUR\n\n",
        size.buildings, size.segments, seed);
    text += invented_prices();
    fmt::format_to(std::back_inserter(text),
                   "\nrules:\n  max-enclosures: {}\n  hop-limit: 8\n  enclosure-kinds: [handhole]\n"
                   "  spare: {{trunk: 20}}\n  contingency: 10\n\nhub: {{place: p{:05}}}\n\n",
                   std::max(1, size.buildings / 12), map.hub_place);
    append_buildings(map, dice, text);
    text += "\n";
    append_map(map, text);
    return text;
}

}  // namespace spadework::bench
