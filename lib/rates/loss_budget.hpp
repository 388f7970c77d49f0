#pragma once

// A loss budget as it is worked by hand: what is lost by the kilometre, then item by item.

#include <vector>

namespace spadework {

/// What takes light so many times: connectors of one kind, splices, a margin that is kept.
struct LossItem {
    double count = 1;
    double each_db = 0;
};

struct LossBudget {
    double fibre_db_per_km = 0;
    double splices_db_per_km = 0;  ///< Where splices are counted by the length.
    std::vector<LossItem> items;
};

/// Attenuation * length + splices by the length + each item as often as it is there: the limit formula
/// MAL = Aca L + Nco Lco + Ns Ls of MIL-STD-2042-6B(SH) 3.3.2, with as many kinds of item as there are. dB.
double total_loss_db(const LossBudget& budget, double kilometres);

/// The length at which a budget comes to what may be lost, km: (available - items) / loss by the kilometre. Below 0
/// where the items alone are too much. Where nothing is lost by the kilometre there is no such length: infinity, or
/// minus infinity.
double longest_km(const LossBudget& budget, double available_db);

}  // namespace spadework
