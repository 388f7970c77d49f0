#include "certificate/chain_check.hpp"

#include <doctest/doctest.h>

#include "certificate/support/certified_sites.hpp"
#include "certificate/verification.hpp"
#include "certificate/writer.hpp"
#include "layout/assembly.hpp"
#include "support/effort.hpp"

namespace spadework::certificate {
namespace {

using drawing::Dice;

bool holds(const std::string& text, const char* part) {
    return text.find(part) != std::string::npos;
}

void draw_visits(Dice& dice, std::int32_t stops, graph::ChainCertificate& proof) {
    for (std::int32_t s = 0; s < stops; ++s) {
        proof.visit_prices.push_back(dice.between(-1'000'000'000, 1'000'000'000));
        std::vector<std::int32_t>& neighbours = proof.neighbours.emplace_back();
        for (std::int32_t n = 0; n < stops; ++n) {
            if (n != s && dice.one_in(2)) neighbours.push_back(n);
        }
    }
    graph::EntryPrice entry{{}, dice.between(0, 1'000'000'000)};
    for (std::int32_t s = 0; s < stops; ++s) {
        if (dice.one_in(2)) entry.stops.push_back(s);
    }
    if (!entry.stops.empty()) proof.entry_prices.push_back(entry);
}

/// Prices of rings that keep to the purse of every edge, neighbours and visits at random.
graph::ChainCertificate random_ring_proof(Dice& dice, const ChainEvidence& evidence, std::int32_t stops, int longest) {
    graph::ChainCertificate proof;
    proof.parts = 4;
    for (auto* set : {&proof.joining_prices, &proof.arrival_prices, &proof.closing_prices})
        set->resize(static_cast<std::size_t>(stops));
    for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
        const CertifiedEdge& edge = evidence.edges[e];
        const graph::Cost cable = (evidence.weight * edge.length + evidence.multiplicity * edge.passage) * proof.parts;
        proof.hop_charges.push_back(dice.one_in(2) ? cable : dice.between(0, cable));
        const graph::Cost passes = (cable - proof.hop_charges.back()) / longest;
        proof.pass_charges.push_back(dice.one_in(2) ? passes : dice.between(0, passes));
        graph::Cost left =
            edge.opening * proof.parts + cable - proof.hop_charges.back() - longest * proof.pass_charges.back();
        for (int draw = 0; draw < 6; ++draw) {
            auto& set = draw == 0 ? proof.arrival_prices : draw == 1 ? proof.closing_prices : proof.joining_prices;
            const graph::Cost price = draw == 5 ? left : dice.one_in(2) ? dice.between(0, left) : 0;
            left -= price;
            set[static_cast<std::size_t>(dice.between(0, stops - 1))].push_back(
                {static_cast<graph::EdgeId>(e), price, dice.one_in(2)});
        }
    }
    draw_visits(dice, stops, proof);
    return proof;
}

/// Prices that keep to the purse of every edge, neighbours and visits at random.
graph::ChainCertificate random_proof(Dice& dice, const ChainEvidence& evidence, std::int32_t stops) {
    graph::ChainCertificate proof;
    proof.parts = 4;
    proof.joining_prices.resize(static_cast<std::size_t>(stops));
    proof.arrival_prices.resize(static_cast<std::size_t>(stops));
    for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
        const CertifiedEdge& edge = evidence.edges[e];
        const graph::Cost cable = (evidence.weight * edge.length + evidence.multiplicity * edge.passage) * proof.parts;
        proof.hop_charges.push_back(dice.between(0, cable));
        graph::Cost left = edge.opening * proof.parts + cable - proof.hop_charges.back();
        const graph::Cost arrivals = dice.between(0, left);
        const auto someone = [&] { return static_cast<std::size_t>(dice.between(0, stops - 1)); };
        proof.arrival_prices[someone()].push_back({static_cast<graph::EdgeId>(e), arrivals, false});
        left -= arrivals;
        const bool backwards = dice.one_in(2);
        const graph::Cost first = dice.between(0, left);
        proof.joining_prices[someone()].push_back({static_cast<graph::EdgeId>(e), first, backwards});
        proof.joining_prices[someone()].push_back({static_cast<graph::EdgeId>(e), left - first, backwards});
        proof.joining_prices[someone()].push_back({static_cast<graph::EdgeId>(e), left, !backwards});
    }
    draw_visits(dice, stops, proof);
    return proof;
}

}  // namespace

TEST_CASE("bounds of daisy chains and rings are proved, whatever the site") {
    LayoutKind kind = LayoutKind::daisy_chain;
    SUBCASE("daisy chains") {}
    SUBCASE("rings") {
        kind = LayoutKind::ring;
    }
    Dice dice(941);
    int proved = 0;
    for (int round = 0; round < effort(40); ++round) {
        Scenario site = drawing::random_certified_site(dice);
        site.rules.hop_limit = static_cast<int>(dice.between(1, 4));
        const auto certificate = drawing::certified(site, kind);
        if (!certificate) continue;
        const ReadCertificate read = read_certificate(site, "file", to_json(site, *certificate));
        REQUIRE(read.certificate);
        CHECK(to_json(site, *read.certificate) == to_json(site, *certificate));
        const std::vector<Verdict> verdicts = verify(site, {{kind, read}});
        for (const std::string& fault : verdicts.front().faults)
            FAIL_CHECK(round << ": " << fault);
        REQUIRE(verdicts.front().proved_bound);
        CHECK(*verdicts.front().proved_bound >= certificate->bound);
        CHECK(*verdicts.front().proved_bound <= certificate->total);
        ++proved;
    }
    CHECK(proved > effort(25));
}

TEST_CASE("no prices that keep the rules bound rings above what the best plan costs") {
    Dice dice(943);
    int looked_at = 0;
    for (int round = 0; round < effort(30); ++round) {
        Scenario site = drawing::random_certified_site(dice);
        site.rules.hop_limit = static_cast<int>(dice.between(1, 4));
        const auto certificate = drawing::certified(site, LayoutKind::ring);
        if (!certificate || !certificate->proof.chains) continue;
        const Money best = cost_to_build(site, certificate->plan) + Money::from_minor(100);  // Rounding of lines.
        ChainEvidence evidence = *certificate->proof.chains;
        for (int i = 0; i < 20; ++i) {
            const auto stops = static_cast<std::int32_t>(site.buildings.size());
            evidence.proof = random_ring_proof(dice, evidence, stops, site.rules.hop_limit);
            CHECK(chain_figure_faults(site, evidence, Chains::closed).empty());
            CHECK(chain_price_fault(site, evidence, Chains::closed).empty());
            const auto bound = chain_direct_bound(site, evidence, Chains::closed);
            REQUIRE(bound);
            CHECK(*bound <= best);
            ++looked_at;
        }
    }
    CHECK(looked_at > effort(300));
}

TEST_CASE("figures and prices of rings that may not be so are told") {
    const Scenario site = drawing::row_site(3, 40);
    const auto certificate = drawing::certified(site, LayoutKind::ring);
    REQUIRE(certificate);
    REQUIRE(certificate->proof.chains);
    const auto fault_with = [&](auto change) {
        ChainEvidence evidence = *certificate->proof.chains;
        change(evidence);
        const auto faults = chain_figure_faults(site, evidence, Chains::closed);
        return faults.empty() ? chain_price_fault(site, evidence, Chains::closed) : faults.front();
    };
    CHECK(fault_with([](ChainEvidence&) {}).empty());
    CHECK(holds(fault_with([](ChainEvidence& e) { e.constant += Money::from_minor(1); }), "the constant"));
    CHECK(holds(fault_with([](ChainEvidence& e) { ++e.chain_cost; }), "rings cost"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.closing_prices.clear(); }), "one entry"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.pass_charges.pop_back(); }), "one entry"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.pass_charges[0] = INT64_MAX; }), "segment s0000"));
    CHECK(holds(fault_with([](ChainEvidence& e) {
                    e.proof.closing_prices[0].push_back({1, e.edges[1].opening * e.proof.parts * 3, false});
                }),
                "segment s0001"));
    CHECK(!chain_figure_faults(site, *certificate->proof.chains, Chains::open).empty());
}

TEST_CASE("no prices that keep the rules bound chains above what the best plan costs") {
    Dice dice(942);
    int looked_at = 0;
    for (int round = 0; round < effort(30); ++round) {
        const Scenario site = drawing::random_certified_site(dice);
        const auto certificate = drawing::certified(site, LayoutKind::daisy_chain);
        if (!certificate || !certificate->proof.chains) continue;
        const Money best = cost_to_build(site, certificate->plan) + Money::from_minor(100);  // Rounding of lines.
        ChainEvidence evidence = *certificate->proof.chains;
        for (int i = 0; i < 20; ++i) {
            evidence.proof = random_proof(dice, evidence, static_cast<std::int32_t>(site.buildings.size()));
            CHECK(chain_figure_faults(site, evidence, Chains::open).empty());
            CHECK(chain_price_fault(site, evidence, Chains::open).empty());
            const auto bound = chain_direct_bound(site, evidence, Chains::open);
            REQUIRE(bound);
            CHECK(*bound <= best);
            ++looked_at;
        }
    }
    CHECK(looked_at > effort(300));
}

TEST_CASE("figures and prices of chains that may not be so are told") {
    const Scenario site = drawing::row_site(3, 40);
    const auto certificate = drawing::certified(site, LayoutKind::daisy_chain);
    REQUIRE(certificate);
    REQUIRE(certificate->proof.chains);
    const auto fault_with = [&](auto change) {
        ChainEvidence evidence = *certificate->proof.chains;
        change(evidence);
        const auto faults = chain_figure_faults(site, evidence, Chains::open);
        return faults.empty() ? chain_price_fault(site, evidence, Chains::open) : faults.front();
    };
    CHECK(fault_with([](ChainEvidence&) {}).empty());
    CHECK(holds(fault_with([](ChainEvidence& e) { e.constant += Money::from_minor(1); }), "the constant"));
    CHECK(holds(fault_with([](ChainEvidence& e) { ++e.chain_cost; }), "chains cost"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.weight *= 2; }), "a hop's cable"));
    CHECK(holds(fault_with([](ChainEvidence& e) { ++e.edges[0].opening; }), "an opening of"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.edges.pop_back(); }), "one entry for each edge"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.visit_prices.pop_back(); }), "one entry"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.visit_prices[0] = INT64_MAX; }), "beyond 2^60"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.entry_prices = {{{0}, -1}}; }), "below 0"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.entry_prices = {{{0}, INT64_MAX}}; }), "beyond 2^60"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.entry_prices = {{{}, 1}}; }), "each once"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.entry_prices = {{{0, 0}, 1}}; }), "each once"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.entry_prices = {{{3}, 1}}; }), "each once"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.neighbours[0] = {0}; }), "to remember"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.neighbours[0] = {1, 1}; }), "to remember"));
    CHECK(holds(fault_with([](ChainEvidence& e) { e.proof.hop_charges[0] = INT64_MAX; }), "segment s0000"));
    CHECK(holds(fault_with([](ChainEvidence& e) {
                    e.proof.joining_prices[0].push_back({1, e.edges[1].opening * e.proof.parts * 3, false});
                }),
                "segment s0001"));
}

}  // namespace spadework::certificate
