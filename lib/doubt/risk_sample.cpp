#include "doubt/risk_sample.hpp"

#include <tuple>

namespace spadework {

bool operator==(const RiskHead& a, const RiskHead& b) {
    const auto all = [](const RiskHead& head) {
        return std::tie(head.site, head.digest, head.currency.code, head.currency.minor_digits,
                        head.contingency_thousandths, head.random_seed, head.draws, head.replans, head.checks,
                        head.lengths_vary, head.drivers, head.keys, head.layouts);
    };
    return all(a) == all(b);
}

}  // namespace spadework
