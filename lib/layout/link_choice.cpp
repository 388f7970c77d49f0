#include "layout/link_choice.hpp"

#include <algorithm>
#include <tuple>
#include <vector>

#include <fmt/format.h>

#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// The cheapest item that `wanted` accepts, by `price`; ties go to the earlier.
template <typename Product, typename Price, typename Wanted>
std::optional<int> cheapest(const std::vector<Product>& products, Price price, Wanted wanted) {
    std::optional<int> best;
    for (int i = 0; i < static_cast<int>(products.size()); ++i) {
        const Product& product = products[static_cast<std::size_t>(i)];
        if (!wanted(product)) continue;
        if (!best || price(product) < price(products[static_cast<std::size_t>(*best)])) best = i;
    }
    return best;
}

bool runs(const OpticProduct& optic, const Scenario& scenario, BitRate rate) {
    return optic.rate >= rate && optic.strand_use == scenario.rules.strand_use;
}

bool is_within_lengths(const OpticProduct& optic, const GlassPath& path) {
    return path.glass <= optic.reach && path.glass >= optic.least_length;
}

/// In thousandths of a minor unit.
std::int64_t price_of(const Scenario& scenario, const Lighting& lit) {
    const Catalogue& catalogue = scenario.catalogue;
    std::int64_t price = 2 * catalogue.optics[static_cast<std::size_t>(lit.optic)].price_per_end.thousandths();
    for (const auto& attenuator : {lit.attenuator_at_start, lit.attenuator_at_end}) {
        if (attenuator) price += catalogue.attenuators[static_cast<std::size_t>(*attenuator)].price.thousandths();
    }
    return price;
}

/// The cheapest attenuator behind which every one of the directions is carried.
std::optional<int> cheapest_attenuator(const Scenario& scenario, const GlassPath& path,
                                       const std::vector<const OpticalFigures*>& directions) {
    return cheapest(
        scenario.catalogue.attenuators, [](const AttenuatorProduct& product) { return product.price; },
        [&](const AttenuatorProduct& product) {
            return std::all_of(directions.begin(), directions.end(), [&](const OpticalFigures* figures) {
                return carries(*figures, path, scenario.rules.loss, product.loss_db);
            });
        });
}

/// By how much an optic does not carry a link: limits failed, then dB beyond them, then its price.
struct Shortfall {
    int limits = 0;
    double decibels = 0;
    UnitPrice price;
    friend bool operator<(const Shortfall& a, const Shortfall& b) {
        return std::tie(a.limits, a.decibels, a.price) < std::tie(b.limits, b.decibels, b.price);
    }
};

Shortfall shortfall(const Scenario& scenario, const OpticProduct& optic, BitRate rate, const GlassPath& path) {
    constexpr int as_bad_as_all_limits = 8;
    Shortfall sum;
    sum.price = optic.price_per_end;
    if (optic.rate < rate) sum.limits += as_bad_as_all_limits;
    if (!is_within_lengths(optic, path)) ++sum.limits;
    for (const OpticalFigures* figures : {&optic.to_building, &optic.to_hub}) {
        const double most = greatest_loss_db(path, figures->wavelength_nm, scenario.rules.loss);
        const double least = least_loss_db(path, figures->wavelength_nm, scenario.rules.loss);
        for (const double beyond : {most - loss_limit_db(*figures), overload_excess_db(*figures, least)}) {
            if (beyond <= 1e-9) continue;
            ++sum.limits;
            sum.decibels += beyond;
        }
    }
    return sum;
}

}  // namespace

std::optional<Lighting> with_attenuators(const Scenario& scenario, const OpticProduct& optic, const GlassPath& path) {
    const LossRules& loss = scenario.rules.loss;
    const bool to_building = carries(optic.to_building, path, loss, 0);
    const bool to_hub = carries(optic.to_hub, path, loss, 0);
    Lighting lit;
    if (!is_within_lengths(optic, path)) return std::nullopt;
    if (to_building && to_hub) return lit;
    if (optic.strand_use == StrandUse::bidirectional) {
        lit.attenuator_at_end = cheapest_attenuator(scenario, path, {&optic.to_building, &optic.to_hub});
        return lit.attenuator_at_end ? std::optional(lit) : std::nullopt;
    }
    if (!to_building) lit.attenuator_at_end = cheapest_attenuator(scenario, path, {&optic.to_building});
    if (!to_hub) lit.attenuator_at_start = cheapest_attenuator(scenario, path, {&optic.to_hub});
    const bool helped = (to_building || lit.attenuator_at_end) && (to_hub || lit.attenuator_at_start);
    return helped ? std::optional(lit) : std::nullopt;
}

std::optional<Lighting> cheapest_lighting(const Scenario& scenario, BitRate rate, const GlassPath& path) {
    std::optional<Lighting> best;
    std::int64_t best_price = 0;
    for (int i = 0; i < static_cast<int>(scenario.catalogue.optics.size()); ++i) {
        const OpticProduct& optic = scenario.catalogue.optics[static_cast<std::size_t>(i)];
        if (!runs(optic, scenario, rate)) continue;
        auto lit = with_attenuators(scenario, optic, path);
        if (!lit) continue;
        lit->optic = i;
        const std::int64_t price = price_of(scenario, *lit);
        if (best && price >= best_price) continue;
        best = lit;
        best_price = price;
    }
    return best;
}

std::optional<Lighting> nearest_lighting(const Scenario& scenario, BitRate rate, const GlassPath& path) {
    std::optional<Lighting> nearest;
    Shortfall least;
    for (int i = 0; i < static_cast<int>(scenario.catalogue.optics.size()); ++i) {
        const OpticProduct& optic = scenario.catalogue.optics[static_cast<std::size_t>(i)];
        if (optic.strand_use != scenario.rules.strand_use) continue;
        const Shortfall here = shortfall(scenario, optic, rate, path);
        if (nearest && !(here < least)) continue;
        nearest = Lighting{i, {}, {}};
        least = here;
    }
    return nearest;
}

std::optional<int> least_optic(const Scenario& scenario, BitRate rate, Length least_glass) {
    return cheapest(
        scenario.catalogue.optics, [](const OpticProduct& optic) { return optic.price_per_end; },
        [&](const OpticProduct& optic) { return runs(optic, scenario, rate) && optic.reach >= least_glass; });
}

std::string why_no_optic(const Scenario& scenario, BitRate rate, const GlassPath& path) {
    const char* use = name_of(scenario.rules.strand_use);
    Length reach;
    for (const OpticProduct& optic : scenario.catalogue.optics) {
        if (runs(optic, scenario, rate)) reach = std::max(reach, optic.reach);
    }
    if (reach == Length()) return fmt::format("no {} optic in the catalogue runs {}", use, to_text(rate));
    if (reach < path.glass) {
        return fmt::format("{:.3f} km of glass is beyond the longest reach of {:.3f} km that the catalogue has at {}",
                           path.glass.metres() / 1000.0, reach.metres() / 1000.0, to_text(rate));
    }
    return fmt::format(
        "no {} optic in the catalogue carries {} over {:.3f} km with {} mated pairs and {} splices within "
        "its loss, overload and least-length limits",
        use, to_text(rate), path.glass.metres() / 1000.0, path.mated_pairs, path.splices);
}

}  // namespace spadework
