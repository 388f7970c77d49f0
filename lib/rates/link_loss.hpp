#pragma once

// Loss of a fibre link and whether an optic carries it.

#include <optional>

#include "catalogue/catalogue.hpp"
#include "rates/loss_budget.hpp"
#include "scenario/scenario.hpp"
#include "units/length.hpp"

namespace spadework {

/// What lies between two optics.
struct GlassPath {
    Length glass;
    int mated_pairs = 0;
    int splices = 0;
};

/// What attenuators take in front of each receiver, dB. One on a strand that carries both directions takes it of both.
struct Attenuation {
    double to_building_db = 0;
    double to_hub_db = 0;
};

/// What attenuators of the catalogue, where a link begins and where it ends, take of each direction of an optic.
Attenuation attenuation_of(const Catalogue& catalogue, const OpticProduct& optic, std::optional<int> at_start,
                           std::optional<int> at_end);

/// Attenuation of the fibre at a wavelength, dB/km: the 1550 nm figure from 1530 nm up, where ITU-T G.652.D gives its
/// lower maximum (11/2016, Table 2; value from memory); the larger 1310 nm figure everywhere below, 1490 nm included.
double attenuation_db_per_km(double wavelength_nm, const LossRules& loss);

/// The budget of a link's glass at a wavelength: fibre, mated pairs and splices at their allowances, the spare margin.
LossBudget budget_of(const GlassPath& path, double wavelength_nm, const LossRules& loss);

/// Greatest loss expected: attenuation * length + mated pairs + splices + spare margin, each at its allowance
/// (the limit formula of MIL-STD-2042-6B(SH) 3.3.2).
double greatest_loss_db(const GlassPath& path, double wavelength_nm, const LossRules& loss);

/// Least loss expected: the fibre alone.
double least_loss_db(const GlassPath& path, double wavelength_nm, const LossRules& loss);

/// Loss the plant may have: launch_min - receive_min - penalties.
double loss_limit_db(const OpticalFigures& figures);

/// How far the strongest signal passes the receiver's overload limit, dB; 0 or less is safe.
double overload_excess_db(const OpticalFigures& figures, double least_loss);

/// Whether one direction keeps to its loss limit and its overload limit behind an attenuator of so much.
bool carries(const OpticalFigures& figures, const GlassPath& path, const LossRules& loss, double attenuator_db);

/// Whether an optic's reach, least length, loss limit and overload limit all hold, in both directions.
bool carries(const OpticProduct& optic, const GlassPath& path, const LossRules& loss,
             const Attenuation& attenuation = {});

/// The longest glass an optic carries through so many mated pairs and splices: its reach, or where the loss limit of
/// either direction ends it before. 0 where the connections alone are too much.
Length longest_glass(const OpticProduct& optic, const GlassPath& path, const LossRules& loss);

}  // namespace spadework
