#pragma once

// Figures as the pictures print them: a comma between thousands.

#include <string>

#include "scenario/scenario.hpp"

namespace spadework::drawing {

/// "12,345.60", without the currency.
std::string money_figure(Money money, const Currency& currency);
/// A unit price with the currency's digits and up to three more where they are not 0.
std::string price_figure(UnitPrice price, const Currency& currency);

/// "m" or "ft".
const char* length_unit(const Scenario& scenario);
/// In the site's unit.
double in_length_unit(Length length, const Scenario& scenario);
/// "1,234.5", in the site's unit.
std::string length_figure(Length length, const Scenario& scenario);
/// "1,234.5 m".
std::string length_in_words(Length length, const Scenario& scenario);

/// "1 cable", "3 cables".
std::string counted(std::size_t count, const char* one, const char* several);

}  // namespace spadework::drawing
