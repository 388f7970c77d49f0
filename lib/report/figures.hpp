#pragma once

// Numbers as reports print them: for people with a comma between thousands, for files without.

#include <cstdint>
#include <string>

#include "scenario/scenario.hpp"
#include "units/length.hpp"
#include "units/money.hpp"
#include "units/work_time.hpp"

namespace spadework::report {

/// A number with `digits` digits behind the point and grouped thousands; "-" for one that is not finite.
std::string figure(double value, int digits);

/// A whole number with grouped thousands.
std::string figure(std::int64_t value);

/// Money with the currency's digits, grouped, without the currency: "12,345.60".
std::string figure(Money money, const Currency& currency);

/// A unit price with the currency's digits and up to three more where they are not 0: "1.305".
std::string figure(UnitPrice price, const Currency& currency);

/// "m" or "ft".
const char* length_unit(const Scenario& scenario);

/// A price a metre turned into one a foot where the site is in feet, to the nearest thousandth of a minor unit.
UnitPrice price_a_length_unit(UnitPrice per_metre, const Scenario& scenario);

/// A length in the site's unit, grouped, one digit behind the point.
std::string figure(Length length, const Scenario& scenario);

/// Hours with one digit behind the point.
std::string figure(WorkTime time);

/// The same values for files: exact, no grouping, no unit.
std::string plain(Length length, const Scenario& scenario);  ///< In the site's unit, to a thousandth.
std::string plain_metres(Length length);                     ///< In metres, to a millimetre.
std::string plain(UnitPrice price, const Currency& currency);
std::string plain(double value, int most_digits);  ///< Trailing zeros dropped; "" when not finite.
/// Digits that read back as the very same number, without an exponent; "" when not finite.
std::string plain_exact(double value);

}  // namespace spadework::report
