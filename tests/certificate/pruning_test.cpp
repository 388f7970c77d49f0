#include "certificate/pruning.hpp"

#include <doctest/doctest.h>

#include "certificate/support/certified_sites.hpp"

namespace spadework::certificate {
namespace {

std::shared_ptr<const RoutesEvidence> evidence(std::vector<graph::RootOption> roots, std::vector<std::int64_t> prices) {
    RoutesEvidence made;
    made.edges = {{0, 0, 100, 1, 0, -1, 0}};
    made.demands = {{1, 1, 0}};
    made.roots = std::move(roots);
    for (const std::int64_t price : prices)
        made.prices.push_back({{{0, price, false}}});
    return std::make_shared<const RoutesEvidence>(made);
}

}  // namespace

TEST_CASE("only the prices that the bound needs stay") {
    const Scenario site = drawing::row_site(1, 10);
    BoundCertificate proof;
    proof.routes = {evidence({{0, 0}}, {10, 50, 90}), evidence({{0, 0}}, {100})};
    BoundCertificate fewer = pruned(site, proof, Money::from_minor(90));
    REQUIRE(fewer.routes.size() == 1);
    REQUIRE(fewer.routes[0]->prices.size() == 1);
    CHECK(fewer.routes[0]->prices[0][0][0].price == 90);
    fewer = pruned(site, proof, Money::from_minor(95));
    REQUIRE(fewer.routes.size() == 1);
    CHECK(fewer.routes[0]->prices[0][0][0].price == 100);
}

TEST_CASE("places that need prices of their own keep them, and a bound that does not follow keeps all") {
    const Scenario site = drawing::row_site(1, 10);
    BoundCertificate proof;
    proof.routes = {evidence({{0, 0}, {1, 0}}, {100}), evidence({{1, 95}}, {10, 0})};
    const BoundCertificate fewer = pruned(site, proof, Money::from_minor(90));
    REQUIRE(fewer.routes.size() == 2);
    CHECK(fewer.routes[1]->prices.size() == 1);
    CHECK(pruned(site, proof, Money::from_minor(1000)).routes == proof.routes);
}

TEST_CASE("splits stay where the bound needs them, alone where they prove it, and else not at all") {
    const Scenario site = drawing::row_site(1, 10);
    auto made = std::make_shared<RoutesEvidence>(*evidence({{0, 0}}, {10, 50}));
    made->splits = {{{{0, true}}, {{}}, 1}, {{{0, false}}, {{}}, 1}};  // The opening of 100: there is no other way.
    BoundCertificate proof;
    proof.routes = {made};
    BoundCertificate fewer = pruned(site, proof, Money::from_minor(90));
    REQUIRE(fewer.routes.size() == 1);
    CHECK(fewer.routes[0]->prices.empty());
    CHECK(fewer.routes[0]->splits.size() == 2);
    CHECK(pruned(site, proof, Money::from_minor(1000)).routes == proof.routes);
    proof.routes.insert(proof.routes.begin(), evidence({{0, 0}}, {100}));
    fewer = pruned(site, proof, Money::from_minor(90));
    REQUIRE(fewer.routes.size() == 1);
    CHECK(fewer.routes[0]->splits.empty());
}

}  // namespace spadework::certificate
