#include "certificate/trunk_check.hpp"

#include <algorithm>

#include <doctest/doctest.h>

#include "certificate/set_bounds.hpp"
#include "certificate/support/certified_sites.hpp"
#include "certificate/verification.hpp"
#include "certificate/writer.hpp"
#include "layout/assembly.hpp"
#include "support/effort.hpp"

namespace spadework::certificate {
namespace {

using drawing::Dice;

/// A site on which all buildings rank all ways alike, with enclosures to choose.
Scenario even_site(Dice& dice) {
    Scenario site = drawing::random_certified_site(dice);
    site.rules.most_enclosures = static_cast<int>(dice.between(2, 3));
    for (Building& building : site.buildings)
        building.links.front().count = 1;
    return site;
}

TrunkEvidence evidence_of(const Scenario& site, LayoutKind layout) {
    const auto certificate = drawing::certified(site, layout);
    REQUIRE(certificate);
    REQUIRE(certificate->proof.trunks);
    return *certificate->proof.trunks;
}

/// An entry for every one or two places, that asks at random, on the first prices.
std::vector<graph::TwoLevelCertificate::SitesProof> small_sets(Dice& dice, const TrunkEvidence& evidence) {
    constexpr graph::TwoLevelCertificate::Units any{0, 1'000'000};
    const auto ask = [&] { return dice.one_in(2) ? 0 : dice.between(0, 9'000'000'000) * evidence.proof.parts; };
    std::vector<graph::TwoLevelCertificate::SitesProof> sets;
    for (std::int32_t a = 0; a < static_cast<std::int32_t>(evidence.sites.size()); ++a) {
        sets.push_back({{a}, {any}, {ask()}, 0});
        for (std::int32_t b = 0; b < a; ++b)
            sets.push_back({{b, a}, {any, any}, {ask(), ask()}, 0});
    }
    return sets;
}

bool holds(const std::string& text, const char* part) {
    return text.find(part) != std::string::npos;
}

/// Prices that sum to no more than each edge's opening in either direction, at random.
graph::EdgePriceSet random_prices(Dice& dice, const TrunkEvidence& evidence) {
    graph::EdgePriceSet prices(evidence.demands.size());
    for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
        for (const bool backwards : {false, true}) {
            graph::Cost left = evidence.edges[e].opening * evidence.proof.parts;
            for (int i = 0; i < 4; ++i) {
                const graph::Cost price = dice.between(0, left);
                prices[static_cast<std::size_t>(dice.between(0, static_cast<std::int64_t>(prices.size()) - 1))]
                    .push_back({static_cast<graph::EdgeId>(e), price, backwards});
                left -= price;
            }
        }
    }
    return prices;
}

}  // namespace

TEST_CASE("bounds of trunks and mixes are proved, whatever the site") {
    Dice dice(931);
    int proved = 0;
    for (int round = 0; round < effort(40); ++round) {
        const Scenario site = even_site(dice);
        for (const LayoutKind layout : {LayoutKind::trunk, LayoutKind::mixed}) {
            const auto certificate = drawing::certified(site, layout);
            if (!certificate || !certificate->proof.trunks) continue;
            const std::string text = to_json(site, *certificate);
            const ReadCertificate read = read_certificate(site, "file", text);
            REQUIRE(read.certificate);
            CHECK(to_json(site, *read.certificate) == text);
            const std::vector<Verdict> verdicts = verify(site, {{layout, read}});
            for (const std::string& fault : verdicts.front().faults)
                FAIL_CHECK(round << ' ' << id_of(layout) << ": " << fault);
            REQUIRE(verdicts.front().proved_bound);
            CHECK(*verdicts.front().proved_bound >= certificate->bound);
            CHECK(*verdicts.front().proved_bound <= certificate->total);
            ++proved;
        }
    }
    CHECK(proved > effort(50));
}

TEST_CASE("no prices that keep the rules, and nothing that sites ask, bound trunks above what the best plan costs") {
    Dice dice(932);
    int looked_at = 0;
    for (int round = 0; round < effort(25); ++round) {
        const Scenario site = even_site(dice);
        for (const LayoutKind layout : {LayoutKind::trunk, LayoutKind::mixed}) {
            const auto certificate = drawing::certified(site, layout);
            if (!certificate || !certificate->proof.trunks) continue;
            const Money best = cost_to_build(site, certificate->plan) + Money::from_minor(100);  // Rounding of lines.
            TrunkEvidence evidence = *certificate->proof.trunks;
            for (int i = 0; i < 20; ++i) {
                evidence.proof.sets.clear();
                if (i % 2 == 0) evidence.proof.sets = small_sets(dice, evidence);
                evidence.proof.prices = {random_prices(dice, evidence)};
                for (graph::Cost& ask : evidence.proof.asks)
                    ask = dice.one_in(2) ? 0 : dice.between(0, 9'000'000'000) * evidence.proof.parts;
                CHECK(trunk_price_fault(site, evidence).empty());
                const auto bound = trunk_direct_bound(site, evidence, layout == LayoutKind::mixed);
                REQUIRE(bound);
                CHECK(*bound <= best);
                ++looked_at;
            }
        }
    }
    CHECK(looked_at > effort(500));
}

TEST_CASE("each of several trunks is charged an equal part of what the dearer direction's prices leave of trenches") {
    Scenario site = drawing::row_site(3, 40);  // One way leads to each place.
    site.rules.most_enclosures = 2;
    const TrunkEvidence evidence = evidence_of(site, LayoutKind::trunk);
    const TrunkCosts bare = trunk_costs(site, evidence);
    const auto charged = [&](const graph::EdgePriceSet& prices, std::size_t trunks) {
        std::vector<Wide> more;
        const TrunkCosts costs = trunk_costs(site, evidence, prices, trunks);
        for (std::size_t s = 0; s < costs.cost.size(); ++s)
            more.push_back(costs.cost[s][1] - bare.cost[s][1]);
        return more;
    };
    const graph::EdgePriceSet none(evidence.demands.size());
    graph::EdgePriceSet half = none;  // Three eighths of openings forwards, half backwards.
    graph::EdgePriceSet all = none;
    REQUIRE(evidence.proof.parts % 8 == 0);
    for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
        const auto edge = static_cast<graph::EdgeId>(e);
        const graph::Cost opening = evidence.edges[e].opening * evidence.proof.parts;
        half[0].push_back({edge, opening / 4, false});
        half[1].push_back({edge, opening / 8, false});
        half[2].push_back({edge, opening / 2, true});
        all[0].push_back({edge, opening, true});
    }
    const std::vector<Wide> whole = charged(none, 1);
    CHECK(*std::max_element(whole.begin(), whole.end()) > 0);
    for (std::size_t s = 0; s < whole.size(); ++s) {
        CHECK(bool(charged(none, 2)[s] == whole[s] / 2));
        CHECK(bool(charged(none, 3)[s] == whole[s] / 3));
        CHECK(bool(charged(half, 1)[s] == whole[s] / 2));
        CHECK(bool(charged(half, 2)[s] == whole[s] / 4));
        CHECK(bool(charged(all, 1)[s] == 0));
    }
}

TEST_CASE("figures of trunks above what the site makes are told") {
    Dice dice(931);
    Scenario site;
    std::optional<Certificate> certificate;
    while (!certificate || !certificate->proof.trunks) {
        site = even_site(dice);
        certificate = drawing::certified(site, LayoutKind::mixed);
    }
    const TrunkEvidence good = *certificate->proof.trunks;
    CHECK(trunk_figure_faults(site, good, true).empty());
    const auto fault_with = [&](auto change) {
        TrunkEvidence evidence = good;
        change(evidence);
        const auto faults = trunk_figure_faults(site, evidence, true);
        return faults.empty() ? std::string() : faults.front();
    };
    CHECK(holds(fault_with([](TrunkEvidence& e) { e.constant += Money::from_minor(1); }), "the constant"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { ++e.demands[1].direct->fixed; }), "building b001 may save"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { e.demands[1].direct.reset(); }), "may be on a home run"));
    CHECK(holds(fault_with([](TrunkEvidence& e) {
                    for (graph::TwoLevelDemand& demand : e.demands) {
                        demand.weight *= 3;
                        demand.multiplicity *= 3;
                    }
                }),
                "the cable of building b000"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { ++e.sites[0].cost; }), "an enclosure at place"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { ++e.sites[0].feeder_extra[0]; }), "makes dearer"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { e.sites.pop_back(); }), "may stand at place"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { e.sites[1].at = e.sites[0].at; }), "not named once"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { ++e.sizes[0].fixed; }), "at its ends"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { e.sizes.back().weight *= 2; }), "a trunk with"));
    CHECK(holds(fault_with([](TrunkEvidence& e) { e.edges.clear(); }), "no edge stands for it"));
    CHECK_FALSE(trunk_figure_faults(site, good, false).empty());
}

TEST_CASE("prices and sets that break a rule are told") {
    Scenario site = drawing::row_site(3, 40);
    site.rules.most_enclosures = 2;
    const TrunkEvidence good = evidence_of(site, LayoutKind::trunk);
    CHECK(trunk_price_fault(site, good).empty());
    const auto with = [&](auto change) {
        TrunkEvidence evidence = good;
        change(evidence.proof);
        return evidence;
    };
    using Proof = graph::TwoLevelCertificate;
    const graph::Cost opening = good.edges[1].opening * good.proof.parts;
    CHECK(holds(trunk_price_fault(site, with([&](Proof& p) { p.prices[0][0] = {{1, opening + 1, false}}; })), "s0001"));
    CHECK(holds(trunk_price_fault(site, with([](Proof& p) { p.prices.clear(); })), "no prices"));
    CHECK(holds(trunk_price_fault(site, with([](Proof& p) {
                                      p.sets.push_back({{0, 0}, {{}, {}}, {0, 0}, 0});
                                  })),
                "places in order"));
    CHECK(holds(trunk_price_fault(site, with([](Proof& p) { p.sets.push_back({{99}, {{}}, {0}, 0}); })), "in order"));
    CHECK(holds(trunk_price_fault(site, with([](Proof& p) { p.sets.push_back({{0}, {{}}, {0}, 9}); })), "not there"));
}

TEST_CASE("entries of a set that leave out a way of sharing units prove nothing") {
    Scenario site = drawing::row_site(4, 40);
    site.rules.most_enclosures = 2;
    TrunkEvidence evidence = evidence_of(site, LayoutKind::trunk);
    const std::int64_t all = 8;
    const auto bounded = [&](std::vector<graph::TwoLevelCertificate::SitesProof> sets) {
        evidence.proof.sets = std::move(sets);
        CHECK(trunk_price_fault(site, evidence).empty());
        return trunk_direct_bound(site, evidence, false).has_value();
    };
    CHECK(bounded({{{0}, {{0, all}}, {0}, 0}}));
    CHECK(bounded({{{0}, {{all, all}}, {0}, 0}}));  // One site serves everybody.
    CHECK_FALSE(bounded({{{0}, {{0, all - 2}}, {0}, 0}}));
    CHECK(bounded({{{0, 1}, {{0, 4}, {0, all}}, {0, 0}, 0}, {{0, 1}, {{5, all}, {0, all}}, {0, 0}, 0}}));
    CHECK(bounded({{{0, 1}, {{0, 4}, {0, all}}, {0, 0}, 0}, {{0, 1}, {{6, all}, {0, 2}}, {0, 0}, 0}}));
    CHECK_FALSE(bounded({{{0, 1}, {{0, 4}, {0, all}}, {0, 0}, 0}, {{0, 1}, {{7, all}, {0, all}}, {0, 0}, 0}}));
    CHECK_FALSE(bounded({{{0, 1}, {{0, 4}, {0, 3}}, {0, 0}, 0}, {{0, 1}, {{5, all}, {0, all}}, {0, 0}, 0}}));
}

}  // namespace spadework::certificate
