#include "drawing/drawing.hpp"
#include "drawing/extra_cost_classes.hpp"
#include "drawing/support/invented_plan.hpp"
#include "drawing/support/picture_checks.hpp"
#include "support/small_site.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

SvgElement map_of(const Scenario& site, const EnclosureStudy& study, double width = 960) {
    return checked_picture(drawing::enclosure_map_svg(site, study, {width, "", false}));
}

const SvgElement& sign_of(const SvgElement& svg, const std::string& start) {
    for (const SvgElement& child : svg.find("enclosure-map-places")->children) {
        if (child.title().rfind(start, 0) == 0) return child;
    }
    FAIL("no sign " << start);
    return svg;
}

}  // namespace

TEST_CASE("the cheapest place has a sign of its own, and dearer places have larger circles") {
    const Scenario site = small_site::site();
    const SvgElement svg = map_of(site, small_enclosure_study(site));
    CHECK(sign_of(svg, "gate: cheapest, EUR").name == "path");
    const SvgElement& near = sign_of(svg, "mill: EUR 310.50 more");
    const SvgElement& far = sign_of(svg, "barn: EUR 1,800.00 more");
    CHECK(near.name == "circle");
    CHECK(far.number("r") > near.number("r"));
    CHECK(has_text(*svg.find("enclosure-map-labels"), "mill +310.50"));
    CHECK(has_text(*svg.find("enclosure-map-legend"), "EUR 1,000 to 2,000 more"));
    CHECK(has_text(*svg.find("enclosure-map-title-block"), "gate, EUR"));
}

TEST_CASE("places that can take no enclosure are crossed, unless they have a sign") {
    Scenario site = small_site::site();
    EnclosureStudy study = small_enclosure_study(site);
    const SvgElement with_hub = map_of(site, study);
    CHECK_FALSE(has_text(*with_hub.find("enclosure-map-legend"), "No enclosure"));
    site.places.push_back(small_site::place("verge", PlaceKind::junction, 60, 20));
    study.barred.push_back({4, hostile_name});
    const SvgElement svg = map_of(site, study);
    CHECK(svg.find("enclosure-map-barred")->children.size() == 1);
    CHECK(has_text(*svg.find("enclosure-map-legend"), "No enclosure can stand here"));
}

TEST_CASE("a site where no place will do says why") {
    const Scenario site = small_site::site();
    EnclosureStudy study;
    study.reason = "every place is barred";
    for (const double width : {390.0, 960.0})
        CHECK(has_text(map_of(site, study, width), "every place is barred"));
    study.ranking = small_enclosure_study(site).ranking;
    for (PlaceRank& rank : study.ranking)
        rank.result.plan.reset();
    CHECK(map_of(site, study).find("enclosure-map-places") == nullptr);
}

TEST_CASE("areas are in the legend where they are on the map") {
    Scenario site = small_site::site();
    const EnclosureStudy study = small_enclosure_study(site);
    CHECK_FALSE(has_text(*map_of(site, study).find("enclosure-map-legend"), "Open ground"));
    Area lawn;
    lawn.id = "lawn";
    lawn.rings = {{{10, -20}, {90, -20}, {90, -5}, {10, -5}}};
    site.areas = {lawn};
    const SvgElement svg = map_of(site, study, 390);
    CHECK(has_text(*svg.find("enclosure-map-legend"), "Open ground"));
    CHECK_FALSE(has_text(*svg.find("enclosure-map-legend"), "Obstacle"));
}

TEST_CASE("a single place and many places at one point are drawn") {
    Scenario site = small_site::site();
    EnclosureStudy study = small_enclosure_study(site);
    study.ranking.resize(1);
    map_of(site, study);
    study = small_enclosure_study(site);
    for (Place& place : site.places)
        place.at = {1, 2};
    map_of(site, study, 390);
}

TEST_CASE("the description ranks the places with their extra cost") {
    const Scenario site = small_site::site();
    const std::string desc = texts_in(map_of(site, small_enclosure_study(site)), "desc");
    CHECK(desc.find("Cheapest: gate, EUR") != std::string::npos);
    CHECK(desc.find("barn: EUR 1,800.00 more") != std::string::npos);
    CHECK(desc.find("1 other place") != std::string::npos);
}

TEST_CASE("classes of extra cost have round limits that hold every amount") {
    for (const std::int64_t most : {0LL, 1LL, 99LL, 310'00LL, 1'800'00LL, 200'000'00LL, 1'000'000'000'000'000'000LL}) {
        const drawing::ExtraCostClasses classes(Money::from_minor(most), {"EUR", 2});
        CHECK(classes.count() >= 1);
        CHECK(classes.count() <= 5);
        CHECK(classes.class_of(Money::from_minor(most)) == classes.count() - 1);
        CHECK(classes.class_of(Money()) == 0);
        for (int c = 0; c < classes.count(); ++c)
            CHECK_FALSE(classes.in_words(c).empty());
    }
    const drawing::ExtraCostClasses classes(Money::from_minor(180'000), {"EUR", 2});
    CHECK(classes.in_words(0) == "up to EUR 100 more");
    CHECK(classes.in_words(4) == "EUR 1,000 to 2,000 more");
    CHECK(classes.class_of(Money::from_minor(100'000)) == 3);
    CHECK(classes.class_of(Money::from_minor(100'001)) == 4);
}
