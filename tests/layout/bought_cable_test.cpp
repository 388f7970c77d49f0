#include "layout/bought_cable.hpp"

#include <doctest/doctest.h>

#include "layout/cable_choice.hpp"
#include "layout/support/drawn_site.hpp"
#include "rates/cable_rates.hpp"

namespace spadework {
namespace {

using drawing::Dice;

Scenario site_with_steps(Dice& dice) {
    Scenario site = drawing::bare_site();
    site.catalogue.cables = {drawing::cable(4, static_cast<double>(dice.between(30, 90))),
                             drawing::cable(12, static_cast<double>(dice.between(30, 200)))};
    for (CableProduct& cable : site.catalogue.cables) {
        cable.length_step = Length::from_metres(static_cast<double>(dice.between(1, 40)));
        cable.longest = Length::from_metres(static_cast<double>(dice.between(50, 400)));
    }
    site.rules.slack.ordering_allowance = Percent::from_thousandths(dice.between(0, 12'000));
    if (dice.one_in(3)) site.rules.termination = Termination::spliced;
    return site;
}

/// Cable, ends and joints as they are billed, of the cheapest product that is large enough.
std::int64_t cheapest_bill(const Scenario& site, int strands, Length route) {
    std::optional<std::int64_t> cheapest;
    for (const CableProduct& cable : site.catalogue.cables) {
        if (cable.strands < strands) continue;
        const CableLengths lengths = cable_lengths(cable, route, 0, site.rules);
        const bool factory = site.rules.termination == Termination::factory;
        const EndWork joint = joint_work(cable, site);
        const Money ends = factory ? amount(cable.factory_end_price, std::int64_t{2}) : Money();
        const Money bill =
            amount(cable.price_per_metre, lengths.ordered) + ends + amount(joint.rate, joint.time * lengths.joints);
        cheapest = std::min(cheapest.value_or(bill.minor()), bill.minor());
    }
    return *cheapest;
}

}  // namespace

TEST_CASE("a cable as it is bought costs no more than any bill shows, little less, and never less for a longer route") {
    Dice dice(81);
    for (int round = 0; round < 500; ++round) {
        const Scenario site = site_with_steps(dice);
        const int strands = dice.one_in(2) ? 3 : 7;
        const BoughtCable cable(site, strands);
        std::int64_t before = 0;
        for (std::int64_t millimetres = 0; millimetres < 900'000; millimetres += dice.between(1, 60'000)) {
            const std::int64_t price = cable.price(millimetres);
            const std::int64_t bill = cheapest_bill(site, strands, Length::from_millimetres(millimetres));
            CHECK(price <= bill);
            CHECK(bill - price <= 40);  // A minor unit a joint.
            CHECK(price >= before);
            before = price;
        }
    }
}

TEST_CASE("a cable as it is bought never costs less than the figures of the least cable, but for a minor unit") {
    Dice dice(82);
    for (int round = 0; round < 500; ++round) {
        const Scenario site = site_with_steps(dice);
        const auto least = least_cable(site, 3, 2);
        REQUIRE(least);
        const std::int64_t millimetres = dice.between(0, 900'000);
        const std::int64_t by_figures =
            least->of_product.minor() + least->per_route_metre.thousandths() * millimetres / 1'000'000;
        CHECK(BoughtCable(site, 3).price(millimetres) >= by_figures - BoughtCable(site, 3).rounding());
    }
}

TEST_CASE("where no product is large enough, the cheapest set of cables is bought") {
    Scenario site = drawing::bare_site();
    site.catalogue.cables = {drawing::cable(4, 60), drawing::cable(12, 100)};
    for (const std::int64_t millimetres : {0, 7'000, 450'000}) {
        const std::int64_t four = BoughtCable(site, 4).price(millimetres);
        const std::int64_t twelve = BoughtCable(site, 12).price(millimetres);
        CHECK(BoughtCable(site, 24).price(millimetres) == std::min(2 * twelve, std::min(6 * four, twelve + 3 * four)));
        CHECK(BoughtCable(site, 16).price(millimetres) == std::min(2 * twelve, std::min(4 * four, twelve + four)));
    }
    site.catalogue.cables.clear();
    CHECK(BoughtCable(site, 4).price(1000) == 0);
}

}  // namespace spadework
