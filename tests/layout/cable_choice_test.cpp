#include "layout/cable_choice.hpp"

#include <algorithm>
#include <functional>

#include <doctest/doctest.h>

#include "layout/support/drawn_site.hpp"
#include "rates/cable_rates.hpp"

namespace spadework {
namespace {

using drawing::Dice;

/// Tries every set of at most `most` cables, as counts a product.
void for_each_set(std::size_t products, int most, const std::function<void(const std::vector<int>&)>& use) {
    std::vector<int> counts(products, 0);
    const std::function<void(std::size_t, int)> choose = [&](std::size_t at, int left) {
        if (at == products) return use(counts);
        for (int count = 0; count <= left; ++count) {
            counts[at] = count;
            choose(at + 1, left - count);
        }
        counts[at] = 0;
    };
    choose(0, most);
}

/// Strands in use of each piece of a set: filled up one cable after the other.
std::vector<int> shares(const Scenario& site, const std::vector<int>& pieces, int in_use) {
    std::vector<int> share;
    for (const int product : pieces) {
        const int here = std::min(in_use, site.catalogue.cables[static_cast<std::size_t>(product)].strands);
        share.push_back(here);
        in_use -= here;
    }
    return share;
}

/// The lines of one cable's bill, each rounded half up as a bill is: cable, ends, work at both ends, ducts, pulling.
std::int64_t bill_of_piece(const Scenario& site, int product, int in_use, Length route) {
    const CableProduct& cable = site.catalogue.cables[static_cast<std::size_t>(product)];
    const OpeningMethod& way = site.grounds[0].methods[0];
    const CableLengths lengths = cable_lengths(cable, route, 0, site.rules);
    const EndWork end = end_work(cable, in_use, site);
    const bool factory = site.rules.termination == Termination::factory;
    const Money material = factory ? amount(cable.factory_end_price, std::int64_t{2})
                                   : amount(site.catalogue.splicing.pigtail_price, std::int64_t{2} * in_use);
    return (amount(cable.price_per_metre, lengths.ordered) + material + amount(end.rate, end.time * 2) +
            amount(way.duct_per_metre, route) +
            amount(site.labour.installer_rate, WorkTime::along(route, way.pull_hours_per_metre)) +
            joint_work(cable, site).total() * lengths.joints)
        .minor();
}

/// A site of one segment whose prices are as awkward as a site file allows.
Scenario awkward_site(Dice& dice) {
    Scenario site = drawing::row_site(1, static_cast<double>(dice.between(1, 300'000)) / 1000.0);
    const auto price = [&](std::int64_t most) {
        return dice.one_in(4) ? UnitPrice() : UnitPrice::from_thousandths(dice.between(1, most));
    };
    site.catalogue.cables.clear();
    const int products = static_cast<int>(dice.between(1, 3));
    for (int i = 0, strands = 0; i < products; ++i) {
        strands += static_cast<int>(dice.between(1, 6));
        CableProduct product = drawing::cable(strands, 1);
        product.price_per_metre = price(90'000);
        product.factory_end_price = price(20'000);
        product.length_step = Length::from_millimetres(dice.one_in(2) ? 1 : dice.between(1, 30'000));
        product.longest = Length::from_metres(static_cast<double>(dice.between(60, 400)));
        site.catalogue.cables.push_back(product);
    }
    site.rules.termination = dice.one_in(2) ? Termination::factory : Termination::spliced;
    site.rules.slack = {Length::from_millimetres(dice.between(0, 3000)),
                        Length::from_millimetres(dice.between(0, 3000)), Length(),
                        Percent::from_thousandths(dice.one_in(3) ? 0 : dice.between(0, 12'345))};
    site.labour.installer_rate = price(9'000'000);
    site.labour.plug_time = WorkTime::from_seconds(dice.between(0, 400));
    site.catalogue.splicing = {price(900'000), WorkTime::from_seconds(dice.between(0, 700)),
                               WorkTime::from_seconds(dice.between(0, 4000)), price(9'000'000)};
    OpeningMethod& way = site.grounds[0].methods[0];
    way.duct_per_metre = price(90'000);
    way.pull_hours_per_metre = dice.one_in(3) ? 0 : static_cast<double>(dice.between(0, 1000)) / 7000.0;
    return site;
}

/// What least_cable lets a bound say about a cable route through the site's one segment, in solver units.
graph::Cost least_units(const Scenario& site, const LeastCable& least) {
    const Network network = network_of(site);
    return network.scale.units_per_millimetre(least.per_route_metre) * site.segments[0].length.millimetres() +
           network.edges[0].passage * least.pieces + network.scale.units(least.ends - least.rounding);
}

/// A set of cables by product, one entry a cable.
struct CableSet {
    std::vector<int> pieces;
    int strands = 0;
};

CableSet pieces_of(const Scenario& site, const std::vector<int>& counts) {
    CableSet set;
    for (std::size_t i = 0; i < counts.size(); ++i) {
        set.pieces.insert(set.pieces.end(), static_cast<std::size_t>(counts[i]), static_cast<int>(i));
        set.strands += counts[i] * site.catalogue.cables[i].strands;
    }
    return set;
}

}  // namespace

TEST_CASE("the least cable is never dearer than any set of cables that holds the strands, roundings included") {
    Dice dice(21);
    int sets_tried = 0;
    for (int round = 0; round < 4000; ++round) {
        const Scenario site = awkward_site(dice);
        const Length route = site.segments[0].length;
        const int in_use = static_cast<int>(dice.between(1, 10));
        const int strands = in_use + static_cast<int>(dice.between(0, 4));
        const auto least = least_cable(site, strands, in_use);
        REQUIRE(least);
        const graph::Cost bound = least_units(site, *least);
        const std::int64_t per_minor = network_of(site).scale.per_minor;
        for_each_set(site.catalogue.cables.size(), 4, [&](const std::vector<int>& counts) {
            const auto [pieces, held] = pieces_of(site, counts);
            if (held < strands) return;
            // The planner takes one cable where one is large enough.
            if (pieces.size() > 1 && site.catalogue.cables.back().strands >= strands) return;
            std::int64_t bill = 0;
            const std::vector<int> share = shares(site, pieces, in_use);
            for (std::size_t p = 0; p < pieces.size(); ++p)
                bill += bill_of_piece(site, pieces[p], share[p], route);
            ++sets_tried;
            CHECK_MESSAGE(bound <= bill * per_minor, "round ", round, ": bound ", bound, " bill ", bill);
        });
    }
    CHECK(sets_tried > 4000);
}

TEST_CASE("what a long route costs beyond the figures is never more than the bill of any longer one shows") {
    Dice dice(23);
    int rounds_with_more = 0;
    for (int round = 0; round < 4000; ++round) {
        Scenario site = awkward_site(dice);
        const int in_use = static_cast<int>(dice.between(1, 6));
        const auto least = least_cable(site, in_use, in_use);
        REQUIRE(least);
        const Length at_least = site.segments[0].length;
        const std::int64_t per_minor = network_of(site).scale.per_minor;
        const Money more = least_beyond_figures(site, in_use, at_least);
        rounds_with_more += more > Money() ? 1 : 0;
        for (const double further : {0.0, 0.004, 3.7, 55.0, 400.0}) {
            site.segments[0].length = at_least + Length::from_metres(further);
            const graph::Cost bound = least_units(site, *least) + network_of(site).scale.units(more);
            for (int product = 0; product < static_cast<int>(site.catalogue.cables.size()); ++product) {
                if (site.catalogue.cables[static_cast<std::size_t>(product)].strands < in_use) continue;
                const std::int64_t bill = bill_of_piece(site, product, in_use, site.segments[0].length);
                CHECK_MESSAGE(bound <= bill * per_minor, "round ", round, ": bound ", bound, " bill ", bill);
            }
        }
    }
    CHECK(rounds_with_more > 400);
}

TEST_CASE("what a long route costs beyond the figures of several cables is never more than any set of them shows") {
    Dice dice(24);
    int rounds_with_more = 0;
    for (int round = 0; round < 1500; ++round) {
        Scenario site = awkward_site(dice);
        const int in_use = site.catalogue.cables.back().strands + static_cast<int>(dice.between(1, 6));
        const auto least = least_cable(site, in_use, in_use);
        REQUIRE(least);
        const std::int64_t per_minor = network_of(site).scale.per_minor;
        const Money more = least_beyond_figures(site, in_use, site.segments[0].length);
        rounds_with_more += more > Money() ? 1 : 0;
        site.segments[0].length += Length::from_millimetres(dice.between(0, 90'000));
        const graph::Cost bound = least_units(site, *least) + network_of(site).scale.units(more);
        for_each_set(site.catalogue.cables.size(), 4, [&](const std::vector<int>& counts) {
            const auto [pieces, held] = pieces_of(site, counts);
            if (held < in_use) return;
            std::int64_t bill = 0;
            const std::vector<int> share = shares(site, pieces, in_use);
            for (std::size_t p = 0; p < pieces.size(); ++p)
                bill += bill_of_piece(site, pieces[p], share[p], site.segments[0].length);
            CHECK_MESSAGE(bound <= bill * per_minor, "round ", round, ": bound ", bound, " bill ", bill);
        });
    }
    CHECK(rounds_with_more > 100);
}

TEST_CASE("a route longer than the longest factory length costs a joint beyond the figures") {
    Scenario site = drawing::row_site(1, 100);
    site.catalogue.cables = {drawing::cable(4, 90)};
    site.catalogue.cables[0].longest = Length::from_metres(500);
    const Money joint = joint_work(site.catalogue.cables[0], site).total();
    REQUIRE(joint > Money::from_minor(10));
    CHECK(least_beyond_figures(site, 4, Length::from_metres(300)) <= Money::from_minor(100));
    const Money more = least_beyond_figures(site, 4, Length::from_metres(700));
    CHECK(more >= joint - Money::from_minor(200));
    CHECK(more <= joint + Money::from_minor(100));
    // Two cables, where no one product is large enough, have two.
    const Money of_two = least_beyond_figures(site, 5, Length::from_metres(700));
    CHECK(of_two >= joint * 2 - Money::from_minor(200));
    CHECK(of_two <= joint * 2 + Money::from_minor(200));
}

TEST_CASE("many cheap cables do not let the roundings of their lines outgrow the bound") {
    // 0.4 cents a line is billed as nothing. Three of them exactly are 1.2 cents: a bound of 1 would be wrong.
    Scenario site = drawing::row_site(1, 1);
    for (CableProduct& product : site.catalogue.cables) {
        product.price_per_metre = UnitPrice::from_thousandths(400);
        product.factory_end_price = UnitPrice();
    }
    site.labour.plug_time = WorkTime();
    const auto least = least_cable(site, 2, 2);
    REQUIRE(least);
    const std::int64_t billed = bill_of_piece(site, 0, 2, site.segments[0].length);
    CHECK(billed == 0);
    CHECK(3 * least_units(site, *least) <= 3 * billed * network_of(site).scale.per_minor);
}

TEST_CASE("the cheapest cable is the cheapest of those large enough, by the route it runs") {
    Scenario site = drawing::bare_site();
    site.catalogue.cables = {drawing::cable(4, 90), drawing::cable(12, 100), drawing::cable(24, 95)};
    site.catalogue.cables[2].factory_end_price = UnitPrice::from_minor(30000);
    CHECK(cheapest_cables(site, 4, Length::from_metres(10)) == std::vector<int>{0});
    CHECK(cheapest_cables(site, 5, Length::from_metres(10)) == std::vector<int>{1});
    CHECK(cheapest_cables(site, 5, Length::from_metres(100000)) == std::vector<int>{2});
    CHECK(cheapest_cables(site, 13, Length::from_metres(10)) == std::vector<int>{2});
}

TEST_CASE("every cable of a set pays for its ducts and its pulling, so that one more may come dearer than its price") {
    Scenario site = drawing::bare_site();
    site.catalogue.cables = {drawing::cable(4, 10), drawing::cable(12, 90)};
    for (CableProduct& cable : site.catalogue.cables)
        cable.factory_end_price = UnitPrice();
    const Length route = Length::from_metres(1000);
    CHECK(cheapest_cables(site, 24, route) == std::vector<int>{0, 0, 0, 0, 0, 0});
    CHECK(cheapest_cables(site, 24, route, Money::from_minor(1'000'000)) == std::vector<int>{1, 1});
}

TEST_CASE("where no cable is large enough, the cheapest set that is") {
    Scenario site = drawing::bare_site();
    site.catalogue.cables = {drawing::cable(4, 60), drawing::cable(12, 100)};
    CHECK(cheapest_cables(site, 24, Length::from_metres(1000)) == std::vector<int>{1, 1});
    CHECK(cheapest_cables(site, 16, Length::from_metres(1000)) == std::vector<int>{0, 1});
    CHECK(cheapest_cables(site, 25, Length::from_metres(1000)) == std::vector<int>{0, 1, 1});
    site.catalogue.cables.clear();
    CHECK_FALSE(cheapest_cables(site, 2, Length::from_metres(10)));
    CHECK_FALSE(least_cable(site, 2, 2));
}

TEST_CASE("the cheapest set is never dearer than any other set of up to four cables") {
    Dice dice(22);
    for (int round = 0; round < 500; ++round) {
        const Scenario site = awkward_site(dice);
        const Length route = site.segments[0].length;
        const int strands = static_cast<int>(dice.between(1, 12));
        const auto price = [&](const std::vector<int>& pieces) {
            std::int64_t total = 0;
            for (const int product : pieces) {
                const CableProduct& cable = site.catalogue.cables[static_cast<std::size_t>(product)];
                const int in_use = pieces.size() == 1 ? strands : cable.strands;
                const CableLengths lengths = cable_lengths(cable, route, 0, site.rules);
                total += (amount(cable.price_per_metre, lengths.ordered) + end_work(cable, in_use, site).material * 2 +
                          joint_work(cable, site).total() * lengths.joints)
                             .minor();
            }
            return total;
        };
        const auto chosen = cheapest_cables(site, strands, route);
        REQUIRE(chosen);
        const bool one_is_enough = site.catalogue.cables.back().strands >= strands;
        for_each_set(site.catalogue.cables.size(), one_is_enough ? 1 : 4, [&](const std::vector<int>& counts) {
            std::vector<int> pieces;
            int held = 0;
            for (std::size_t i = 0; i < counts.size(); ++i) {
                pieces.insert(pieces.end(), static_cast<std::size_t>(counts[i]), static_cast<int>(i));
                held += counts[i] * site.catalogue.cables[i].strands;
            }
            if (held >= strands) CHECK(price(*chosen) <= price(pieces));
        });
    }
}

}  // namespace spadework
