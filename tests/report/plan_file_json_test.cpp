#include "report/plan_file_json.hpp"

#include <doctest/doctest.h>

#include "plan_file/making.hpp"
#include "plan_file/plan_on_site.hpp"
#include "plan_file/reader.hpp"
#include "report/support/crossroads_comparison.hpp"
#include "support/small_site.hpp"

namespace spadework::report {
namespace {

LayoutResult result_of(const Scenario& site, Plan plan) {
    LayoutResult result;
    result.layout = plan.layout;
    result.bill = price(site, plan);
    result.total = result.bill.total();
    result.strand_map = map_strands(site, plan, tia_598_order());
    result.plan = std::move(plan);
    return result;
}

std::string written(const Scenario& site, const LayoutResult& result) {
    return plan_file_json(plan_file::plan_file_of(site, result));
}

plan_file::PlanFile read(const std::string& text) {
    const auto read = plan_file::read_plan_file("plan.json", text);
    for (const Diagnostic& diagnostic : read.diagnostics)
        MESSAGE(to_text(diagnostic));
    REQUIRE(read.plan);
    return *read.plan;
}

/// Writes, reads, writes, and finds the plan again on its site.
void check_there_and_back(const Scenario& site, const LayoutResult& result) {
    const std::string text = written(site, result);
    const plan_file::PlanFile file = read(text);
    CHECK(plan_file_json(file) == text);
    const plan_file::PlanOnSite again = plan_file::plan_of(site, file);
    CHECK(again.missing.empty());
    CHECK(again.changed.empty());
    REQUIRE(again.plan);
    CHECK(written(site, result_of(site, *again.plan)) == text);
}

}  // namespace

TEST_CASE("a plan file is written, read and written again with the same bytes, and found again on its site") {
    const Scenario site = small_site::site();
    for (const Plan& plan :
         {small_site::home_runs(site), small_site::trunk(site), small_site::chain(site), small_site::ring(site)}) {
        CAPTURE(std::string(id_of(plan.layout)));
        check_there_and_back(site, result_of(site, plan));
    }
}

TEST_CASE("spliced ends, feet, ducts, poles and ports that are there already go into a plan file and come back") {
    Scenario site = small_site::site();
    site.feet = true;
    site.rules.termination = Termination::spliced;
    site.hub.free_optic_ports = 1;
    site.segments[small_site::lane].duct_room = 2;
    site.segments[small_site::path].pole_line = true;
    Plan plan = small_site::home_runs(site);
    plan.trenches = {{small_site::drive, 0}, {small_site::lane, 1}, {small_site::path, 1}};
    plan.cables[0].steps = {{small_site::drive, 0}, {small_site::path, 1}};
    plan.cables[1].steps = {{small_site::drive, 0}, {small_site::lane, 1}};
    const LayoutResult result = result_of(site, plan);
    check_there_and_back(site, result);
    CHECK(written(site, result).find("\"existing duct\"") != std::string::npos);
    CHECK(written(site, result).find("\"pole line\"") != std::string::npos);
}

TEST_CASE("whatever text a site's names are made of, a plan file of it reads back as it was written") {
    const Scenario site = crossroads::hostile_site();
    for (const LayoutResult& result : crossroads::comparison_of(site).layouts) {
        if (!result.feasible()) continue;
        const std::string text = written(site, result);
        CHECK(plan_file_json(read(text)) == text);
    }
}

TEST_CASE("a plan is found again on a site that has grown, though every index has moved") {
    const Scenario site = small_site::site();
    const LayoutResult result = result_of(site, small_site::trunk(site));
    const plan_file::PlanFile file = read(written(site, result));
    Scenario grown = site;
    // A building before all others by id, on a segment of its own.
    grown.places.insert(grown.places.begin(), small_site::place("annex", PlaceKind::building, 0, 40));
    for (Segment& segment : grown.segments) {
        ++segment.from;
        ++segment.to;
    }
    ++grown.hub.place;
    for (Building& building : grown.buildings)
        ++building.place;
    grown.buildings.insert(grown.buildings.begin(), small_site::building("annex", 0, {}));
    Segment alley = grown.segments.front();
    alley.id = "alley";
    alley.to = 0;
    grown.segments.insert(grown.segments.begin(), alley);
    const plan_file::PlanOnSite found = plan_file::plan_of(grown, file);
    CHECK(found.missing.empty());
    REQUIRE(found.plan);
    CHECK(found.plan->links[0].building == small_site::barn + 1);
    CHECK(found.plan->enclosures[0].place == small_site::gate + 1);
    CHECK(found.plan->cables[1].steps == std::vector<Step>{{small_site::path + 1, 0}});
    CHECK(written(grown, result_of(grown, *found.plan)) == written(site, result));
}

TEST_CASE("what the site no longer has is named, all of it at once") {
    const Scenario site = small_site::site();
    const plan_file::PlanFile file = read(written(site, result_of(site, small_site::trunk(site))));
    Scenario shrunk = site;
    shrunk.segments.pop_back();
    shrunk.buildings.pop_back();
    shrunk.catalogue.enclosures.clear();
    shrunk.grounds[0].methods[0].id = "plough";
    const plan_file::PlanOnSite found = plan_file::plan_of(shrunk, file);
    CHECK_FALSE(found.plan);
    CHECK(found.missing == std::vector<std::string>{"Segment 'drive' can no longer be used by 'open-cut'.",
                                                    "Segment 'lane' can no longer be used by 'open-cut'.",
                                                    "The site has no building 'mill'.",
                                                    "The site has no enclosure product 'post-8'.",
                                                    "The site has no segment 'path'."});
}

TEST_CASE("a segment that has another length now is told, and the plan stands as it was laid") {
    const Scenario site = small_site::site();
    const plan_file::PlanFile file = read(written(site, result_of(site, small_site::trunk(site))));
    Scenario surveyed = site;
    surveyed.segments[small_site::lane].length = Length::from_metres(51);
    const plan_file::PlanOnSite found = plan_file::plan_of(surveyed, file);
    CHECK(found.changed == std::vector<std::string>{"Segment 'lane' is 51000 mm long now, 50000 mm in the plan."});
    REQUIRE(found.plan);
    CHECK(found.plan->cables[2].lengths.route == Length::from_metres(50));
}

}  // namespace spadework::report
