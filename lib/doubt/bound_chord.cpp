#include "doubt/bound_chord.hpp"

#include <algorithm>
#include <cmath>

namespace spadework {

namespace {

/// Lines of a bill, at most.
double most_lines(const Scenario& scenario) {
    double lines = 20;
    for (const Segment& segment : scenario.segments)
        lines += 2 + static_cast<double>(segment.charges.size());
    double links = 0;
    for (const Building& building : scenario.buildings) {
        for (const LinkDemand& link : building.links)
            links += link.count;
    }
    // A cable and a closing cable a building, a trunk for each enclosure; each with lengths, pulling, ends, joints and
    // a duct at as many prices as there are methods.
    double methods = 2;
    for (const Ground& ground : scenario.grounds)
        methods += static_cast<double>(ground.methods.size());
    const auto buildings = static_cast<double>(scenario.buildings.size());
    const double cables = 2 * buildings + links + scenario.rules.most_enclosures;
    lines += cables * (6 + methods);
    // Optics, cords and tests of links, which a chain has twice as many of; gear and enclosures with their
    // installation.
    lines += 2 * links * 3 + 2 * (buildings + 2.0 * scenario.rules.most_enclosures * 8 + 16);
    return lines;
}

}  // namespace

double most_rounding(const Scenario& scenario) {
    const auto hour = static_cast<double>(std::max({scenario.labour.groundworks_rate, scenario.labour.installer_rate,
                                                    scenario.catalogue.splicing.rate_per_hour})
                                              .thousandths()) /
                      1000;
    double metres = 0;
    double links = 0;
    for (const Segment& segment : scenario.segments)
        metres += segment.length.metres();
    for (const Building& building : scenario.buildings) {
        for (const LinkDemand& link : building.links)
            links += link.count;
    }
    const auto buildings = static_cast<double>(scenario.buildings.size());
    const double cables = 2 * buildings + links + scenario.rules.most_enclosures;
    // A line: half a minor unit for itself, half for a sum in it, and some seconds of work. A metre: the prices of
    // labour, plant, material, reinstatement, duct and cable, half a thousandth each.
    const double lines = most_lines(scenario) * (1 + 4 * hour / 3600);
    const double lengths = 2 * (cables + 1) * metres * 0.003;
    const double on_top = (1 + scenario.rules.contingency.fraction()) * (1 + scenario.rules.tax.fraction());
    return (lines + lengths) * on_top + 4;
}

std::int64_t bound_between(const std::vector<ProvedAt>& proved, double x, double rounding) {
    std::int64_t best = 0;
    const auto after = std::find_if(proved.begin(), proved.end(), [x](const ProvedAt& at) { return at.x >= x; });
    if (after == proved.end()) return 0;
    if (after->x == x) return after->bound;
    if (after == proved.begin()) return 0;
    const ProvedAt& before = *(after - 1);
    const double share = (x - before.x) / (after->x - before.x);
    const double chord = static_cast<double>(before.bound) * (1 - share) + static_cast<double>(after->bound) * share;
    // What double arithmetic itself may be off by is far below a thousand millionth of the amount.
    const double safe = chord - 2 * rounding - 1 - 1e-9 * chord;
    if (safe > 0) best = static_cast<std::int64_t>(std::floor(safe));
    return best;
}

}  // namespace spadework
