#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

namespace spadework {

/// A length in whole millimetres, so that metres add up exactly however they are grouped.
class Length {
public:
    constexpr Length() = default;

    /// Nearest whole millimetre. The value must be finite and below 10^9 m.
    static Length from_metres(double metres) { return Length(std::llround(metres * 1000.0)); }
    /// International foot, 0.3048 m exactly (NIST Special Publication 811, appendix B.6).
    static Length from_feet(double feet) { return Length(std::llround(feet * 304.8)); }
    static constexpr Length from_millimetres(std::int64_t millimetres) { return Length(millimetres); }

    [[nodiscard]] constexpr double metres() const { return static_cast<double>(millimetres_) / 1000.0; }
    [[nodiscard]] constexpr double feet() const { return static_cast<double>(millimetres_) / 304.8; }
    [[nodiscard]] constexpr std::int64_t millimetres() const { return millimetres_; }

    constexpr Length& operator+=(Length other) {
        millimetres_ += other.millimetres_;
        return *this;
    }
    friend constexpr Length operator+(Length a, Length b) { return Length(a.millimetres_ + b.millimetres_); }
    friend constexpr Length operator-(Length a, Length b) { return Length(a.millimetres_ - b.millimetres_); }
    friend constexpr Length operator*(Length a, std::int64_t times) { return Length(a.millimetres_ * times); }
    friend constexpr auto operator<=>(Length a, Length b) = default;

private:
    explicit constexpr Length(std::int64_t millimetres) : millimetres_(millimetres) {}
    std::int64_t millimetres_ = 0;
};

}  // namespace spadework
