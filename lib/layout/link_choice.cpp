#include "layout/link_choice.hpp"

#include <algorithm>

#include <fmt/format.h>

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

}  // namespace

std::optional<int> cheapest_optic(const Scenario& scenario, BitRate rate, const GlassPath& path) {
    return cheapest(
        scenario.catalogue.optics, [](const OpticProduct& optic) { return optic.price_per_end; },
        [&](const OpticProduct& optic) {
            return runs(optic, scenario, rate) && carries(optic, path, scenario.rules.loss);
        });
}

std::optional<int> least_optic(const Scenario& scenario, BitRate rate, Length least_glass) {
    return cheapest(
        scenario.catalogue.optics, [](const OpticProduct& optic) { return optic.price_per_end; },
        [&](const OpticProduct& optic) { return runs(optic, scenario, rate) && optic.reach >= least_glass; });
}

std::string why_no_optic(const Scenario& scenario, BitRate rate, const GlassPath& path) {
    const char* use = scenario.rules.strand_use == StrandUse::duplex ? "duplex" : "bidirectional";
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
