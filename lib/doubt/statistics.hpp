#pragma once

// Figures of a sample. Each names where its formula comes from; the tests hold them against other code.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace spadework {

/// The quantile at `share` (0 to 1) of values in ascending order, of which there is at least one: straight between the
/// two values around position share * (n - 1), counted from 0 (Hyndman and Fan 1996, definition 7).
double sample_quantile(const std::vector<double>& ascending, double share);

double mean_of(const std::vector<double>& values);

/// Divided by n - 1; 0 for fewer than two values.
double variance_of(const std::vector<double>& values);

/// Half the width of the 95 % interval of a mean estimated by independent replicates: Student's t with one degree of
/// freedom fewer than there are. 0 for fewer than two.
double half_width_95(const std::vector<double>& replicates);

/// Ranks from 1; equal values share the mean of theirs.
std::vector<double> ranks_of(const std::vector<double>& values);

/// Spearman's rank correlation (1904): Pearson's of the ranks. 0 where one side does not vary.
double rank_correlation(const std::vector<double>& a, const std::vector<double>& b);

/// First-order Sobol' index of an input: the share of the variance of `output` that is that of its mean given the
/// input. By the correlation ratio (Pearson 1905; for samples that are given: Plischke, Borgonovo and Smith 2013, EJOR
/// 226, 536-550): inputs between 0 and 1 fall into equal classes, 32 or as many as leave 150 values a class, and the
/// variance of the classes' means is held against the whole, less what chance puts there (Kelley's epsilon-squared,
/// 1935). May come out a little below 0 where the input has no part in it. 0 where the output does not vary or there is
/// one class.
double first_order_index(const std::vector<double>& input, const std::vector<double>& output);

}  // namespace spadework
