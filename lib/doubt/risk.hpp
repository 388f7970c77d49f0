#pragma once

// Plans a site under many draws of its ranges.

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "doubt/risk_sample.hpp"
#include "site_file/varying_site.hpp"
#include "study/study.hpp"

namespace spadework {

/// Which part of the draws: number `number` of `of`, from 1.
struct Shard {
    int number = 1;
    int of = 1;
};

struct RiskOptions {
    std::int64_t draws = 10'000;
    int replans = 16;  ///< Draws at which every layout is planned anew, besides the likely values.
    int checks = 4;    ///< Fresh draws at which every layout is planned anew, to see what the plans known leave.
    Shard shard;
    StudyOptions study;  ///< Of the plans at the likely values; layouts, threads, random seed and whom to tell for all.
};

struct RiskRun {
    RiskSample sample;
    std::vector<std::string> violations;  ///< Bugs found by the verifier; nothing may be shown when there are any.
};

/// Draws the site's ranges and finds for every draw and layout the cheapest of a pool of plans: the one made at the
/// likely values, and those made by a quick search at `replans` draws. Half of these are as far apart as can be, each
/// driver counted by what it moves the total; the other half likewise among the quarter of draws at which the two
/// cheapest layouts are nearest to each other, where another plan changes the answer most. Layouts that contain others
/// have their plans too. Every shard makes the same pool. The same options give the same sample, whatever the number of
/// threads and shards, unless a time limit or the observer cuts it short; then `interrupted` says what there is.
/// `scenario` has the likely values, and may have more segments than the file.
RiskRun run_risk(const Scenario& scenario, const site_file::VaryingSite& site, const RiskOptions& options);

}  // namespace spadework
