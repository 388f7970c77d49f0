#include "doubt/replanning.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "doubt/reused_plans.hpp"
#include "doubt/support/open_sites.hpp"
#include "report/sweep_report.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

SweepOptions options_for(double gap, int threads = 1) {
    SweepOptions options;
    options.study.seconds = 60;
    options.study.threads = threads;
    options.gap = gap;
    return options;
}

SweptInput input(const std::string& key, double from, double to, int points) {
    const bool whole = key == "buildings" || key == "links" || key == "spare-strands";
    return {key, from, to, points, "", whole};
}

Sweep swept(const site_file::LoadedSite& site, const SweptInput& along, const SweepOptions& options) {
    Sweep result = sweep(*site.scenario, *site.varying, {along}, options);
    CHECK(result.violations.empty());
    CHECK(result.diagnostics.empty());
    return result;
}

/// Every total and bound of a sweep against every layout planned whole at each point.
void check_against_whole_plans(const site_file::LoadedSite& site, const Sweep& along, double worst) {
    for (const SweptPoint& point : along.points) {
        CAPTURE(along.inputs[0].key);
        CAPTURE(point.x);
        const SweptSite there = site_at(*site.scenario, *site.varying, along.inputs, {point.x});
        REQUIRE(there.scenario);
        const Study study = compare_layouts(*there.scenario, {.layouts = along.layouts, .seconds = 60});
        CHECK(point.winner.has_value() == study.comparison.cheapest.has_value());
        for (std::size_t layout = 0; layout < along.layouts.size(); ++layout) {
            CAPTURE(id_of(along.layouts[layout]));
            const LayoutResult& whole = study.comparison.layouts[layout];
            const SweptTotal& total = point.totals[layout];
            if (!whole.feasible()) {
                CHECK(total.total == no_plan);
                continue;
            }
            CHECK(total.bound <= whole.total.minor());
            CHECK(total.total >= whole.bound.minor());
            CHECK(static_cast<double>(total.total) <= worst * static_cast<double>(whole.total.minor()));
        }
        if (!point.proven) continue;
        REQUIRE(point.winner);
        const std::int64_t least =
            study.comparison.layouts[static_cast<std::size_t>(*study.comparison.cheapest)].total.minor();
        CHECK(point.totals[static_cast<std::size_t>(*point.winner)].total >= least);
        for (std::size_t rival = 0; rival < along.layouts.size(); ++rival) {
            const bool has_winner =
                static_cast<int>(rival) == *point.winner ||
                includes(along.layouts[rival], along.layouts[static_cast<std::size_t>(*point.winner)]);
            const LayoutResult& whole = study.comparison.layouts[rival];
            if (has_winner || !whole.feasible()) continue;
            CHECK(whole.total.minor() >= point.totals[static_cast<std::size_t>(*point.winner)].total);
        }
    }
}

}  // namespace

TEST_CASE("totals along lengths, links and strands are those of whole plans or nearly, and bounds stay below them") {
    const auto site = lakeside();
    check_against_whole_plans(site, swept(site, input("distance", 0.5, 3, 17), options_for(0.02)), 1.01);
    check_against_whole_plans(site, swept(site, input("links", 1, 6, 6), options_for(0.02)), 1.01);
    check_against_whole_plans(site, swept(site, input("spare-strands", 0, 40, 15), options_for(0.02)), 1.01);
    check_against_whole_plans(site, swept(site, input("rules.slack.rise", 0, 20, 9), options_for(0.02)), 1.01);
    check_against_whole_plans(site, swept(site, input("buildings", 1, 4, 4), options_for(0.02)), 1.01);
}

TEST_CASE("a rule that forbids plans of other points keeps them off") {
    // Chains of four buildings, made where they are allowed, are no plans where chains may have two.
    const auto site = lakeside();
    const Sweep hops = swept(site, input("rules.hop-limit", 1, 4, 4), options_for(0.001));
    check_against_whole_plans(site, hops, 1.001);
}

TEST_CASE("most points of a fine sweep are not planned whole, and say so") {
    const auto site = lakeside();
    const Sweep fine = swept(site, input("distance", 0.5, 3, 41), options_for(0.05));
    CHECK(fine.planned >= 5);
    CHECK(fine.planned < 20);
    int planned = 0;
    for (const SweptPoint& point : fine.points) {
        planned += point.planned ? 1 : 0;
        REQUIRE(point.winner);
        CHECK(point.proven);  // As where every layout is planned at each: chains cost 1 % more or above.
    }
    CHECK(planned <= fine.planned);
    std::string text = report::sweep_text(*site.scenario, fine);
    std::replace(text.begin(), text.end(), '\n', ' ');
    CHECK(text.find("the routes of all these plans were laid out again") != std::string::npos);
}

TEST_CASE("more spare strands never make a layout cheaper, and its bound never falls") {
    const auto site = lakeside();
    const Sweep spare = swept(site, input("spare-strands", 0, 60, 21), options_for(0.02));
    for (std::size_t point = 1; point < spare.points.size(); ++point) {
        for (std::size_t layout = 0; layout < spare.layouts.size(); ++layout) {
            CHECK(spare.points[point].totals[layout].bound >= spare.points[point - 1].totals[layout].bound);
            CHECK(spare.points[point].totals[layout].total >= spare.points[point - 1].totals[layout].total);
        }
    }
}

TEST_CASE("the same sweep over lengths comes out whatever the number of threads") {
    const auto site = lakeside();
    const SweptInput along = input("distance", 0.5, 3, 13);
    const std::string one = report::sweep_json(*site.scenario, swept(site, along, options_for(0.05)));
    CHECK(report::sweep_json(*site.scenario, swept(site, along, options_for(0.05, 3))) == one);
}

TEST_CASE("plans laid out again cost what their bill says, and those not below the limit are passed over") {
    const auto site = lakeside();
    const Study study = compare_layouts(*site.scenario, {.layouts = {LayoutKind::home_runs}, .seconds = 60});
    const LayoutResult& result = study.comparison.layouts.front();
    REQUIRE(result.feasible());
    ReusedPlans plans;
    CHECK(plans.cheapest(*site.scenario, 0, no_plan) == no_plan);
    plans.add(*result.plan);
    plans.add(*result.plan);
    CHECK(plans.size() == 1);
    CHECK(plans.cheapest(*site.scenario, 0, no_plan) == result.total.minor());
    CHECK(plans.cheapest(*site.scenario, 0, result.total.minor()) == no_plan);
    CHECK(plans.cheapest(*site.scenario, 1, no_plan) == no_plan);
    Scenario banned = *site.scenario;
    banned.segments[static_cast<std::size_t>(result.plan->trenches.front().segment)].ban = "closed";
    CHECK(plans.cheapest(banned, 0, no_plan) == no_plan);
}
