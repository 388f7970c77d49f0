#pragma once

// What a trunk's size costs now and later, as tables and sentences for every kind of report. Amounts are direct cost,
// before contingency and tax.

#include <string>
#include <vector>

#include "report/text_table.hpp"
#include "scenario/scenario.hpp"
#include "strands/growth_rates.hpp"
#include "strands/strand_study.hpp"

namespace spadework::report {

/// Of which trunk the amounts are, and how later ones are counted.
std::vector<std::string> strand_cost_opening(const Scenario& scenario, const StrandStudy& study);

/// Each cable size: price now, expected later cost and their sum, without a spare duct and with one.
TextTable strand_cost_table(const Scenario& scenario, const StrandStudy& study);

/// The recommended size year by year: the chance that it has run out, and the cost expected. Empty where it lasts.
TextTable run_out_table(const Scenario& scenario, const StrandStudy& study);

/// A spare duct now against opening again later, ground by ground, with the chance at which both cost the same.
TextTable dig_once_table(const Scenario& scenario, const StrandStudy& study);

/// Each size that meets the policy against the one below it: what it costs more, and the chance at which that pays.
TextTable larger_now_table(const Scenario& scenario, const StrandStudy& study);

/// What policies from practice want on this site.
TextTable spare_policy_table(const Scenario& scenario, const StrandStudy& study);

/// Where the published ones are from.
std::vector<std::string> spare_policy_sources(const Scenario& scenario, const StrandStudy& study);

/// The recommendation at several rates of unnamed growth.
TextTable growth_rate_table(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates);

/// At which rates the recommendation changes, one sentence each.
std::vector<std::string> rate_switches(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates);

/// What is recommended, with its money.
std::string recommendation_sentence(const Scenario& scenario, const StrandStudy& study);

}  // namespace spadework::report
