#pragma once

// What holds for every plan of a site: losses, slack, spares, duct fill, failure rates, taxes.

#include "catalogue/catalogue.hpp"
#include "catalogue/fibre_colour.hpp"
#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework {

enum class Termination { factory, spliced };

/// Loss allowances, dB and dB/km.
struct LossRules {
    double attenuation_1310_db_per_km = 0.4;
    double attenuation_1550_db_per_km = 0.3;
    double mated_pair_db = 0.75;
    double splice_db = 0.3;
    double spare_margin_db = 0;
};

/// Length beyond the map that a cable needs.
struct SlackRules {
    Length rise_per_end;  ///< From the trench up to the gear or into the enclosure.
    Length coil_per_end;
    Length coil_per_handhole;    ///< In every handhole the cable passes through.
    Percent ordering_allowance;  ///< On the whole length, after rise and coils.
};

/// Spare strands beyond those in use.
struct SpareRules {
    Percent trunk_spare;  ///< Of the strands in use in a trunk.
    int trunk_spare_least = 0;
    int drop_spare_least = 0;  ///< In a drop, home run or hop.
};

/// Most of a duct's cross-section that cables may take, by how many lie in it.
struct FillRules {
    Percent one_cable = Percent::from_thousandths(53000);
    Percent two_cables = Percent::from_thousandths(31000);
    Percent more_cables = Percent::from_thousandths(40000);
};

/// How open ground becomes ways.
struct OpenGroundRules {
    Length spacing;       ///< Between the points of the lattice; 0: by the size of the open ground.
    int directions = 16;  ///< Ways from each point: 8, 16 or 32.
    Length reach;         ///< Segments and buildings this near to open ground are joined to it.
};

/// How often something fails, and how long it is down each time.
struct FailureRate {
    double per_year = 0;
    double repair_hours = 0;
    [[nodiscard]] double minutes_per_year() const { return per_year * repair_hours * 60; }
};

/// Rates are the site's own, not law.
struct FailureRules {
    FailureRate cut_per_km;  ///< Of a kilometre of trench, duct or pole line.
    FailureRate enclosure;
    FailureRate building_gear;  ///< All gear in one building.
    FailureRate hub;
};

struct Rules {
    Termination termination = Termination::factory;
    StrandUse strand_use = StrandUse::duplex;  ///< Of all links of a plan.
    /// A plan may have either strand use, whichever makes it cheaper; `strand_use` then means nothing until a copy of
    /// the scenario settles it (see settled_on()).
    bool either_strand_use = false;
    int most_enclosures = 1;
    int hop_limit = 8;  ///< Most buildings in one chain or ring.
    LossRules loss;
    SlackRules slack;
    SpareRules spare;
    Percent contingency;
    Percent tax;
    int spare_copper_ports = 0;                        ///< Wanted free on every building's switch.
    Length longest_copper = Length::from_metres(100);  ///< From a switch to a device, cords included.
    FillRules duct_fill;
    OpenGroundRules open_ground;
    FailureRules failures;
    ColourOrder colours = tia_598_order();  ///< Of strands and tubes.
};

}  // namespace spadework
