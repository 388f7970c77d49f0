#pragma once

// Parts of a sample worked out apart: read from files, and put together again.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "doubt/risk_sample.hpp"

namespace spadework {

/// The word and the version that head a shard file (see report/risk_report.hpp for its form).
inline constexpr const char* shard_format = "spadework risk shard";
inline constexpr std::int64_t shard_version = 1;

/// Most draws of one study.
inline constexpr std::int64_t most_draws = 1'000'000;

struct ReadShard {
    std::optional<RiskSample> sample;  ///< Nothing when the diagnostics hold an error.
    Diagnostics diagnostics;
};

/// Reads a shard file. Every problem is told in one pass with its line and column. Any bytes are taken without harm.
ReadShard read_shard(const std::string& file, std::string_view text);

struct NamedSample {
    std::string file;
    RiskSample sample;
};

/// The whole sample that the parts make, whatever their order. An error for every part of another study than the first,
/// for draws that two parts have, and for draws that none has; then there is no sample.
std::optional<RiskSample> merged(std::vector<NamedSample> parts, Diagnostics& diagnostics);

}  // namespace spadework
