#include "survey/verification.hpp"

#include <doctest/doctest.h>

#include "support/drawn_things.hpp"

using namespace spadework;
using namespace spadework::survey;

namespace {

Survey small_survey() {
    SurveyOptions options;
    options.hub = "hub";
    Diagnostics diagnostics;
    const auto survey = survey_maps({map_of({line("street", {{0, 0}, {100, 0}, {200, 40}}, {{"highway", "path"}}),
                                             house("hub", 0, 20), house("shed", 150, 40)})},
                                    shipped_table(), options, diagnostics);
    REQUIRE(survey);
    return *survey;
}

bool is_refused(const Survey& survey) {
    return !violations_of(survey.site, survey.findings).empty();
}

}  // namespace

TEST_CASE("a survey passes its verification, and any change to it does not") {
    const Survey good = small_survey();
    CHECK(violations_of(good.site, good.findings).empty());
    Survey bad = good;
    bad.site.segments[0].metres *= 1.01;
    CHECK(is_refused(bad));
    bad = good;
    bad.site.places[1].id = bad.site.places[0].id;
    CHECK(is_refused(bad));
    bad = good;
    bad.site.segments.back().ban = "closed";
    CHECK(is_refused(bad));
    bad = good;
    bad.site.segments[0].polyline.back().x += 0.001;
    CHECK(is_refused(bad));
    bad = good;
    bad.findings.grounds[0].metres += 1;
    CHECK(is_refused(bad));
    bad = good;
    bad.site.segments.pop_back();
    CHECK(is_refused(bad));
}
