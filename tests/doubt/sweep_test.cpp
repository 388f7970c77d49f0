#include "doubt/sweep.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "doubt/bound_chord.hpp"
#include "doubt/support/open_sites.hpp"
#include "report/sweep_report.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

SweepOptions options_for(std::vector<LayoutKind> layouts = {}) {
    SweepOptions options;
    options.study.layouts = std::move(layouts);
    options.study.seconds = 60;
    options.gap = 0.001;
    return options;
}

SweptInput input(const std::string& key, double from, double to, int points, const std::string& unit = "") {
    return {key, from, to, points, unit, key == "buildings" || key == "links"};
}

Sweep swept(const site_file::LoadedSite& site, const SweptInput& along, const SweepOptions& options) {
    Sweep result = sweep(*site.scenario, *site.varying, {along}, options);
    CHECK(result.violations.empty());
    CHECK(result.diagnostics.empty());
    CHECK_FALSE(result.interrupted);
    return result;
}

LayoutKind winner(const Sweep& sweep, std::size_t point) {
    REQUIRE(sweep.points[point].winner);
    return sweep.layouts[static_cast<std::size_t>(*sweep.points[point].winner)];
}

/// Where home runs give way to a trunk; the first point where it is so at once, and beyond the last where never.
double change_to_trunk(const Sweep& sweep) {
    if (winner(sweep, 0) != LayoutKind::home_runs) return sweep.inputs[0].from;
    if (sweep.changes.empty()) return sweep.inputs[0].to + 1;
    return (sweep.changes[0].from + sweep.changes[0].to) / 2;
}

/// One long way from the hub to a corner where so many buildings stand, each with a lateral of its own: what digging
/// costs is the same for home runs and a trunk, since all share the way. The trunk saves cable and pays for its
/// enclosure.
std::string row_site(int buildings, const std::string& dig = "0", const std::string& cable_4 = "1.00",
                     const std::string& cable_12 = "1.40", const std::string& post = "400") {
    std::string text =
        "format: 1\nsite: Row\ncurrency: EUR\nmap:\n  places:\n    - {id: hub, at: [0, 0]}\n    - {id: "
        "corner, kind: handhole, at: [300, 0]}\n";
    std::string segments = "  segments:\n    - {id: way, from: hub, to: corner, ground: field}\n";
    std::string list = "buildings:\n";
    for (int b = 0; b < buildings; ++b) {
        const std::string id = "b" + std::to_string(b);
        text += "    - {id: " + id + ", at: [" + std::to_string(310 + b) + ", " + std::to_string(10 + 3 * b) + "]}\n";
        segments += "    - {id: to-" + id + ", from: corner, to: " + id + ", ground: field}\n";
        list += "  - {id: " + id + ", links: [{rate: 1G}]}\n";
    }
    return text + segments + "grounds:\n  field: {methods: [{id: cut, kind: open-cut, plant: " + dig +
           ", depth: 0.6, pull: 0}]}\nhub: {place: hub}\n" + list +
           "catalogue:\n  cables:\n    - {id: cable-4, strands: 4, price: " + cable_4 +
           ", end: 20, step: 1, longest: 20000, diameter: 0.007}\n    - {id: cable-24, strands: 24, price: " +
           cable_12 +
           ", end: 60, step: 1, longest: 20000, diameter: 0.009}\n  enclosures:\n    - {id: post, adapters: 24, "
           "price: " +
           post +
           ", install-hours: 0}\n  optics:\n    - {id: lx10, standard: 1000BASE-LX10, price: 20}\n  building-gear:\n   "
           " - {id: box, "
           "kind: ethernet-switch, optic-ports: 1, copper-ports: 4, fastest-rate: 1G, price: 100, install-hours: 0}\n  "
           "hub-gear:\n    "
           "- {id: core, optic-ports: 48, fastest-rate: 1G, price: 500, install-hours: 0}\n  patch-cords:\n    - {id: "
           "cord, strands: 2, "
           "price: 5}\n  splicing: {pigtail: 5, hours-per-splice: 0.2, set-up-hours: 1, rate: 60}\nlabour: "
           "{groundworks-rate: 60, "
           "installer-rate: 0, plug-minutes: 0, test-minutes: 0}\nrules: {max-enclosures: 1, slack: "
           "{ordering-allowance: 0}}\n";
}

site_file::LoadedSite row(const std::string& text) {
    using namespace site_file::testing;
    site_file::LoadedSite site = site_file::read_site({"row.yaml", text}, loader_of({}), site_file::Varying::always);
    if (!site.scenario) throw std::runtime_error(said(site));
    return site;
}

const std::vector<LayoutKind> runs_or_trunk = {LayoutKind::home_runs, LayoutKind::trunk};

}  // namespace

TEST_CASE("where cable costs nothing home runs win, and nothing changes with the price of digging a shared way") {
    // Both layouts dig the same trenches; a trunk still has its enclosure and its ends to pay.
    const auto site = row(row_site(6, "10", "0", "0"));
    const Sweep digging =
        swept(site, input("grounds[field].methods[cut].plant", 0, 200, 5, "EUR a m"), options_for(runs_or_trunk));
    for (std::size_t point = 0; point < digging.points.size(); ++point) {
        CHECK(winner(digging, point) == LayoutKind::home_runs);
        CHECK(digging.points[point].proven);
        const auto& totals = digging.points[point].totals;
        CHECK(totals[1].total - totals[0].total ==
              digging.points[0].totals[1].total - digging.points[0].totals[0].total);
    }
    CHECK(digging.changes.empty());
}

TEST_CASE("with free digging home runs win once cable is cheap enough, and the change is where sums say") {
    const auto site = row(row_site(6));
    const Sweep cable =
        swept(site, input("catalogue.cables[cable-4].price", 0, 2, 9, "EUR a m"), options_for(runs_or_trunk));
    CHECK(winner(cable, 0) == LayoutKind::home_runs);
    CHECK(winner(cable, 8) == LayoutKind::trunk);
    REQUIRE(cable.changes.size() == 1);
    CHECK(cable.changes[0].proven());
    CHECK(*cable.changes[0].proven_from <= cable.changes[0].from);
    CHECK(*cable.changes[0].proven_to >= cable.changes[0].to);
    // By hand: six home runs in place of six drops are 6 x 300 m longer; the trunk has 300 m of way and 2 x (2 + 3) m
    // of rise and coil at 1.40, two ends of 60, and its post of 400. Tax and contingency are the same share of both.
    const double break_even = ((300 + 10) * 1.40 + 2 * 60 + 400) / (6 * 300.0);
    CHECK(cable.changes[0].from == doctest::Approx(break_even).epsilon(0.02));
}

TEST_CASE("the break-even moves the right way with distance and with the number of buildings") {
    const auto change_at = [](int buildings) {
        const auto site = row(row_site(buildings, "5"));
        return change_to_trunk(swept(site, input("distance", 0.1, 4, 14), options_for(runs_or_trunk)));
    };
    // More buildings share one trunk, which pays the sooner.
    const double few = change_at(3);
    const double more = change_at(5);
    const double most = change_at(9);
    CHECK(few > more);
    CHECK(more > most);
    // The same the other way round: with more buildings the winner goes from home runs to the trunk.
    const auto site = row(row_site(9, "5"));
    const Sweep count = swept(site, input("buildings", 1, 9, 9), options_for(runs_or_trunk));
    CHECK(winner(count, 0) == LayoutKind::home_runs);
    CHECK(winner(count, 8) == LayoutKind::trunk);
    REQUIRE(count.changes.size() == 1);
    CHECK(count.changes[0].to == count.changes[0].from + 1);
}

TEST_CASE("a dearer post moves the break-even away from the trunk") {
    const auto change_at = [](const std::string& post) {
        const auto site = row(row_site(4, "5", "1.00", "1.40", post));
        return change_to_trunk(swept(site, input("distance", 0.1, 8, 14), options_for(runs_or_trunk)));
    };
    CHECK(change_at("200") < change_at("400"));
    CHECK(change_at("400") < change_at("900"));
}

TEST_CASE("the price of ground moves the break-even where one layout digs more") {
    // Lakeside's ring needs the road as a second way; the trunk does not: the dearer the road, the more the trunk is
    // ahead.
    const auto site = lakeside();
    const SweepOptions options = options_for({LayoutKind::trunk, LayoutKind::ring});
    const Sweep road =
        swept(site, input("grounds[asphalt].methods[open cut].reinstatement", 0, 200, 3, "EUR a m"), options);
    const auto ahead = [&](std::size_t point) {
        return road.points[point].totals[1].total - road.points[point].totals[0].total;
    };
    CHECK(ahead(0) <= ahead(1));
    CHECK(ahead(1) <= ahead(2));
    CHECK(ahead(0) < ahead(2));
}

TEST_CASE(
    "plans priced between points are no dearer than those planned there are sure to be, and bounds stay below them") {
    const auto site = lakeside();
    const SweptInput rate = input("labour.groundworks-rate", 20, 140, 7, "EUR an hour");
    const Sweep priced = swept(site, rate, options_for());
    CHECK(priced.prices_alone);
    for (const SweptPoint& point : priced.points) {
        Scenario there = *site.scenario;
        CHECK(site.varying->set_keys({{rate.key, point.x}}, there).empty());
        const Study study = compare_layouts(there, {.layouts = priced.layouts, .seconds = 60});
        for (std::size_t layout = 0; layout < priced.layouts.size(); ++layout) {
            CAPTURE(point.x);
            CAPTURE(id_of(priced.layouts[layout]));
            CHECK(point.totals[layout].bound <= study.comparison.layouts[layout].total.minor());
            CHECK(point.totals[layout].total >= study.comparison.layouts[layout].bound.minor());
            CHECK(static_cast<double>(point.totals[layout].total) <=
                  1.01 * static_cast<double>(study.comparison.layouts[layout].total.minor()));
        }
    }
}

TEST_CASE("a bound between two others is their chord less what rounding makes, and nothing beyond them") {
    const std::vector<ProvedAt> proved = {{10, 1'000'000}, {20, 2'000'000}, {40, 2'200'000}};
    CHECK(bound_between(proved, 10, 5) == 1'000'000);
    CHECK(bound_between(proved, 15, 5) == 1'499'988);
    CHECK(bound_between(proved, 30, 5) == 2'099'988);
    CHECK(bound_between(proved, 9, 5) == 0);
    CHECK(bound_between(proved, 41, 5) == 0);
    CHECK(bound_between({}, 1, 5) == 0);
    CHECK(most_rounding(*lakeside().scenario) > 50);
}

TEST_CASE("the same sweep comes out whatever the number of threads") {
    const auto site = lakeside();
    const SweptInput rate = input("labour.groundworks-rate", 20, 140, 9, "EUR an hour");
    SweepOptions options = options_for();
    options.gap = 0.05;
    const std::string one = report::sweep_json(*site.scenario, swept(site, rate, options));
    options.study.threads = 3;
    CHECK(report::sweep_json(*site.scenario, swept(site, rate, options)) == one);
}

TEST_CASE("two inputs make a grid whose edges are the sweeps along one") {
    const auto site = row(row_site(6, "5"));
    const SweptInput cable = input("catalogue.cables[cable-4].price", 0, 2, 5, "EUR a m");
    const SweptInput post = input("catalogue.enclosures[post].price", 100, 900, 3, "EUR");
    const Sweep grid = sweep(*site.scenario, *site.varying, {cable, post}, options_for(runs_or_trunk));
    REQUIRE(grid.points.size() == 15);
    CHECK(grid.prices_alone);
    const auto cheap_post = row(row_site(6, "5", "1.00", "1.40", "100"));
    const Sweep edge = swept(cheap_post, cable, options_for(runs_or_trunk));
    for (std::size_t point = 0; point < 5; ++point)
        CHECK(grid.points[point].totals[1].total == edge.points[point].totals[1].total);
    // Every bound of the grid, interpolated or not, is below what the layout is known to cost there.
    for (const SweptPoint& point : grid.points) {
        for (const SweptTotal& total : point.totals) {
            CHECK(total.bound > 0);
            CHECK(total.bound <= total.total);
        }
    }
}

TEST_CASE("what is wrong with an input is told") {
    const auto site = lakeside();
    for (const SweptInput& wrong :
         {input("rules.hop-limit", 1, 4, 3), input("labour.installer-rate", -5, 5, 2, "EUR an hour"),
          input("buildings", 1, 9, 9), input("distance", 0, 1, 2)}) {
        const Sweep result = sweep(*site.scenario, *site.varying, {wrong}, options_for(runs_or_trunk));
        CAPTURE(wrong.key);
        REQUIRE_FALSE(result.diagnostics.empty());
        CHECK(to_text(result.diagnostics[0]).find("would be") != std::string::npos);
    }
}
