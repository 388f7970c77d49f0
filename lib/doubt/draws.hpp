#pragma once

// Points at which all drivers are drawn: a randomised quasi-random sequence, the same for every layout (common random
// numbers), whatever part of it is asked for.

#include <cstdint>
#include <vector>

namespace spadework {

/// So many draws of so many drivers. The draws are `replicates` sequences of Sobol' (1967; direction numbers of Joe and
/// Kuo 2008, from Boost.Random), each shifted digitally at random (Cranley-Patterson in base 2: L'Ecuyer and Lemieux
/// 2002), so that the spread between them tells the error of what is estimated from all. Draw i belongs to replicate i
/// modulo `replicates`. Drivers beyond those that direction numbers exist for are drawn at random.
class Draws {
public:
    static constexpr int replicates = 16;

    Draws(int drivers, std::int64_t count, std::uint64_t random_seed)
        : drivers_(drivers), count_(count), random_seed_(random_seed) {}

    [[nodiscard]] int drivers() const { return drivers_; }
    [[nodiscard]] std::int64_t count() const { return count_; }

    /// Quantiles of draws first to last - 1, driver by driver in each; above 0 and below 1.
    [[nodiscard]] std::vector<double> between(std::int64_t first, std::int64_t last) const;

    /// Quantiles of a draw that is none of these, at random.
    [[nodiscard]] std::vector<double> fresh(std::int64_t number) const;

private:
    int drivers_;
    std::int64_t count_;
    std::uint64_t random_seed_;
};

}  // namespace spadework
