#pragma once

#include <compare>
#include <cstdint>
#include <string>

#include "units/length.hpp"
#include "units/work_time.hpp"

namespace spadework {

/// An amount of money in whole minor units (cents) of the site's currency.
class Money {
public:
    constexpr Money() = default;
    static constexpr Money from_minor(std::int64_t minor) { return Money(minor); }

    [[nodiscard]] constexpr std::int64_t minor() const { return minor_; }

    constexpr Money& operator+=(Money other) {
        minor_ += other.minor_;
        return *this;
    }
    friend constexpr Money operator+(Money a, Money b) { return Money(a.minor_ + b.minor_); }
    friend constexpr Money operator-(Money a, Money b) { return Money(a.minor_ - b.minor_); }
    friend constexpr Money operator*(Money a, std::int64_t times) { return Money(a.minor_ * times); }
    friend constexpr auto operator<=>(Money a, Money b) = default;

private:
    explicit constexpr Money(std::int64_t minor) : minor_(minor) {}
    std::int64_t minor_ = 0;
};

/// A price a metre, a piece or an hour, in whole thousandths of a minor unit, so that amounts are exact products.
class UnitPrice {
public:
    constexpr UnitPrice() = default;
    static constexpr UnitPrice from_thousandths(std::int64_t thousandths) { return UnitPrice(thousandths); }
    static constexpr UnitPrice from_money(Money money) { return UnitPrice(money.minor() * 1000); }
    /// Nearest thousandth of a minor unit; `minor_units` must be finite and below 10^13.
    static UnitPrice from_minor(double minor_units);

    [[nodiscard]] constexpr std::int64_t thousandths() const { return thousandths_; }

    friend constexpr UnitPrice operator+(UnitPrice a, UnitPrice b) {
        return UnitPrice(a.thousandths_ + b.thousandths_);
    }
    friend constexpr auto operator<=>(UnitPrice a, UnitPrice b) = default;

private:
    explicit constexpr UnitPrice(std::int64_t thousandths) : thousandths_(thousandths) {}
    std::int64_t thousandths_ = 0;
};

/// Quantity times unit price, exact and then rounded half up to a whole minor unit.
Money amount(UnitPrice per_metre, Length length);
Money amount(UnitPrice per_hour, WorkTime time);
Money amount(UnitPrice per_piece, std::int64_t pieces);

/// A share in whole thousandths of a percent: 8.875 % is 8875.
class Percent {
public:
    constexpr Percent() = default;
    /// Nearest thousandth of a percent.
    static Percent from_percent(double percent);
    static constexpr Percent from_thousandths(std::int64_t thousandths) { return Percent(thousandths); }

    [[nodiscard]] constexpr std::int64_t thousandths() const { return thousandths_; }
    [[nodiscard]] constexpr double percent() const { return static_cast<double>(thousandths_) / 1000.0; }
    [[nodiscard]] constexpr double fraction() const { return static_cast<double>(thousandths_) / 100000.0; }

    friend constexpr auto operator<=>(Percent a, Percent b) = default;

private:
    explicit constexpr Percent(std::int64_t thousandths) : thousandths_(thousandths) {}
    std::int64_t thousandths_ = 0;
};

/// The given percentage of an amount, rounded half up to a whole minor unit. Monotone in the amount.
Money share_of(Money money, Percent percent);

/// Currency of a site: ISO 4217 letter code and number of digits behind the point.
struct Currency {
    std::string code = "EUR";
    int minor_digits = 2;
};

/// "1234.50" with as many digits behind the point as the currency has; no thousands separator.
std::string decimal_text(Money money, const Currency& currency);

}  // namespace spadework
