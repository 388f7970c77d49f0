#include "drawing/drawing.hpp"
#include "drawing/support/picture_checks.hpp"
#include "strands/strand_study.hpp"
#include "support/small_site.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

SvgElement curve_of(const Scenario& site, const StrandStudy& study, double width = 960) {
    return checked_picture(drawing::strand_curve_svg(site, study, {width, "", false}));
}

}  // namespace

TEST_CASE("each size has its price and its chance, the recommended one a sign of its own") {
    const Scenario site = small_site::site();
    const StrandStudy study = study_strands(site);
    REQUIRE(study.sizes.size() == 3);
    REQUIRE(study.recommended >= 0);
    for (const double width : {390.0, 960.0}) {
        const SvgElement svg = curve_of(site, study, width);
        const SvgElement& price = *svg.find("strand-curve-price");
        CHECK(has_text(price, "Cost of the trunk (EUR a m)"));
        // Cable of 0.60, 1.00 and 1.60 with 1.50 of duct and 0.36 of pulling.
        for (const char* text : {"2.46", "2.86", "3.46"})
            CHECK(has_text(price, text));
        int signs = 0;
        for (const SvgElement* path : price.all("path"))
            signs += path->title().empty() ? 0 : 1;
        CHECK(signs == 1);
        CHECK(has_text(*svg.find("strand-curve-sizes"), "4\n12\n24\n"));
        CHECK(svg.find("strand-curve-chance")->all("rect").size() == 3);
    }
}

TEST_CASE("heights are in proportion to prices and chances") {
    const Scenario site = small_site::site();
    StrandStudy study = study_strands(site);
    study.sizes[0].chance_enough = 0.25;
    study.sizes[1].chance_enough = 0.5;
    study.sizes[2].chance_enough = 1;
    study.recommended = -1;
    const SvgElement svg = curve_of(site, study);
    const auto bars = svg.find("strand-curve-chance")->all("rect");
    CHECK(bars[0]->number("height") * 4 == doctest::Approx(bars[2]->number("height")).epsilon(0.001));
    CHECK(bars[1]->number("height") * 2 == doctest::Approx(bars[2]->number("height")).epsilon(0.001));
    const auto dots = svg.find("strand-curve-price")->all("circle");
    REQUIRE(dots.size() == 3);
    const double bottom = svg.find("strand-curve-price")->all("line")[0]->number("y1");
    CHECK((bottom - dots[1]->number("cy")) / (bottom - dots[0]->number("cy")) ==
          doctest::Approx(286.0 / 246).epsilon(0.002));
    CHECK((bottom - dots[2]->number("cy")) / (bottom - dots[0]->number("cy")) ==
          doctest::Approx(346.0 / 246).epsilon(0.002));
    CHECK_FALSE(has_text(svg, "Recommended"));
    CHECK(has_text(svg, "No size meets the policy", "desc"));
}

TEST_CASE("a site in feet has prices a foot") {
    Scenario site = small_site::site();
    site.feet = true;
    const SvgElement svg = curve_of(site, study_strands(site));
    CHECK(has_text(svg, "Cost of the trunk (EUR a ft)"));
    CHECK(has_text(svg, "0.87173"));  // 2.86 a metre.
    CHECK(has_text(svg, "EUR 0.87173 a ft", "desc"));
}

TEST_CASE("no size on offer, one size and a great many are pictures too") {
    Scenario site = small_site::site();
    StrandStudy study = study_strands(site);
    CHECK(has_text(curve_of(site, {}), "No cable is on offer."));
    const CableSizeOption one = study.sizes[0];
    study.sizes = {one};
    study.recommended = 0;
    curve_of(site, study);
    study.sizes.assign(60, one);
    for (const double width : {320.0, 960.0})
        curve_of(site, study, width);
}

TEST_CASE("where growth is described the sum, the price now and what is expected later are lines of their own") {
    Scenario site = small_site::site();
    site.growth.unnamed_links_per_year = 0.3;
    const TrunkRun run = trunk_run(site, small_site::gate, {{small_site::drive, 0, 1}}, 0);
    const StrandStudy study = study_strands(site, run);
    for (const double width : {390.0, 960.0}) {
        const SvgElement svg = curve_of(site, study, width);
        const SvgElement& price = *svg.find("strand-curve-price");
        CHECK(has_text(price, "Cost of the trunk, now and later (EUR)"));
        const SvgElement& legend = *svg.find("strand-curve-legend");
        for (const char* name : {"Sum", "Now", "Expected later"})
            CHECK(has_text(legend, name));
        CHECK(has_text(svg, "expected later, enough with a chance of", "desc"));
    }
}

TEST_CASE("a size too small for what is in use has a price and nothing later") {
    Scenario site = small_site::site();
    site.buildings[0].links.front().count = 4;
    site.growth.unnamed_links_per_year = 0.3;
    const StrandStudy study = study_strands(site);
    REQUIRE(study.sizes[0].spare_strands < 0);
    const SvgElement svg = curve_of(site, study);
    int dots = 0;
    for (const SvgElement* circle : svg.find("strand-curve-price")->all("circle"))
        dots += circle->title().empty() ? 0 : 1;
    for (const SvgElement* path : svg.find("strand-curve-price")->all("path"))
        dots += path->title().empty() ? 0 : 1;
    CHECK(dots == 3 * 3 - 2);
}
