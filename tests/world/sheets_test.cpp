// Everything a crew is handed, on random sites and in every layout, held to what it promises by code of the test's own.

#include <algorithm>
#include <functional>
#include <map>
#include <set>
#include <tuple>

#include <doctest/doctest.h>

#include "certificate/support/certified_sites.hpp"
#include "comparison/verification.hpp"
#include "plan_file/making.hpp"
#include "plan_file/plan_on_site.hpp"
#include "plan_file/reader.hpp"
#include "report/plan_file_json.hpp"
#include "sheets/cable_order.hpp"
#include "sheets/crew_hours.hpp"
#include "sheets/materials.hpp"
#include "sheets/sheet_check.hpp"
#include "sheets/test_sheet.hpp"
#include "support/effort.hpp"

namespace spadework {
namespace {

using drawing::Dice;

constexpr LayoutKind kinds[] = {LayoutKind::home_runs, LayoutKind::trunk_one,   LayoutKind::trunk,
                                LayoutKind::mixed,     LayoutKind::daisy_chain, LayoutKind::ring};

struct PlannedSite {
    Scenario site;
    std::vector<LayoutResult> plans;  ///< Of each layout that can be built.
};

PlannedSite planned(Scenario site) {
    PlannedSite made{std::move(site), {}};
    for (const LayoutKind kind : kinds) {
        LayoutResult result = assess(made.site, design(kind, made.site, {.seconds = 5}));
        if (result.feasible()) made.plans.push_back(std::move(result));
    }
    return made;
}

/// Random sites with their plans, made once for all tests of this file.
const std::vector<PlannedSite>& random_plans() {
    static const std::vector<PlannedSite> sites = [] {
        std::vector<PlannedSite> made;
        for (int round = 0; round < effort(120); ++round) {
            Dice dice(3900 + static_cast<unsigned>(round));
            made.push_back(planned(drawing::random_certified_site(dice)));
        }
        return made;
    }();
    return sites;
}

/// Calls `look` with each plan that can be built on random sites.
void on_random_plans(const std::function<void(const Scenario&, const LayoutResult&)>& look) {
    std::size_t plans = 0;
    for (std::size_t round = 0; round < random_plans().size(); ++round) {
        CAPTURE(round);
        const PlannedSite& made = random_plans()[round];
        for (const LayoutResult& result : made.plans) {
            CAPTURE(std::string(id_of(result.layout)));
            look(made.site, result);
        }
        plans += made.plans.size();
    }
    CHECK(plans > random_plans().size());
}

const CableProduct& product_of(const Scenario& site, const PlannedCable& cable) {
    return site.catalogue.cables[static_cast<std::size_t>(cable.product)];
}

}  // namespace

TEST_CASE("the sheets of every layout hold what they promise, by the check that compare makes before it shows them") {
    on_random_plans([](const Scenario& site, const LayoutResult& result) {
        CHECK(violations(site, result) == std::vector<std::string>{});
        CHECK(sheet_violations(site, result) == std::vector<std::string>{});
    });
}

TEST_CASE("every strand ends somewhere and no adapter or port takes two") {
    on_random_plans([](const Scenario& site, const LayoutResult& result) {
        std::size_t laid = 0;
        for (const PlannedCable& cable : result.plan->cables)
            laid += static_cast<std::size_t>(product_of(site, cable).strands);
        CHECK(result.strand_map.size() == laid);
        std::set<std::tuple<PlaceIndex, Holder, Opening, bool>> adapters;
        std::map<std::tuple<BuildingIndex, int, int>, int> link_at_port;
        for (const MappedStrand& strand : result.strand_map) {
            for (const bool far : {false, true}) {
                const StrandEnd& end = far ? strand.far : strand.near;
                if (end.holder == Holder::stored) {
                    CHECK(strand.purpose != StrandPurpose::link);
                    continue;
                }
                const bool across = end.holder == Holder::enclosure && far;
                CHECK(adapters.insert({end.place, end.holder, end.adapter, across}).second);
                if (!end.port) continue;
                REQUIRE(strand.link);
                const PlannedLink& link = result.plan->links[static_cast<std::size_t>(*strand.link)];
                const BuildingIndex room = far ? link.building : link.from.value_or(-1);
                const auto taken =
                    link_at_port.emplace(std::tuple(room, end.port->piece, end.port->number), *strand.link);
                CHECK(taken.first->second == *strand.link);
            }
        }
    });
}

TEST_CASE("every cable is ordered as long as it is needed, and the orders add up to the bill") {
    on_random_plans([](const Scenario& site, const LayoutResult& result) {
        const CableOrder order = cable_order(site, *result.plan);
        std::vector<int> ordered(result.plan->cables.size(), 0);
        for (const OrderRow& row : order.rows) {
            CHECK(row.ordered == row.length * row.pieces);
            CHECK(row.ordered >= row.needed);
            for (const int c : row.cables) {
                const CableLengths& lengths = result.plan->cables[static_cast<std::size_t>(c)].lengths;
                CHECK(lengths.ordered >= lengths.with_slack);
                CHECK(lengths.with_slack >= lengths.route);
                CHECK(row.length == lengths.ordered);
                ++ordered[static_cast<std::size_t>(c)];
            }
        }
        CHECK(std::ranges::all_of(ordered, [](int times) { return times == 1; }));
        Money billed;
        for (const CostLine& line : result.bill.lines) {
            if (line.category == Category::cable && line.labour == WorkTime()) billed += line.amount;
        }
        CHECK(order.amount == billed);
        std::size_t on_reels = 0;
        for (const OrderRow& reel : order.reels) {
            CHECK(reel.ordered >= reel.needed);
            on_reels += reel.cables.size();
        }
        CHECK((order.reels.empty() || on_reels == result.plan->cables.size()));
        if (!order.reels.empty()) CHECK(order.total_of_reels().amount + order.saved_by_reels == order.amount);
    });
}

TEST_CASE("materials and hours of the sheets are those of the bill") {
    on_random_plans([](const Scenario& site, const LayoutResult& result) {
        Money bought;
        for (const Material& material : materials(result.bill))
            bought += material.amount;
        Money wanted;
        for (const CostLine& line : result.bill.lines) {
            const bool goods = line.category >= Category::ducts && line.category <= Category::hub_gear;
            if (goods && line.labour == WorkTime()) wanted += line.amount;
        }
        CHECK(bought == wanted);
        const CrewHours hours = crew_hours(result.bill, site.labour);
        WorkTime by_task;
        for (const CrewTask& task : hours.tasks)
            by_task += task.time;
        CHECK(by_task == result.bill.labour());
        CHECK(hours.total == result.bill.labour());
    });
}

TEST_CASE("the test sheet has every strand of every link, through its cables in order") {
    on_random_plans([](const Scenario& site, const LayoutResult& result) {
        std::size_t strands = 0;
        for (const PlannedLink& link : result.plan->links)
            strands += static_cast<std::size_t>(link.strands);
        const auto sheet = test_sheet(site, *result.plan, result.strand_map);
        CHECK(sheet.size() == strands);
        for (const StrandTest& test : sheet) {
            const PlannedLink& link = result.plan->links[static_cast<std::size_t>(test.link)];
            REQUIRE(test.strands.size() == link.cables.size());
            for (std::size_t c = 0; c < link.cables.size(); ++c)
                CHECK(result.strand_map[test.strands[c]].cable == link.cables[c]);
            CHECK(test.glass >= link.glass);
            for (const LossLimit& limit : test.limits)
                CHECK(limit.least_db <= limit.pass_db);
        }
    });
}

TEST_CASE("plan files of random plans are read as they were written, and their plans found again") {
    on_random_plans([](const Scenario& site, const LayoutResult& result) {
        const std::string text = report::plan_file_json(plan_file::plan_file_of(site, result));
        const auto read = plan_file::read_plan_file("plan.json", text);
        for (const Diagnostic& diagnostic : read.diagnostics)
            MESSAGE(to_text(diagnostic));
        REQUIRE(read.plan);
        CHECK(report::plan_file_json(*read.plan) == text);
        const auto found = plan_file::plan_of(site, *read.plan);
        REQUIRE(found.plan);
        LayoutResult again = result;
        again.plan = found.plan;
        CHECK(violations(site, again).empty());
        CHECK(report::plan_file_json(plan_file::plan_file_of(site, again)) == text);
    });
}

}  // namespace spadework
