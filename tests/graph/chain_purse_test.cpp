// The settled point is checked against what may be paid, and against other points that may: none lies nearer.

#include "graph/chain_purse.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include <doctest/doctest.h>

#include "graph/chain_prices.hpp"
#include "support/effort.hpp"

namespace {

using namespace spadework::graph::chains;
using spadework::effort;

struct Point {
    std::vector<double> prices;
    double hop_charge = 0.0;
};

/// How much the prices ask of the edge.
double asked(const std::vector<SlotPrice>& slots, const Point& point) {
    double sums[3] = {0.0, 0.0, 0.0};
    for (std::size_t i = 0; i < slots.size(); ++i)
        sums[slots[i].slot % 3] += point.prices[i];
    return std::max(sums[0], sums[1]) + sums[2] + point.hop_charge;
}

double squared_distance(const Point& a, const Point& b) {
    double sum = (a.hop_charge - b.hop_charge) * (a.hop_charge - b.hop_charge);
    for (std::size_t i = 0; i < a.prices.size(); ++i)
        sum += (a.prices[i] - b.prices[i]) * (a.prices[i] - b.prices[i]);
    return sum;
}

}  // namespace

TEST_CASE("settled prices can be paid, and no payable point lies nearer to what was wished") {
    std::mt19937 random(3);
    const auto upto = [&](double most) { return most * static_cast<double>(random() % 1001) / 1000.0; };
    for (int run = 0; run < effort(400); ++run) {
        CAPTURE(run);
        const EdgeFigures edge{upto(50), upto(20)};
        std::vector<SlotPrice> slots(1 + random() % 7);
        Point wish;
        double arrivals = 0.0;
        for (SlotPrice& p : slots) {
            p = {static_cast<std::int32_t>(3 + random() % 3), upto(20), upto(1)};
            wish.prices.push_back(p.price + 10 * p.flow);
            if (p.slot % 3 == SlotPrice::kArrival) arrivals += p.flow;
        }
        double hop_charge = upto(edge.charge);
        wish.hop_charge = hop_charge + 10 * arrivals;
        std::vector<SlotPrice*> pointers;
        for (SlotPrice& p : slots)
            pointers.push_back(&p);
        settle_purse(edge, pointers, 10, hop_charge);

        Point settled{{}, hop_charge};
        for (const SlotPrice& p : slots)
            settled.prices.push_back(p.price);
        const double all = edge.opening + edge.charge;
        CHECK(hop_charge >= 0.0);
        CHECK(hop_charge <= edge.charge + 1e-9);
        CHECK(*std::min_element(settled.prices.begin(), settled.prices.end()) >= 0.0);
        REQUIRE(asked(slots, settled) <= all + 1e-6);
        for (int other = 0; other < 50; ++other) {
            Point near = settled;
            const double reach = std::pow(10.0, -upto(3));
            for (double& p : near.prices)
                p = std::max(0.0, p + (upto(2) - 1) * reach);
            near.hop_charge = std::clamp(near.hop_charge + (upto(2) - 1) * reach, 0.0, edge.charge);
            const double too_much = asked(slots, near) / all;
            if (too_much > 1.0) {
                for (double& p : near.prices)
                    p /= too_much;
                near.hop_charge /= too_much;
            }
            // The split between two pressing directions and arrivals is found nearly, not exactly.
            CHECK(squared_distance(near, wish) >= (1.0 - 1e-3) * squared_distance(settled, wish));
        }
    }
}
