#include "rates/link_loss.hpp"

#include <algorithm>

namespace spadework {

namespace {

/// Room for the rounding of sums of decimal fractions, far below what any meter shows.
constexpr double rounding_db = 1e-9;

double longest_km(const OpticalFigures& figures, const GlassPath& path, const LossRules& loss) {
    return longest_km(budget_of(path, figures.wavelength_nm, loss), loss_limit_db(figures) + rounding_db);
}

}  // namespace

Attenuation attenuation_of(const Catalogue& catalogue, const OpticProduct& optic, std::optional<int> at_start,
                           std::optional<int> at_end) {
    const auto loss_of = [&](std::optional<int> attenuator) {
        return attenuator ? catalogue.attenuators[static_cast<std::size_t>(*attenuator)].loss_db : 0.0;
    };
    const double start = loss_of(at_start);
    const double end = loss_of(at_end);
    if (optic.strand_use == StrandUse::duplex) return {end, start};
    return {start + end, start + end};
}

double attenuation_db_per_km(double wavelength_nm, const LossRules& loss) {
    return wavelength_nm < 1530 ? loss.attenuation_1310_db_per_km : loss.attenuation_1550_db_per_km;
}

LossBudget budget_of(const GlassPath& path, double wavelength_nm, const LossRules& loss) {
    LossBudget budget;
    budget.fibre_db_per_km = attenuation_db_per_km(wavelength_nm, loss);
    budget.items = {{static_cast<double>(path.mated_pairs), loss.mated_pair_db},
                    {static_cast<double>(path.splices), loss.splice_db},
                    {1, loss.spare_margin_db}};
    return budget;
}

double greatest_loss_db(const GlassPath& path, double wavelength_nm, const LossRules& loss) {
    return total_loss_db(budget_of(path, wavelength_nm, loss), path.glass.metres() / 1000.0);
}

double least_loss_db(const GlassPath& path, double wavelength_nm, const LossRules& loss) {
    return attenuation_db_per_km(wavelength_nm, loss) * path.glass.metres() / 1000.0;
}

double loss_limit_db(const OpticalFigures& figures) {
    return figures.launch_min_dbm - figures.receive_min_dbm - figures.penalties_db;
}

double overload_excess_db(const OpticalFigures& figures, double least_loss) {
    return figures.launch_max_dbm - least_loss - figures.receive_max_dbm;
}

bool carries(const OpticalFigures& figures, const GlassPath& path, const LossRules& loss, double attenuator_db) {
    const double most = greatest_loss_db(path, figures.wavelength_nm, loss) + attenuator_db;
    const double least = least_loss_db(path, figures.wavelength_nm, loss) + attenuator_db;
    return most <= loss_limit_db(figures) + rounding_db && overload_excess_db(figures, least) <= rounding_db;
}

bool carries(const OpticProduct& optic, const GlassPath& path, const LossRules& loss, const Attenuation& attenuation) {
    return path.glass <= optic.reach && path.glass >= optic.least_length &&
           carries(optic.to_building, path, loss, attenuation.to_building_db) &&
           carries(optic.to_hub, path, loss, attenuation.to_hub_db);
}

Length longest_glass(const OpticProduct& optic, const GlassPath& path, const LossRules& loss) {
    const double kilometres = std::min(longest_km(optic.to_building, path, loss), longest_km(optic.to_hub, path, loss));
    if (kilometres <= 0) return {};
    const double reach_km = optic.reach.metres() / 1000.0;
    // Whole millimetres below the limit, so that the length itself is still carried.
    return kilometres >= reach_km ? optic.reach : Length::from_millimetres(static_cast<std::int64_t>(kilometres * 1e6));
}

}  // namespace spadework
