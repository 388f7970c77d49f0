#pragma once

// A site with one of its inputs at another value.

#include <optional>
#include <string>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "scenario/scenario.hpp"
#include "site_file/varying_site.hpp"

namespace spadework {

/// An input that a sweep moves: a number of the site file by its key as `check --show-defaults` lists it, or one of the
/// words below.
struct SweptInput {
    std::string key;
    double from = 0;
    double to = 0;
    int points = 2;      ///< Both ends are points.
    std::string unit;    ///< As the site file states the value; empty for plain numbers and words.
    bool whole = false;  ///< Only whole numbers mean something.
    /// Point `number`, from 0.
    [[nodiscard]] double at(int number) const;
};

/// "distance": every segment so many times as long. "buildings": the first so many of the site's buildings, by their
/// way from the hub. "links": so many links to every building, each at the fastest rate that it has. "spare-strands":
/// so many spare strands at least in every trunk.
const std::vector<std::string>& sweep_words();

/// Whether an input moves prices and working times alone: then what a plan costs is linear in it, but for rounding.
bool moves_prices_alone(const SweptInput& input, const Scenario& scenario);

/// Whether every plan of the site at a larger value of the input is one at a smaller value too, at the same cost: more
/// spare strands only call for larger cables and enclosures. Then a bound at a value holds at all larger ones.
bool narrows_plans(const SweptInput& input);

struct SweptSite {
    std::optional<Scenario> scenario;
    Diagnostics diagnostics;  ///< What is wrong with the value, where there is no scenario.
};
/// The site with each input at its value. Keys are set before words.
SweptSite site_at(const Scenario& scenario, const site_file::VaryingSite& site, const std::vector<SweptInput>& inputs,
                  const std::vector<double>& values);

}  // namespace spadework
