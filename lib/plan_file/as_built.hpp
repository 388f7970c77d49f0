#pragma once

// What was measured on a plan once it was built, and what was made of it.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "units/length.hpp"

namespace spadework::plan_file {

/// What becomes of a reading: the worst first.
enum class Verdict {
    swapped,            ///< Two strands fit each other's expected length or loss, and not their own.
    fail,               ///< Over the limit.
    wrong_length,       ///< The trace ends elsewhere than the cables as ordered.
    too_good,           ///< Below what fibre of that length can lose.
    directions_differ,  ///< One direction far from the other.
    missing,            ///< No loss was read.
    not_in_plan,        ///< A reading of something that the plan does not have.
    pass,
};
inline constexpr int verdict_count = 8;

/// "swapped", "fail", "wrong-length", …: in the order of Verdict.
const std::vector<std::string>& verdict_words();

/// One strand of one link from one end at one wavelength: what a row of the test sheet is for.
struct ReadingKey {
    std::string building;
    int link = 1;
    int leg = 1;
    std::string from;  ///< Where it is measured from: "hub" or a building.
    std::int64_t wavelength_pm = 0;
    friend bool operator==(const ReadingKey&, const ReadingKey&) = default;
    friend auto operator<=>(const ReadingKey&, const ReadingKey&) = default;
};

struct NamedReading {
    ReadingKey key;
    std::optional<std::int64_t> loss_mdb;  ///< Thousandths of a decibel.
    std::optional<Length> length;          ///< To the end of the trace.
    std::string date;                      ///< As it was written.
    std::string tested_by;
    Verdict verdict = Verdict::missing;
    std::string why;  ///< In words; empty for a pass.
};

/// A cable with the length that was measured on it, where a link has it all to itself.
struct AsBuiltCable {
    std::string cable;
    Length ordered;
    std::optional<Length> measured;  ///< Mean of its strands.
};

/// How far readings may be from what was planned. Common practice, no published source; figures are the site's own.
struct AcceptanceLimits {
    std::int64_t length_share = 3000;                      ///< Thousandths of a percent of the planned length.
    Length length_least = Length::from_millimetres(2000);  ///< And this much at least.
    std::int64_t direction_mdb = 500;                      ///< Between the two directions of a strand.
};

struct AsBuilt {
    AcceptanceLimits limits;
    std::vector<AsBuiltCable> cables;    ///< In the order of the plan.
    std::vector<NamedReading> readings;  ///< In the order of the test sheet, then those not in the plan.
};

}  // namespace spadework::plan_file
