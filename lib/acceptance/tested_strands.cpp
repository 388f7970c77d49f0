#include "acceptance/tested_strands.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <tuple>

namespace spadework::acceptance {

namespace {

using Rows = std::vector<JudgedReading>;

/// Strands that are looked at in pairs: where more are suspect, what is wrong is no swap.
constexpr std::size_t most_suspects = 2000;

std::optional<Length> mean_length(const std::vector<std::size_t>& positions, const Rows& rows) {
    std::int64_t sum = 0;
    std::int64_t count = 0;
    for (const std::size_t r : positions) {
        if (!rows[r].reading.length) continue;
        sum += rows[r].reading.length->millimetres();
        ++count;
    }
    if (count == 0) return std::nullopt;
    return Length::from_millimetres((sum + count / 2) / count);
}

std::int64_t distance(Length a, Length b) {
    return std::abs(a.millimetres() - b.millimetres());
}

bool within(std::int64_t loss_mdb, const plan_file::NamedLimit& limit) {
    return loss_mdb >= limit.least_mdb && loss_mdb <= limit.pass_mdb;
}

class SwapFinder {
public:
    SwapFinder(const std::vector<TestedStrand>& strands, const Rows& rows, const AcceptanceLimits& limits)
        : strands_(strands), rows_(rows), limits_(limits), taken_(strands.size(), false) {}

    std::vector<Swap> run() {
        take(candidates([this](std::size_t s) { return misfits_by_length(s); },
                        [this](std::size_t a, std::size_t b) { return swapped_by_length(a, b); }),
             true);
        take(candidates([this](std::size_t s) { return breaks_own_limits(s); },
                        [this](std::size_t a, std::size_t b) { return swapped_by_loss(a, b); }),
             false);
        return std::move(swaps_);
    }

private:
    /// How well two strands fit each other, the best least, and which they are.
    using Candidate = std::tuple<std::int64_t, std::size_t, std::size_t>;

    template <typename Suspect, typename Fit>
    std::vector<Candidate> candidates(Suspect is_suspect, Fit fit) const {
        std::vector<std::size_t> suspects;
        for (std::size_t s = 0; s < strands_.size(); ++s) {
            if (suspects.size() < most_suspects && !taken_[s] && is_suspect(s)) suspects.push_back(s);
        }
        std::vector<Candidate> found;
        for (std::size_t i = 0; i < suspects.size(); ++i) {
            for (std::size_t j = i + 1; j < suspects.size(); ++j) {
                const std::optional<std::int64_t> off = fit(suspects[i], suspects[j]);
                if (off) found.emplace_back(*off, suspects[i], suspects[j]);
            }
        }
        std::ranges::sort(found);
        return found;
    }

    void take(const std::vector<Candidate>& candidates, bool by_length) {
        for (const auto& [off, a, b] : candidates) {
            if (taken_[a] || taken_[b]) continue;
            taken_[a] = taken_[b] = true;
            swaps_.push_back({a, b, by_length});
        }
    }

    [[nodiscard]] Length expected(std::size_t s) const { return strands_[s].test->glass; }

    [[nodiscard]] bool misfits_by_length(std::size_t s) const {
        return strands_[s].length && !length_fits(*strands_[s].length, expected(s), limits_);
    }

    [[nodiscard]] std::optional<std::int64_t> swapped_by_length(std::size_t a, std::size_t b) const {
        const Length length_a = *strands_[a].length;
        const Length length_b = *strands_[b].length;
        if (!length_fits(length_a, expected(b), limits_) || !length_fits(length_b, expected(a), limits_))
            return std::nullopt;
        return distance(length_a, expected(b)) + distance(length_b, expected(a));
    }

    [[nodiscard]] bool breaks_own_limits(std::size_t s) const {
        return std::ranges::any_of(strands_[s].rows, [&](std::size_t r) {
            const auto& loss = rows_[r].reading.loss_mdb;
            return loss && !within(*loss, rows_[r].limit);
        });
    }

    /// Whether every loss of one strand keeps the limits of another at the same wavelengths.
    [[nodiscard]] bool losses_fit(std::size_t s, std::size_t other) const {
        std::map<std::int64_t, plan_file::NamedLimit> limits;
        for (const plan_file::NamedLimit& limit : strands_[other].test->limits)
            limits.emplace(limit.wavelength_pm, limit);
        bool any = false;
        for (const std::size_t r : strands_[s].rows) {
            const auto& loss = rows_[r].reading.loss_mdb;
            if (!loss) continue;
            const auto limit = limits.find(rows_[r].reading.key.wavelength_pm);
            if (limit == limits.end() || !within(*loss, limit->second)) return false;
            any = true;
        }
        return any;
    }

    /// Only where lengths say nothing against it.
    [[nodiscard]] std::optional<std::int64_t> swapped_by_loss(std::size_t a, std::size_t b) const {
        const auto speaks_against = [&](std::size_t s, std::size_t other) {
            return strands_[s].length && !length_fits(*strands_[s].length, expected(other), limits_);
        };
        if (speaks_against(a, b) || speaks_against(b, a)) return std::nullopt;
        if (!losses_fit(a, b) || !losses_fit(b, a)) return std::nullopt;
        return 0;
    }

    const std::vector<TestedStrand>& strands_;
    const Rows& rows_;
    const AcceptanceLimits& limits_;
    std::vector<bool> taken_;
    std::vector<Swap> swaps_;
};

}  // namespace

std::vector<TestedStrand> tested_strands(const plan_file::PlanFile& plan, const Rows& rows) {
    std::vector<TestedStrand> strands;
    std::size_t next = 0;
    for (const plan_file::NamedTest& test : plan.tests) {
        TestedStrand strand{&test, {}, {}};
        for (std::size_t row = 0; row < 2 * test.limits.size(); ++row)
            strand.rows.push_back(next++);
        strand.length = mean_length(strand.rows, rows);
        strands.push_back(std::move(strand));
    }
    return strands;
}

std::vector<Swap> swaps_among(const std::vector<TestedStrand>& strands, const Rows& rows,
                              const AcceptanceLimits& limits) {
    return SwapFinder(strands, rows, limits).run();
}

}  // namespace spadework::acceptance
