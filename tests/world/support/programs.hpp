#pragma once

// General programs of the system, run on text.

#include <optional>
#include <string>

namespace spadework {

/// Whether the shell finds a program of that name.
bool has_program(const std::string& name);

/// Minimum of a linear program in CPLEX LP text, by glpsol (glpk-utils) or cbc (coinor-cbc); nothing when the program
/// fails or finds no optimum.
std::optional<double> minimum_by_glpsol(const std::string& lp);
std::optional<double> minimum_by_cbc(const std::string& lp);

}  // namespace spadework
