#include "certificate/verification.hpp"

#include <doctest/doctest.h>

#include "certificate/reader.hpp"
#include "certificate/support/certified_sites.hpp"
#include "certificate/writer.hpp"
#include "support/effort.hpp"

namespace spadework::certificate {
namespace {

using drawing::Dice;

/// Of a certificate that was written and read again.
Verdict verdict_of(const Scenario& site, const Certificate& certificate) {
    const std::vector<NamedCertificate> one = {
        {certificate.layout, read_certificate(site, "file", to_json(site, certificate))}};
    CHECK(one.front().read.diagnostics.empty());
    const std::vector<Verdict> verdicts = verify(site, one);
    REQUIRE(verdicts.size() == 1);
    return verdicts.front();
}

/// A copy of the certificate's first evidence that may be changed.
RoutesEvidence& own_evidence(Certificate& certificate) {
    auto own = std::make_shared<RoutesEvidence>(*certificate.proof.routes.front());
    certificate.proof.routes.front() = own;
    return *own;
}

}  // namespace

TEST_CASE("every bound of home runs and of one trunk is proved, whatever the site") {
    Dice dice(911);
    int proved = 0;
    int full_ducts = 0;
    for (int round = 0; round < effort(60); ++round) {
        const Scenario site = drawing::random_certified_site(dice);
        const LayoutKind trunk = site.rules.most_enclosures == 1 ? LayoutKind::trunk : LayoutKind::trunk_one;
        for (const LayoutKind layout : {LayoutKind::home_runs, trunk}) {
            const auto certificate = drawing::certified(site, layout);
            if (!certificate) continue;
            const Verdict verdict = verdict_of(site, *certificate);
            for (const std::string& fault : verdict.faults)
                FAIL_CHECK(round << ' ' << id_of(layout) << ": " << fault);
            CHECK(verdict.proved);
            CHECK(verdict.total == certificate->total);
            REQUIRE(verdict.proved_bound);
            CHECK(*verdict.proved_bound >= certificate->bound);
            ++proved;
            for (const auto& evidence : certificate->proof.routes) {
                full_ducts += std::any_of(evidence->edges.begin(), evidence->edges.end(),
                                          [](const CertifiedEdge& edge) { return edge.room_price > 0; })
                                  ? 1
                                  : 0;
            }
        }
    }
    CHECK(proved > effort(90));
    CHECK(full_ducts >= effort(6));
}

TEST_CASE("bounds that rest on splits are proved, and with anything in them changed they are not") {
    Dice dice(914);
    int split = 0;
    for (int round = 0; round < effort(20); ++round) {
        Scenario site = drawing::crossings_site(dice, 3, static_cast<int>(dice.between(3, 6)));
        site.catalogue.cables.front().length_step = Length::from_metres(static_cast<double>(dice.between(1, 40)));
        if (dice.one_in(2)) site.catalogue.cables.front().longest = Length::from_metres(150);
        const auto good = drawing::certified(site, LayoutKind::home_runs);
        REQUIRE(good);
        CHECK(verdict_of(site, *good).proved);
        if (good->proof.routes.front()->splits.empty()) continue;
        ++split;
        const auto is_proved_with = [&](auto change) {
            Certificate certificate = *good;
            change(own_evidence(certificate));
            return verdict_of(site, certificate).proved;
        };
        CHECK(is_proved_with([](RoutesEvidence& e) { std::reverse(e.splits.begin(), e.splits.end()); }));
        CHECK_FALSE(is_proved_with([](RoutesEvidence& e) { e.splits.clear(); }));
        for (std::size_t part = 0; part < good->proof.routes.front()->splits.size(); ++part) {
            const auto is_proved = [&](auto change) {
                return is_proved_with([&](RoutesEvidence& e) { change(e, e.splits[part]); });
            };
            CHECK_FALSE(
                is_proved([&](RoutesEvidence& e, graph::PartProof&) { e.splits.erase(e.splits.begin() + part); }));
            CHECK_FALSE(is_proved([](auto&, auto& p) { p.choices.back().used = !p.choices.back().used; }));
            CHECK_FALSE(is_proved([](auto&, auto& p) { ++p.choices.back().edge; }));
            CHECK_FALSE(is_proved([](auto&, auto& p) { p.choices.pop_back(); }));
            CHECK_FALSE(is_proved([](RoutesEvidence& e, graph::PartProof& p) {
                p.prices[0].push_back({0, p.parts * e.edges[0].opening + 1, false});
            }));
        }
    }
    CHECK(split > effort(10));
}

TEST_CASE("a bound one minor unit above what the evidence proves is not proved") {
    Dice dice(912);
    for (int round = 0; round < 10; ++round) {
        const Scenario site = drawing::random_certified_site(dice);
        auto certificate = drawing::certified(site, LayoutKind::home_runs);
        if (!certificate) continue;
        std::optional<Money> direct;
        certificate->direct_bound = certificate->total;  // So that the most is looked for that can be proved.
        CHECK(proof_faults(site, *certificate, direct).empty());
        REQUIRE(direct);
        certificate->direct_bound = *direct + Money::from_minor(1);
        certificate->bound = quote_for(certificate->direct_bound, site.rules).total();
        CHECK_FALSE(verdict_of(site, *certificate).proved);
    }
}

TEST_CASE("figures above what the site makes are told") {
    Dice dice(913);
    const Scenario site = drawing::row_site(3, 40);
    const auto good = drawing::certified(site, LayoutKind::home_runs);
    REQUIRE(good);
    REQUIRE(verdict_of(site, *good).proved);
    const auto fault_with = [&](auto change) {
        Certificate certificate = *good;
        change(own_evidence(certificate));
        std::optional<Money> direct;
        const std::vector<std::string> faults = proof_faults(site, certificate, direct);
        return faults.empty() ? std::string() : faults.front();
    };
    const auto holds = [](const std::string& text, const char* part) { return text.find(part) != std::string::npos; };
    CHECK(holds(fault_with([](RoutesEvidence& e) { ++e.edges[1].opening; }), "segment s0001, way 0: an opening of"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.edges[1].length *= 2; }), "the cable of building b000"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.edges[1].room_price = 1; }), "room that is not limited"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.edges[1].room = 2; }), "takes -1 cables, not 2"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.edges[1].way = 1; }), "has no way 1"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.demands[2].weight *= 2; }), "the cable of building b002"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { ++e.roots[0].cost; }), "beside their routes"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.constant += Money::from_minor(1); }), "beside their routes"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.roots[0].at = 1; }), "cannot fan out from place p0001"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.roots.clear(); }), "nothing bounds plans"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.demands.pop_back(); }), "2 demands"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.units_a_minor /= 10; }), "above"));
    CHECK(holds(fault_with([](RoutesEvidence& e) { e.prices[0].pop_back(); }), "is for 2 demands, not 3"));
}

TEST_CASE("a plan with something wrong is told, and one that costs something else") {
    const Scenario site = drawing::row_site(3, 40);
    const auto good = drawing::certified(site, LayoutKind::home_runs);
    REQUIRE(good);
    Certificate shorter = *good;
    shorter.plan.cables[2].steps.pop_back();
    CHECK(verdict_of(site, shorter).faults.front().rfind("plan: ", 0) == 0);
    Certificate cheaper = *good;
    cheaper.total = cheaper.total - Money::from_minor(1);
    CHECK(verdict_of(site, cheaper).faults.front().find("not the") != std::string::npos);
    Certificate nothing = *good;
    nothing.plan = Plan();
    CHECK_FALSE(verdict_of(site, nothing).proved);
}

TEST_CASE("evidence of one trunk says nothing of several, and none of a layout proves nothing") {
    Scenario site = drawing::row_site(3, 40);
    site.rules.most_enclosures = 1;
    auto certificate = drawing::certified(site, LayoutKind::trunk);
    REQUIRE(certificate);
    CHECK(verdict_of(site, *certificate).proved);
    site.rules.most_enclosures = 2;
    CHECK(verdict_of(site, *certificate).faults.front().find("says nothing of trunk") != std::string::npos);
    certificate->proof = {};
    CHECK(verdict_of(site, *certificate).faults.front().find("no evidence") != std::string::npos);
}

TEST_CASE("a layout certified together with others and missing is told") {
    const Scenario site = drawing::row_site(2, 40);
    auto certificate = drawing::certified(site, LayoutKind::home_runs);
    REQUIRE(certificate);
    certificate->all = {LayoutKind::home_runs, LayoutKind::daisy_chain};
    const auto verdicts =
        verify(site, {{LayoutKind::home_runs, read_certificate(site, "file", to_json(site, *certificate))}});
    REQUIRE(verdicts.size() == 2);
    CHECK(verdicts[0].proved);
    CHECK(verdicts[1].layout == LayoutKind::daisy_chain);
    CHECK(verdicts[1].faults.front() == "there is no file daisy-chain.certificate.json");
}

}  // namespace spadework::certificate
