#pragma once

// Loss of a fibre link and whether an optic carries it.

#include "catalogue/catalogue.hpp"
#include "scenario/scenario.hpp"
#include "units/length.hpp"

namespace spadework {

/// What lies between two optics.
struct GlassPath {
    Length glass;
    int mated_pairs = 0;
    int splices = 0;
};

/// Attenuation of the fibre at a wavelength, dB/km: the 1550 nm figure from 1530 nm up, where ITU-T G.652.D gives its
/// lower maximum (11/2016, Table 2; value from memory); the larger 1310 nm figure everywhere below, 1490 nm included.
double attenuation_db_per_km(double wavelength_nm, const LossRules& loss);

/// Greatest loss expected: attenuation * length + mated pairs + splices + spare margin, each at its allowance
/// (the limit formula of MIL-STD-2042-6B(SH) 3.3.2).
double greatest_loss_db(const GlassPath& path, double wavelength_nm, const LossRules& loss);

/// Least loss expected: the fibre alone.
double least_loss_db(const GlassPath& path, double wavelength_nm, const LossRules& loss);

/// Loss the plant may have: launch_min - receive_min - penalties.
double loss_limit_db(const OpticalFigures& figures);

/// How far the strongest signal passes the receiver's overload limit, dB; 0 or less is safe.
double overload_excess_db(const OpticalFigures& figures, double least_loss);

/// Whether an optic's reach, least length, loss limit and overload limit all hold, in both directions.
bool carries(const OpticProduct& optic, const GlassPath& path, const LossRules& loss);

}  // namespace spadework
