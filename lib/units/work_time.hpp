#pragma once

#include <cmath>
#include <compare>
#include <cstdint>

#include "units/length.hpp"

namespace spadework {

/// Working time of a crew or a person in whole seconds.
class WorkTime {
public:
    constexpr WorkTime() = default;

    /// Nearest whole second.
    static WorkTime from_hours(double hours) { return WorkTime(std::llround(hours * 3600.0)); }
    static WorkTime from_minutes(double minutes) { return WorkTime(std::llround(minutes * 60.0)); }
    static constexpr WorkTime from_seconds(std::int64_t seconds) { return WorkTime(seconds); }
    /// Time for a stretch of work that takes `hours_per_metre`.
    static WorkTime along(Length length, double hours_per_metre) {
        return from_hours(length.metres() * hours_per_metre);
    }

    [[nodiscard]] constexpr double hours() const { return static_cast<double>(seconds_) / 3600.0; }
    [[nodiscard]] constexpr std::int64_t seconds() const { return seconds_; }

    constexpr WorkTime& operator+=(WorkTime other) {
        seconds_ += other.seconds_;
        return *this;
    }
    friend constexpr WorkTime operator+(WorkTime a, WorkTime b) { return WorkTime(a.seconds_ + b.seconds_); }
    friend constexpr WorkTime operator*(WorkTime a, std::int64_t times) { return WorkTime(a.seconds_ * times); }
    friend constexpr auto operator<=>(WorkTime a, WorkTime b) = default;

private:
    explicit constexpr WorkTime(std::int64_t seconds) : seconds_(seconds) {}
    std::int64_t seconds_ = 0;
};

}  // namespace spadework
