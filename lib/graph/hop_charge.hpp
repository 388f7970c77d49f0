#pragma once

// Hops that may only be so long: what longer ones are charged while plans are looked for, and how to look for ways that
// are shorter than the cheapest. Heuristics.

#include <algorithm>
#include <limits>
#include <optional>
#include <utility>

#include "graph/saturating.hpp"

namespace spadework::graph {

constexpr Length kAnyLength = std::numeric_limits<Length>::max();

/// Keeps a search off hops beyond a limit, yet lets it pass over plans that have some. No part of what plans cost.
class HopCharge {
public:
    /// No hop is charged anything.
    HopCharge() = default;
    /// A hop that spans more than the limit is charged `least` at least, and the more the longer it is; all hops of a
    /// plan, of which there are so many at the most, no more than 2^59.
    HopCharge(Length limit, Cost least, Cost hops)
        : limit_(limit), most_((Cost{1} << 59) / (hops + 1)), least_(std::clamp<Cost>(least, 1, most_)) {}

    [[nodiscard]] bool limits() const { return limit_ != kAnyLength; }
    [[nodiscard]] Cost of(Length span) const { return span <= limit_ ? 0 : beyond(span); }

    /// From here on such hops are charged several times as much.
    void raise() { least_ = std::min(most_, times(least_, 8)); }

private:
    [[nodiscard]] Cost beyond(Length span) const {
        const WideCost more = static_cast<WideCost>(least_) * (span - limit_) / (static_cast<WideCost>(limit_) + 1);
        return static_cast<Cost>(std::min<WideCost>(most_, least_ + more));
    }

    Length limit_ = kAnyLength;
    Cost most_ = 0;
    Cost least_ = 0;
};

/// How edges count in the search for a way: what they cost and so much for each unit that they span, or that alone.
struct Weighing {
    Cost a_span = 0;
    bool spans_alone = false;

    /// No more than `most`, which keeps the sums of ways in range.
    [[nodiscard]] Cost of(Cost price, Length span, Cost most) const {
        return spans_alone ? span : std::min(most, add(price, times(a_span, span)));
    }
};

/// What ways cost, what they span, and what hops by them are charged.
struct MeasuredWays {
    Cost price = 0;
    Length span = 0;
    Cost charge = 0;

    [[nodiscard]] Cost all() const { return add(price, charge); }
    friend bool operator==(const MeasuredWays&, const MeasuredWays&) = default;
};

/// Looks for other ways where the cheapest are charged, at weights found step by step (after Handler and Zang, "A dual
/// algorithm for the constrained shortest path problem", Networks 10, 1980): those that cost least, charges counted.
/// `find` makes the best ways, if any, of a Weighing, `measure` makes MeasuredWays of ways.
template <class Ways, class Find, class Measure>
Ways cheapest_with_charges(Ways cheapest, Find find, Measure measure) {
    constexpr int kWeights = 6;
    MeasuredWays beyond = measure(cheapest);
    Cost least = beyond.all();
    Ways best = std::move(cheapest);
    const auto look = [&](Weighing weighing) {
        std::optional<Ways> found = find(weighing);
        const MeasuredWays here = found ? measure(*found) : beyond;
        if (here.all() < least) {
            least = here.all();
            best = std::move(*found);
        }
        return here;
    };
    MeasuredWays within = look({0, true});
    for (int i = 0; i < kWeights && within.charge == 0 && within.span < beyond.span; ++i) {
        const Cost weight = (within.price - beyond.price) / (beyond.span - within.span);
        if (weight <= 0) break;
        const MeasuredWays next = look({weight, false});
        if (next == within || next == beyond) break;
        (next.charge == 0 ? within : beyond) = next;
    }
    return best;
}

}  // namespace spadework::graph
