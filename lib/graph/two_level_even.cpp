#include "graph/two_level_even.hpp"

#include <algorithm>
#include <numeric>

namespace spadework::graph::two_level {

using pair_routes::Charge;

namespace {

/// A charge as a multiple of one in lowest terms. Where one of the figures never matters, it is left out.
struct Proportion {
    Charge common;
    Cost multiple = 0;
};

Proportion proportion_of(Charge charge, bool lengths_matter, bool passages_matter) {
    if (!lengths_matter) charge.weight = 0;
    if (!passages_matter) charge.multiplicity = 0;
    const Cost multiple = std::gcd(charge.weight, charge.multiplicity);
    if (multiple == 0) return {};
    return {{charge.weight / multiple, charge.multiplicity / multiple}, multiple};
}

bool same(Charge a, Charge b) {
    return a.weight == b.weight && a.multiplicity == b.multiplicity;
}

Cost divided_down(WideCost value, Cost by) {
    WideCost quotient = value / by;
    if (quotient * by > value) --quotient;
    return static_cast<Cost>(quotient);
}

/// What one multiple asks of a demand served directly at most, so that no demand is asked more than it pays.
Cost direct_share(const Relaxation& relaxation, const EvenShares& shares) {
    Cost share = kLargestCost;
    for (std::size_t d = 0; d < shares.multiple.size(); ++d) {
        if (shares.multiple[d] == 0) continue;
        share = std::min(share, divided_down(relaxation.demands[d].direct_fixed, shares.multiple[d]));
    }
    return share == kLargestCost ? 0 : share;
}

}  // namespace

std::optional<EvenShares> even_shares(const TwoLevelProblem& problem) {
    const auto& edges = problem.edges;
    const bool lengths = std::any_of(edges.begin(), edges.end(), [](const auto& e) { return e.length > 0; });
    const bool passages = std::any_of(edges.begin(), edges.end(), [](const auto& e) { return e.passage > 0; });
    const auto with_direct = std::count_if(problem.demands.begin(), problem.demands.end(),
                                           [](const TwoLevelDemand& d) { return d.direct.has_value(); });
    if (with_direct != 0 && with_direct != static_cast<std::ptrdiff_t>(problem.demands.size())) return std::nullopt;
    EvenShares shares;
    Charge common;
    bool any = false;
    for (const TwoLevelDemand& d : problem.demands) {
        const Proportion own = proportion_of(service_charge(d), lengths, passages);
        shares.multiple.push_back(own.multiple);
        if (d.direct) {
            const Proportion direct = proportion_of(direct_charge(*d.direct), lengths, passages);
            const bool dearer =
                direct.multiple >= own.multiple && (own.multiple == 0 || same(direct.common, own.common));
            if (!dearer) return std::nullopt;
        }
        if (own.multiple == 0) continue;
        if (any && !same(own.common, common)) return std::nullopt;
        common = own.common;
        const auto left = static_cast<WideCost>(d.units) * shares.per_multiple;
        if (!any || left < static_cast<WideCost>(shares.units) * own.multiple) {
            shares.units = d.units;
            shares.per_multiple = own.multiple;
        }
        any = true;
    }
    return shares;
}

Relaxation made_even(Relaxation relaxation, const EvenShares& shares) {
    std::vector<Cost> share;  // By site: what it asks of one multiple.
    for (const RelaxedSite& s : relaxation.sites) {
        share.push_back(divided_down(static_cast<WideCost>(s.per_unit) * shares.units, shares.per_multiple));
    }
    const Cost of_direct = direct_share(relaxation, shares);
    for (std::size_t d = 0; d < relaxation.demands.size(); ++d) {
        RelaxedDemand& demand = relaxation.demands[d];
        const Cost multiple = shares.multiple[d];
        WideCost least = static_cast<WideCost>(1) << 100;
        for (std::size_t s = 0; s < share.size(); ++s) {
            const auto asked = static_cast<WideCost>(relaxation.sites[s].per_unit) * demand.units;
            least = std::min(least, asked - static_cast<WideCost>(share[s]) * multiple);
        }
        if (demand.may_be_direct) {
            const Cost fixed = of_direct * multiple;
            least = std::min(least, static_cast<WideCost>(demand.direct_fixed) - fixed);
            demand.direct_fixed = fixed;
            demand.direct = demand.service;
        }
        demand.units = multiple;
        relaxation.constant += least;
    }
    for (std::size_t s = 0; s < share.size(); ++s)
        relaxation.sites[s].per_unit = share[s];
    relaxation.weight.per_unit =
        divided_down(static_cast<WideCost>(relaxation.weight.per_unit) * shares.units, shares.per_multiple);
    relaxation.multiplicity.per_unit =
        divided_down(static_cast<WideCost>(relaxation.multiplicity.per_unit) * shares.units, shares.per_multiple);
    relaxation.in_trees = true;
    return relaxation;
}

}  // namespace spadework::graph::two_level
