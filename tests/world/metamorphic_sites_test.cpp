// Whole comparisons of sites put differently: what must not change, or must change in a known way. And sites whose
// numbers are at the ends of what is allowed.

#include <algorithm>
#include <functional>
#include <map>
#include <numeric>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "site_file/site_texts.hpp"
#include "study/study.hpp"
#include "support/effort.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using drawing::MapFamily;

/// A small site where everything comes in whole cents and whole metres, so that nothing is rounded.
Scenario random_site(Dice& dice) {
    MapFamily family;
    family.buildings = static_cast<int>(dice.between(2, 6));
    family.places = static_cast<int>(dice.between(family.buildings + 2, 16));
    family.segments = static_cast<int>(dice.between(family.places, 26));
    family.dearest_ground = dice.one_in(2) ? 8000 : 500;
    Scenario site = drawing::random_map(dice, family);
    site.rules.most_enclosures = 2;
    return site;
}

std::vector<LayoutResult> compared(const Scenario& site) {
    Study study = compare_layouts(site, {.layouts = {}, .seconds = 20.0});
    CHECK(study.violations.empty());
    for (const LayoutResult& result : study.comparison.layouts) {
        CAPTURE(result.reason);
        REQUIRE(result.feasible());
        CHECK(result.bound <= result.total);
    }
    return std::move(study.comparison.layouts);
}

/// A random site, the dice after it was made, and its layouts.
struct Original {
    Scenario site;
    Dice dice;
    std::vector<LayoutResult> layouts;
};

/// The site that these dice make, compared once for all that is held against it.
const Original& original_of(unsigned number) {
    static std::map<unsigned, Original> made;
    const auto known = made.find(number);
    if (known != made.end()) return known->second;
    Dice dice(number);
    Scenario site = random_site(dice);
    std::vector<LayoutResult> layouts = compared(site);
    return made.emplace(number, Original{std::move(site), dice, std::move(layouts)}).first->second;
}

using Variation = std::function<Scenario(Scenario, Dice&)>;

/// Rings must take a second way wherever the map has one, so that other segments are another task for them.
enum class Held { every_layout, all_but_rings };

bool is_held(const LayoutResult& result, Held held) {
    return held == Held::every_layout || result.layout != LayoutKind::ring;
}

/// Holds each layout's total and bound in each varied site to `factor` times the original's: neither bound may pass the
/// other's total. A bound leaves room for the rounding of lines, so it seldom proves a total to the cent; that totals
/// are the same all the same is wanted of at least the given share, and measured to hold for nearly all.
void expect_same_best(const Variation& vary, std::int64_t factor, double share, Held held = Held::every_layout) {
    int pairs = 0;
    int same = 0;
    for (int round = 0; round < effort(40); ++round) {
        CAPTURE(round);
        const Original& known = original_of(500 + static_cast<unsigned>(round));
        Dice dice = known.dice;
        const std::vector<LayoutResult>& original = known.layouts;
        const std::vector<LayoutResult> varied = compared(vary(known.site, dice));
        REQUIRE(original.size() == varied.size());
        for (std::size_t i = 0; i < original.size(); ++i) {
            if (!is_held(original[i], held)) continue;
            CAPTURE(std::string(name_of(original[i].layout)));
            CHECK(varied[i].bound <= original[i].total * factor);
            CHECK(original[i].bound * factor <= varied[i].total);
            ++pairs;
            same += varied[i].total == original[i].total * factor ? 1 : 0;
        }
    }
    MESSAGE(same << " of " << pairs << " layouts with the same total");
    CHECK(same >= static_cast<int>(share * pairs));
}

/// Holds what each layout costs at best in each varied site to no less than the original's.
void expect_no_lower_best(const Variation& vary, Held held = Held::every_layout) {
    for (int round = 0; round < effort(40); ++round) {
        CAPTURE(round);
        const Original& known = original_of(500 + static_cast<unsigned>(round));
        Dice dice = known.dice;
        const std::vector<LayoutResult>& original = known.layouts;
        const std::vector<LayoutResult> varied = compared(vary(known.site, dice));
        for (std::size_t i = 0; i < original.size(); ++i) {
            if (!is_held(original[i], held)) continue;
            CAPTURE(std::string(name_of(original[i].layout)));
            CHECK(original[i].bound <= varied[i].total);
        }
    }
}

void multiply(UnitPrice& price, std::int64_t factor) {
    price = UnitPrice::from_thousandths(price.thousandths() * factor);
}

void multiply(Catalogue& catalogue, std::int64_t factor) {
    for (CableProduct& cable : catalogue.cables) {
        multiply(cable.price_per_metre, factor);
        multiply(cable.factory_end_price, factor);
    }
    for (EnclosureProduct& enclosure : catalogue.enclosures)
        multiply(enclosure.price, factor);
    for (OpticProduct& optic : catalogue.optics)
        multiply(optic.price_per_end, factor);
    for (BuildingGearProduct& gear : catalogue.building_gear)
        multiply(gear.price, factor);
    for (HubGearProduct& gear : catalogue.hub_gear)
        multiply(gear.price, factor);
    for (PatchCordProduct& cord : catalogue.patch_cords)
        multiply(cord.price, factor);
    multiply(catalogue.splicing.pigtail_price, factor);
    multiply(catalogue.splicing.rate_per_hour, factor);
}

/// Every price of these sites times a factor.
Scenario times_as_dear(Scenario site, std::int64_t factor) {
    for (Ground& ground : site.grounds) {
        for (OpeningMethod& method : ground.methods)
            multiply(method.plant_per_metre, factor);
    }
    for (Segment& segment : site.segments) {
        for (FixedCharge& charge : segment.charges)
            charge.amount = charge.amount * factor;
    }
    for (Place& place : site.places)
        place.enclosure_extra = place.enclosure_extra * factor;
    multiply(site.catalogue, factor);
    multiply(site.labour.groundworks_rate, factor);
    multiply(site.labour.installer_rate, factor);
    site.labour.mobilisation = site.labour.mobilisation * factor;
    return site;
}

/// new_index[i] is where item i moves when the list is put in a random order; the list is put in that order.
template <class Item>
std::vector<int> put_in_random_order(std::vector<Item>& items, Dice& dice) {
    std::vector<int> new_index(items.size());
    std::iota(new_index.begin(), new_index.end(), 0);
    for (std::size_t i = items.size(); i > 1; --i)
        std::swap(new_index[i - 1], new_index[static_cast<std::size_t>(dice.between(0, static_cast<int>(i) - 1))]);
    std::vector<Item> moved(items.size());
    for (std::size_t i = 0; i < items.size(); ++i)
        moved[static_cast<std::size_t>(new_index[i])] = items[i];
    items = std::move(moved);
    return new_index;
}

template <class Item>
void give_ids_in_order(std::vector<Item>& items, const char* form) {
    for (std::size_t i = 0; i < items.size(); ++i)
        items[i].id = fmt::format(fmt::runtime(form), i);
}

/// The same site where everything has another id, so that everything stands elsewhere in its list.
Scenario renamed(Scenario site, Dice& dice) {
    const std::vector<int> places = put_in_random_order(site.places, dice);
    put_in_random_order(site.segments, dice);
    put_in_random_order(site.buildings, dice);
    for (Segment& segment : site.segments) {
        segment.from = places[static_cast<std::size_t>(segment.from)];
        segment.to = places[static_cast<std::size_t>(segment.to)];
        if (dice.one_in(2)) {
            std::swap(segment.from, segment.to);
            std::reverse(segment.polyline.begin(), segment.polyline.end());
        }
    }
    for (Building& building : site.buildings)
        building.place = places[static_cast<std::size_t>(building.place)];
    site.hub.place = places[static_cast<std::size_t>(site.hub.place)];
    give_ids_in_order(site.places, "q{:04}");
    give_ids_in_order(site.segments, "t{:04}");
    give_ids_in_order(site.buildings, "c{:03}");
    return site;
}

PlaceIndex add_plain_place(Scenario& site) {
    const PlaceIndex place = drawing::add_place(site);
    site.places.back().enclosure_allowed = false;
    site.places.back().enclosure_reason = "only there to divide a segment";
    return place;
}

/// Every other segment in two pieces; its charges stay with the first.
Scenario subdivided(Scenario site, Dice& dice) {
    for (std::size_t s = 0, count = site.segments.size(); s < count; s += 2) {
        const PlaceIndex middle = add_plain_place(site);
        const std::int64_t whole = site.segments[s].length.millimetres() / 1000;
        const std::int64_t first = dice.between(1, whole - 1);
        const PlaceIndex end = site.segments[s].to;
        const int ground = site.segments[s].ground;
        site.segments[s].to = middle;
        site.segments[s].length = Length::from_metres(static_cast<double>(first));
        drawing::add_segment(site, middle, end, static_cast<double>(whole - first));
        site.segments.back().ground = ground;
    }
    return site;
}

/// Beside every other segment a longer one over the same ground, and dead ends.
Scenario with_useless_segments(Scenario site, Dice& dice) {
    for (std::size_t s = 0, count = site.segments.size(); s < count; s += 2) {
        Segment longer = site.segments[s];
        longer.id = fmt::format("s{:04}", site.segments.size());
        longer.length = longer.length + Length::from_metres(static_cast<double>(dice.between(1, 20)));
        site.segments.push_back(longer);
    }
    for (int end = 0; end < 5; ++end) {
        const auto from = static_cast<PlaceIndex>(dice.between(0, static_cast<int>(site.places.size()) - 1));
        drawing::add_segment(site, from, add_plain_place(site), static_cast<double>(dice.between(1, 30)));
    }
    return site;
}

Scenario with_one_building_more(Scenario site, Dice& dice) {
    const auto at = static_cast<PlaceIndex>(dice.between(1, static_cast<int>(site.places.size()) - 1));
    drawing::add_building(site, at);
    return site;
}

Scenario with_dearer_ground(Scenario site, Dice& dice) {
    OpeningMethod& method = site.grounds[static_cast<std::size_t>(dice.between(0, 2))].methods.front();
    method.plant_per_metre = method.plant_per_metre + UnitPrice::from_minor(static_cast<double>(dice.between(1, 3000)));
    return site;
}

Scenario with_one_segment_banned(Scenario site, Dice& /*dice*/) {
    site.segments.back().ban = "closed for the season";  // Not of the tree that connects all.
    return site;
}

}  // namespace

TEST_CASE("Three times as dear in all is three times every layout's total") {
    expect_same_best([](const Scenario& site, Dice&) { return times_as_dear(site, 3); }, 3, 0.9);
}

TEST_CASE("Other ids, another order and turned segments leave every layout's best total") {
    expect_same_best(renamed, 1, 0.9);
}

TEST_CASE("Segments in two pieces leave every layout's best total") {
    expect_same_best(subdivided, 1, 0.9);
}

TEST_CASE("Longer parallel segments and dead ends leave every layout's best total") {
    expect_same_best(with_useless_segments, 1, 0.9, Held::all_but_rings);
}

TEST_CASE("A building more, a dearer ground or a segment less never make a layout cheaper") {
    expect_no_lower_best(with_one_building_more);
    expect_no_lower_best(with_dearer_ground);
    expect_no_lower_best(with_one_segment_banned, Held::all_but_rings);
}

TEST_CASE("All buildings at the hub's own place need no trench in any layout") {
    Scenario site = drawing::bare_site();
    drawing::add_segment(site, 0, drawing::add_place(site), 40);
    for (int b = 0; b < 4; ++b)
        drawing::add_building(site, site.hub.place);
    const Study study = compare_layouts(site, {.layouts = {}, .seconds = 5.0});
    CHECK(study.violations.empty());
    REQUIRE(study.comparison.cheapest);
    for (const LayoutResult& result : study.comparison.layouts) {
        CAPTURE(std::string(name_of(result.layout)));
        if (result.feasible()) CHECK(result.bound <= result.total);
        if (result.layout == LayoutKind::home_runs) CHECK(result.trench.millimetres() == 0);
    }
}

TEST_CASE("Where digging is free, every layout still has a total and a bound below it") {
    for (unsigned round = 0; round < 6; ++round) {
        CAPTURE(round);
        Dice dice(700 + round);
        Scenario site = random_site(dice);
        for (Ground& ground : site.grounds)
            ground.methods.front().plant_per_metre = {};
        for (Segment& segment : site.segments)
            segment.charges.clear();
        for (const LayoutResult& result : compared(site))
            CHECK(result.total.minor() > 0);
    }
}

TEST_CASE("Prices of 10^9 a metre over hundreds of segments keep totals and bounds exact") {
    Dice dice(42);
    MapFamily family{.places = 150, .segments = 300, .buildings = 12};
    Scenario site = drawing::random_map(dice, family);
    for (Ground& ground : site.grounds)
        ground.methods.front().plant_per_metre = UnitPrice::from_minor(1e11);
    const Study study = compare_layouts(site, {.layouts = {}, .seconds = 4.0});
    CHECK(study.violations.empty());
    for (const LayoutResult& result : study.comparison.layouts) {
        CAPTURE(std::string(name_of(result.layout)));
        REQUIRE(result.feasible());
        CHECK(result.total.minor() > 100'000'000'000);
        CHECK(result.bound <= result.total);
        CHECK(result.bound.minor() > 0);
    }
}

TEST_CASE("A length of a millionth of a metre is refused with its place, written or drawn") {
    using namespace site_file::testing;
    const std::string site = text_of_file(scenarios_folder() / "lakeside.yaml");
    const std::string drive = "{id: drive, from: office, to: gate, ground: gravel}";
    const auto written =
        read_text(with(site, drive, "{id: drive, from: office, to: gate, ground: gravel, length: 0.000001}"));
    CHECK_FALSE(written.scenario);
    CHECK(said(written).find("length is '0.000001'; expected a number from 0.001 to 1000000") != std::string::npos);
    const auto drawn = read_text(with(site, "at: [80, 15]", "at: [0.000001, 0]"));
    CHECK_FALSE(drawn.scenario);
    CHECK(said(drawn).find("segment 'drive' has no length: it is under 1 mm") != std::string::npos);
}

TEST_CASE("Prices and lengths whose sum no total could hold are refused, and those just below are planned") {
    using namespace site_file::testing;
    const std::string site = text_of_file(scenarios_folder() / "lakeside.yaml");
    const std::string priced = with(site, "plant: 4.00", "plant: 1000000000");
    const std::string drive = "{id: drive, from: office, to: gate, ground: gravel}";
    CHECK_FALSE(
        read_text(with(priced, "to: lawn-corner, ground: grass}", "to: lawn-corner, ground: grass, length: 1000000}"))
            .scenario);
    const auto below = read_text(priced);
    REQUIRE(below.scenario);
    const Study study = compare_layouts(*below.scenario, {.layouts = {}, .seconds = 5.0});
    CHECK(study.violations.empty());
    for (const LayoutResult& result : study.comparison.layouts)
        CHECK(result.bound <= result.total);
}

}  // namespace spadework
