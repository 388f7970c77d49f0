#include "rates/link_loss.hpp"

namespace spadework {

namespace {

/// Room for the rounding of sums of decimal fractions, far below what any meter shows.
constexpr double rounding_db = 1e-9;

bool carries(const OpticalFigures& figures, const GlassPath& path, const LossRules& loss) {
    const double most = greatest_loss_db(path, figures.wavelength_nm, loss);
    const double least = least_loss_db(path, figures.wavelength_nm, loss);
    return most <= loss_limit_db(figures) + rounding_db && overload_excess_db(figures, least) <= rounding_db;
}

}  // namespace

double attenuation_db_per_km(double wavelength_nm, const LossRules& loss) {
    return wavelength_nm < 1530 ? loss.attenuation_1310_db_per_km : loss.attenuation_1550_db_per_km;
}

double greatest_loss_db(const GlassPath& path, double wavelength_nm, const LossRules& loss) {
    return least_loss_db(path, wavelength_nm, loss) + path.mated_pairs * loss.mated_pair_db +
           path.splices * loss.splice_db + loss.spare_margin_db;
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

bool carries(const OpticProduct& optic, const GlassPath& path, const LossRules& loss) {
    return path.glass <= optic.reach && path.glass >= optic.least_length && carries(optic.to_building, path, loss) &&
           carries(optic.to_hub, path, loss);
}

}  // namespace spadework
