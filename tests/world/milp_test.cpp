// Small sites as mixed integer programs, written as text and solved by general solvers of the system's packages, must
// come out at our totals to the cent.

#include <doctest/doctest.h>
#include <fmt/format.h>

#include "comparison/comparison.hpp"
#include "layout/design.hpp"
#include "support/effort.hpp"
#include "world/support/own_prices.hpp"
#include "world/support/programs.hpp"
#include "world/support/small_maps.hpp"

namespace spadework {
namespace {

using drawing::Dice;
using drawing::MapFamily;
using own::Cents;

/// A site without contingency and tax, priced in whole cents a metre, so that its total is a linear function.
Scenario plain_site(Dice& dice) {
    MapFamily family;
    family.places = static_cast<int>(dice.between(6, 12));
    family.segments = static_cast<int>(dice.between(family.places, 18));
    family.buildings = static_cast<int>(dice.between(2, 5));
    family.dearest_ground = dice.one_in(2) ? 5000 : 400;
    return drawing::random_map(dice, family);
}

struct Wanted {
    int from = 0;  ///< Place, or -1 for the enclosure wherever it is.
    int to = 0;    ///< Place.
    Cents per_metre = 0;
};

Cents cable_cost(const Scenario& site, int strands, int in_use, std::int64_t metres) {
    own::Run run;
    run.millimetres = metres * 1000;
    return *own::cable(site, strands, in_use, run);
}

/// Flows of one unit from `from` to `to` for everything wanted, over segments that open once:
///   min  sum opening * y_s + sum per_metre * length * (f + b) + sum extra * z_p
///   f, b <= y;  flow balance at every place;  sum z = 1 where the enclosure stands.
class FlowProgram {
public:
    FlowProgram(const Scenario& site, std::vector<Wanted> wanted, Cents constant)
        : site_(site), wanted_(std::move(wanted)) {
        objective_ = fmt::format("{} one", constant);
        for (const Wanted& w : wanted_)
            sited_ = sited_ || w.from < 0;
    }

    std::string text() {
        rules_ = " c_one: one = 1\n";
        for (std::size_t s = 0; s < site_.segments.size(); ++s)
            add_segment(s);
        for (std::size_t k = 0; k < wanted_.size(); ++k)
            add_balances(k);
        if (sited_) add_places();
        return "Minimize\n cost: " + objective_ + "\nSubject To\n" + rules_ + "Binary\n" + binaries_ + "End\n";
    }

private:
    void add_segment(std::size_t s) {
        const Segment& segment = site_.segments[s];
        objective_ += fmt::format("\n + {} y{}", own::ways(site_, static_cast<int>(s)).front().opening, s);
        binaries_ += fmt::format(" y{}\n", s);
        for (std::size_t k = 0; k < wanted_.size(); ++k) {
            const Cents along = wanted_[k].per_metre * (segment.length.millimetres() / 1000);
            objective_ += fmt::format("\n + {0} f{1}_{2} + {0} b{1}_{2}", along, k, s);
            rules_ += fmt::format(" u{0}_{1}: f{0}_{1} + b{0}_{1} - y{1} <= 0\n", k, s);
        }
    }

    void add_balances(std::size_t k) {
        for (int p = 0; p < static_cast<int>(site_.places.size()); ++p) {
            std::string sum;
            for (std::size_t s = 0; s < site_.segments.size(); ++s) {
                const Segment& segment = site_.segments[s];
                if (segment.from == p) sum += fmt::format(" + b{0}_{1} - f{0}_{1}", k, s);
                if (segment.to == p) sum += fmt::format(" + f{0}_{1} - b{0}_{1}", k, s);
            }
            if (wanted_[k].from < 0) sum += fmt::format(" + z{}", p);
            const int arrives = (wanted_[k].to == p ? 1 : 0) - (wanted_[k].from == p ? 1 : 0);
            rules_ += fmt::format(" n{}_{}:{} + 0 one = {}\n", k, p, sum, arrives);
        }
    }

    void add_places() {
        std::string sum;
        for (std::size_t p = 0; p < site_.places.size(); ++p) {
            sum += fmt::format(" + z{}", p);
            objective_ += fmt::format("\n + {} z{}", site_.places[p].enclosure_extra.minor(), p);
            binaries_ += fmt::format(" z{}\n", p);
            if (!site_.places[p].enclosure_allowed) rules_ += fmt::format(" barred{0}: z{0} = 0\n", p);
        }
        rules_ += " c_sites:" + sum + " = 1\n";
    }

    const Scenario& site_;
    std::vector<Wanted> wanted_;
    bool sited_ = false;
    std::string objective_;
    std::string rules_;
    std::string binaries_;
};

/// What does not depend on the routes: gear, links, ends of the buildings' cables, hub, mobilisation.
Cents constant_cost(const Scenario& site, int pairs) {
    Cents sum = site.labour.mobilisation.minor();
    int links = 0;
    for (const Building& building : site.buildings) {
        const int in_use = own::strands_of(site, own::links_of(building));
        sum += cable_cost(site, in_use, in_use, 0) + *own::link(site, own::fastest(building), 0, pairs, 0) +
               *own::building_gear(site, building, 1, own::fastest(building));
        ++links;
    }
    return sum + *own::hub_gear(site, links, own::fastest(site.buildings.front()));
}

std::string home_runs_program(const Scenario& site) {
    std::vector<Wanted> wanted;
    for (const Building& building : site.buildings)
        wanted.push_back({site.hub.place, building.place, cable_cost(site, 2, 2, 1) - cable_cost(site, 2, 2, 0)});
    return FlowProgram(site, wanted, constant_cost(site, 2)).text();
}

std::string trunk_program(const Scenario& site) {
    std::vector<Wanted> wanted;
    for (const Building& building : site.buildings)
        wanted.push_back({-1, building.place, cable_cost(site, 2, 2, 1) - cable_cost(site, 2, 2, 0)});
    const int strands = 2 * static_cast<int>(site.buildings.size());
    wanted.push_back(
        {-1, site.hub.place, cable_cost(site, strands, strands, 1) - cable_cost(site, strands, strands, 0)});
    const Cents constant =
        constant_cost(site, 3) + cable_cost(site, strands, strands, 0) + *own::enclosures(site, strands);
    return FlowProgram(site, wanted, constant).text();
}

void compare_with(const std::string& program, std::optional<double> (*minimum)(const std::string&), int rounds) {
    if (!has_program(program)) {
        MESSAGE("skipped: " << program << " is not installed");
        return;
    }
    for (int round = 0; round < rounds; ++round) {
        CAPTURE(round);
        Dice dice(300 + static_cast<unsigned>(round));
        const Scenario site = plain_site(dice);
        for (const LayoutKind kind : {LayoutKind::home_runs, LayoutKind::trunk_one}) {
            CAPTURE(std::string(name_of(kind)));
            const LayoutResult ours = assess(site, design(kind, site, {}));
            REQUIRE(ours.feasible());
            const auto theirs = minimum(kind == LayoutKind::home_runs ? home_runs_program(site) : trunk_program(site));
            REQUIRE(theirs);
            CHECK(static_cast<double>(ours.total.minor()) == doctest::Approx(*theirs).epsilon(1e-9));
            CHECK(static_cast<double>(ours.bound.minor()) <= *theirs + 1e-3);
        }
    }
}

}  // namespace

TEST_CASE("totals of small sites equal the minimum that glpsol finds for them as mixed integer programs") {
    compare_with("glpsol", minimum_by_glpsol, effort(12));
}

TEST_CASE("totals of small sites equal the minimum that cbc finds for them as mixed integer programs") {
    compare_with("cbc", minimum_by_cbc, effort(12));
}

}  // namespace spadework
