// Open ground from the site file to the plan: what opening lawns may and may not do to the cheapest plan.

#include <random>
#include <string>

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "open_ground/straight_lines.hpp"
#include "site_file/site_texts.hpp"
#include "study/straightening.hpp"
#include "study/study.hpp"
#include "support/effort.hpp"

using namespace spadework;
using namespace spadework::site_file::testing;

namespace {

/// A walk around a garden of 80 by 60 m with four buildings on it, in three grounds with odd prices and set-up costs.
class RandomGarden {
public:
    explicit RandomGarden(std::uint64_t number) : random_(number) {
        walks_ = "map:\n  places:\n";
        const int places = 8;
        for (int i = 0; i < places; ++i) {
            const Position at = around(i * 280.0 / places + below(20));
            walks_ += fmt::format("    - {{id: p{}, at: [{:.2f}, {:.2f}]}}\n", i, at.x, at.y);
        }
        walks_ += "  segments:\n";
        const char* grounds[] = {"paving", "gravel", "grass"};
        for (int i = 0; i < places; ++i)
            walks_ += fmt::format("    - {{id: walk-{}, from: p{}, to: p{}, ground: {}}}\n", i, i, (i + 1) % places,
                                  grounds[random_() % 3]);
    }

    [[nodiscard]] std::string site(bool open) {
        return "format: 1\nsite: Garden\ncurrency: EUR\n" + walks_ + (open ? areas() : "") + R"(grounds:
  paving: {methods: [{id: open cut, kind: open-cut, labour: 0.45, plant: 6.07, reinstatement: 21.9, depth: 0.6}]}
  gravel: {methods: [{id: open cut, kind: open-cut, labour: 0.25, plant: 7.331, depth: 0.6, duct: 1.4},
                     {id: narrow, kind: narrow-trench, labour: 0.1, plant: 5, set-up: 300, depth: 0.4, duct: 1.4}]}
  grass: {methods: [{id: open cut, kind: open-cut, labour: 0.2, plant: 8.513, depth: 0.6, duct: 1.4},
                    {id: plough, kind: plough, labour: 0.06, plant: 9, set-up: 350, depth: 0.6, duct: 1.4}]}
hub: {place: p0}
buildings:
  - {id: p2, links: [{rate: 1G}]}
  - {id: p3, links: [{rate: 1G}]}
  - {id: p5, links: [{rate: 1G}]}
  - {id: p6, links: [{rate: 1G}]}
rules: {open-ground: {spacing: 9}}
)" + prices_text();
    }

private:
    double below(int limit) { return static_cast<double>(random_() % static_cast<std::uint64_t>(limit * 100)) / 100; }

    /// The point so far along the garden's edge, a little outside it.
    static Position around(double metres) {
        if (metres < 80) return {metres, -1};
        if (metres < 140) return {81, metres - 80};
        if (metres < 220) return {220 - metres, 61};
        return {-1, 280 - metres};
    }

    std::string areas() {
        const double east = 20 + below(30);
        const double north = 15 + below(20);
        return fmt::format(R"(  areas:
    - {{id: lawn, use: open-ground, ground: grass, border: [[0, 0], [80, 0], [80, 60], [0, 60]]}}
    - {{id: pond, use: obstacle, bars-segments: false, border: [[{0}, {1}], [{2}, {1}], [{2}, {3}], [{0}, {3}]]}}
)",
                           east, north, east + 5 + below(20), north + 5 + below(15));
    }

    std::mt19937_64 random_;
    std::string walks_;
};

}  // namespace

TEST_CASE("opening a lawn never makes the cheapest plan dearer, and straight lines never do either") {
    int cheaper = 0;
    for (std::uint64_t number = 1; number <= static_cast<std::uint64_t>(effort(12)); ++number) {
        CAPTURE(number);
        RandomGarden garden(number);
        const auto walks = read_text(garden.site(false));
        const auto lawn = read_text(garden.site(true));
        REQUIRE_MESSAGE(walks.scenario, said(walks));
        REQUIRE_MESSAGE(lawn.scenario, said(lawn));
        const StudyOptions options{.layouts = {LayoutKind::home_runs}, .seconds = 4.0};
        const Study on_walks = compare_layouts(*walks.scenario, options);
        const Study on_lawn = compare_layouts(*lawn.scenario, options);
        const Straightened straight = straighten(*lawn.scenario, options);
        StudyOptions again = options;
        again.known = straight.known;
        const Study on_lines = compare_layouts(straight.scenario, again);
        for (const Study* study : {&on_walks, &on_lawn, &on_lines})
            CHECK(study->violations.empty());
        const LayoutResult& before = on_walks.comparison.layouts[0];
        const LayoutResult& after = on_lawn.comparison.layouts[0];
        const LayoutResult& with_lines = on_lines.comparison.layouts[0];
        CHECK(after.bound <= before.total);  // No plan of the opened site is proved dearer than what there was before.
        CHECK(with_lines.bound <= after.total);
        CHECK(after.total <= before.total);
        CHECK(with_lines.total <= after.total);
        cheaper += after.total < before.total ? 1 : 0;
    }
    CHECK(cheaper > effort(6));
}

TEST_CASE("a plan of the first round stays where the second finds none cheaper") {
    RandomGarden garden(3);
    const auto lawn = read_text(garden.site(true));
    REQUIRE(lawn.scenario);
    const Straightened straight = straighten(*lawn.scenario, {.layouts = {LayoutKind::home_runs}, .seconds = 4.0});
    REQUIRE(straight.known.size() == 1);
    StudyOptions no_time{.layouts = {LayoutKind::home_runs}, .seconds = 1e-9};
    no_time.known = straight.known;
    const Study study = compare_layouts(straight.scenario, no_time);
    CHECK(study.violations.empty());
    CHECK(study.comparison.layouts[0].feasible());
}
