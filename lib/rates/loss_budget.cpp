#include "rates/loss_budget.hpp"

#include <limits>

namespace spadework {

double total_loss_db(const LossBudget& budget, double kilometres) {
    double loss = (budget.fibre_db_per_km + budget.splices_db_per_km) * kilometres;
    for (const LossItem& item : budget.items)
        loss += item.count * item.each_db;
    return loss;
}

double longest_km(const LossBudget& budget, double available_db) {
    const double left = available_db - total_loss_db(budget, 0);
    const double per_km = budget.fibre_db_per_km + budget.splices_db_per_km;
    if (per_km > 0) return left / per_km;
    constexpr double endless = std::numeric_limits<double>::infinity();
    return left >= 0 ? endless : -endless;
}

}  // namespace spadework
