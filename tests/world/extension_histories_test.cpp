// Years of extensions on small random sites, every step by way of a plan file that is written and read again: buildings
// come and go, trunks are cut, chains grow.

#include <doctest/doctest.h>

#include "comparison/comparison.hpp"
#include "extension/extension.hpp"
#include "growth/built_from_file.hpp"
#include "layout/design.hpp"
#include "plan_file/making.hpp"
#include "plan_file/reader.hpp"
#include "report/plan_file_json.hpp"
#include "support/effort.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;

Scenario random_site(Dice& dice) {
    drawing::MapFamily family;
    family.places = static_cast<int>(dice.between(6, 8));
    family.segments = static_cast<int>(dice.between(family.places - 1, 9));
    family.buildings = 5;
    family.several_links = dice.one_in(2);
    Scenario site = drawing::random_map(dice, family);
    for (Segment& segment : site.segments) {
        if (dice.one_in(4)) segment.duct_room = static_cast<int>(dice.between(1, 4));
    }
    site.rules.termination = dice.one_in(2) ? Termination::spliced : Termination::factory;
    site.rules.spare.drop_spare_least = static_cast<int>(dice.between(0, 2));
    site.rules.spare.trunk_spare = Percent::from_percent(static_cast<double>(dice.between(0, 2)) * 25);
    site.rules.most_enclosures = 4;
    site.rules.hop_limit = 4;
    site.growth.headroom = Percent::from_percent(static_cast<double>(dice.between(0, 4)) * 50);
    for (EnclosureProduct& box : site.catalogue.enclosures)
        box.price = UnitPrice::from_minor(100);
    site.catalogue.splicing.rate_per_hour = UnitPrice::from_minor(100);
    return site;
}

/// The site with some of its buildings.
Scenario with_some(const Scenario& site, std::int64_t which) {
    Scenario some = site;
    some.buildings.clear();
    for (std::size_t b = 0; b < site.buildings.size(); ++b) {
        if ((which >> b & 1) != 0) some.buildings.push_back(site.buildings[b]);
    }
    return some;
}

/// Read again as anybody would.
plan_file::PlanFile read_again(const plan_file::PlanFile& file) {
    const auto read = plan_file::read_plan_file("plan.json", report::plan_file_json(file));
    std::string problems;
    for (const Diagnostic& problem : read.diagnostics)
        problems += to_text(problem) + "\n";
    REQUIRE_MESSAGE(read.plan, problems);
    return *read.plan;
}

struct Tally {
    int steps = 0;
    int cuts = 0;
    int made_anew = 0;
    int hung = 0;
    int lit_again = 0;
};

/// One step; nothing where the plan cannot be extended on that site.
std::optional<plan_file::PlanFile> extended(const Scenario& now, const plan_file::PlanFile& before, bool may_interrupt,
                                            Tally& tally) {
    const BuiltFromFile built = built_from_file(now, before);
    if (!built.built) return std::nullopt;
    const Extension extension = extend(now, *built.built, {.may_interrupt = may_interrupt});
    if (!extension.feasible) return std::nullopt;
    CHECK(extension.violations == std::vector<std::string>{});
    CHECK_FALSE(has_errors(extension.findings));
    CHECK(extension.bill.total() == extension.total);
    ++tally.steps;
    if (extension.interruption) ++(extension.interruption->made_anew ? tally.made_anew : tally.cuts);
    for (const Addition& addition : extension.additions) {
        tally.hung += addition.source.kind == Source::Kind::building ? 1 : 0;
        tally.lit_again += addition.source.cable >= 0 ? 1 : 0;
    }
    return read_again(extended_file(now, before, extension));
}

}  // namespace

TEST_CASE("through years of extensions every plan file is read again, breaks nothing, and extended by nothing stays") {
    Tally tally;
    for (unsigned number = 1; number <= static_cast<unsigned>(effort(150)); ++number) {
        CAPTURE(number);
        Dice dice(number);
        const Scenario site = random_site(dice);
        const LayoutKind kinds[] = {LayoutKind::trunk_one, LayoutKind::trunk_one, LayoutKind::daisy_chain,
                                    LayoutKind::ring};
        const LayoutKind kind = kinds[dice.between(0, 3)];
        Scenario first = with_some(site, dice.between(1, 30));
        // The enclosure stands far out, so that there is a trunk to cut.
        const auto far = static_cast<std::size_t>(dice.between(1, static_cast<std::int64_t>(site.places.size()) - 1));
        for (std::size_t p = 0; p < first.places.size(); ++p)
            first.places[p].enclosure_allowed = p == far;
        Design found = design(kind, first, {});
        if (!found.plan) continue;
        plan_file::PlanFile file = read_again(plan_file::plan_file_of(first, assess(first, std::move(found))));
        for (int year = 0; year < 5; ++year) {
            CAPTURE(year);
            const Scenario now = with_some(site, dice.between(1, 31));
            const auto next = extended(now, file, !dice.one_in(4), tally);
            if (!next) continue;
            file = *next;
            Tally again;
            const auto same = extended(now, file, true, again);
            REQUIRE(same);
            CHECK(report::plan_file_json(*same) == report::plan_file_json(file));
        }
    }
    MESSAGE("steps ", tally.steps, " cuts and gear ", tally.cuts, " made anew ", tally.made_anew, " hung ", tally.hung,
            " lit again ", tally.lit_again);
    CHECK(tally.steps > effort(150));
    CHECK(tally.cuts > effort(150) / 15);
    CHECK(tally.lit_again > effort(150) / 15);
}

}  // namespace spadework
