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
        CHECK(has_text(price, "Price of the cable (EUR a m)"));
        for (const char* text : {"0.60", "1.00", "1.60"})
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
          doctest::Approx(100.0 / 60).epsilon(0.002));
    CHECK((bottom - dots[2]->number("cy")) / (bottom - dots[0]->number("cy")) ==
          doctest::Approx(160.0 / 60).epsilon(0.002));
    CHECK_FALSE(has_text(svg, "Recommended"));
    CHECK(has_text(svg, "No size meets the policy", "desc"));
}

TEST_CASE("a site in feet has prices a foot") {
    Scenario site = small_site::site();
    site.feet = true;
    const SvgElement svg = curve_of(site, study_strands(site));
    CHECK(has_text(svg, "Price of the cable (EUR a ft)"));
    CHECK(has_text(svg, "0.30"));  // 1.00 a metre is 0.3048 a foot.
    CHECK(has_text(svg, "EUR 0.3048 a ft", "desc"));
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
