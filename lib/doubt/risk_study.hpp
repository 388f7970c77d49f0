#pragma once

// What a sample says: how dear each layout may become, which is the best bet, what the doubt comes from, and how much
// contingency buys how much confidence.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "doubt/risk_sample.hpp"

namespace spadework {

/// An estimate, and half the width of its 95 % interval by the spread of the replicates.
struct Estimate {
    double value = 0;
    double half_width = 0;
};

inline constexpr std::array<int, 4> outlook_percents = {10, 50, 80, 90};

/// Totals in minor units, of the cheapest plans known at each draw, unless said otherwise.
struct LayoutOutlook {
    std::array<Estimate, outlook_percents.size()> quantiles;  ///< At outlook_percents.
    Estimate mean;
    double deviation = 0;  ///< Standard deviation.
    /// Share of draws at which no other layout costs less; where several cost the same all of them count.
    Estimate cheapest;
    double no_plan_share = 0;  ///< Of draws at which it cannot be built; all else is of the others.
    /// Taking today's plan of this layout, whatever happens, against the cheapest plan known of any layout.
    Estimate regret;
    double regret_90 = 0;  ///< What nine draws of ten do not exceed.
    Estimate held;         ///< Mean of what today's plan costs more than the layout's cheapest plan known.
};

/// One source of doubt about today's plan of the recommended layout.
struct DriverShare {
    int driver = 0;          ///< Index into the head's drivers.
    Estimate share;          ///< First-order Sobol' index.
    double correlation = 0;  ///< Spearman's, of the driver's quantile and the total.
    /// Mean totals of the tenth of draws at which it stands lowest, and highest.
    double low_mean = 0;
    double high_mean = 0;
};

inline constexpr std::array<int, 6> confidence_percents = {50, 60, 70, 80, 90, 95};

/// How much contingency covers today's plan of the recommended layout with that confidence.
struct ContingencyRow {
    double confidence = 0;   ///< Share of draws that it covers.
    double percent = 0;      ///< Contingency on the direct cost at likely values.
    double contingency = 0;  ///< The same in minor units, before tax.
    Estimate total;          ///< What the customer pays then, tax included.
    bool of_site = false;    ///< The contingency that the site's rules have.
};

struct RiskStudy {
    std::int64_t draws = 0;                   ///< That the figures rest on.
    std::vector<LayoutOutlook> layouts;       ///< As in the head; empty where there are no draws.
    std::optional<int> recommended;           ///< Index: the least mean total of those that can always be built.
    std::vector<DriverShare> drivers;         ///< The largest share first.
    double explained = 0;                     ///< Sum of the shares; what is missing comes from ranges acting together.
    std::vector<ContingencyRow> contingency;  ///< Ascending by percent.
};

/// The sample must begin with draw 0. The same sample gives the same study, bit for bit.
RiskStudy study_risk(const RiskSample& sample);

}  // namespace spadework
