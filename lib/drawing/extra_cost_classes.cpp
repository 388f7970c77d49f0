#include "drawing/extra_cost_classes.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "drawing/axis.hpp"

namespace spadework::drawing {

namespace {

constexpr int most_classes = 5;
constexpr std::array<double, most_classes> radius = {4, 5.5, 7, 8.5, 10};
constexpr std::array<const char*, most_classes> fill = {"#14466e", "#3f7fb0", "#8cb8d8", "#cfe1ef", "#f4f8fb"};

std::size_t index_of(int number) {
    return static_cast<std::size_t>(std::clamp(number, 0, most_classes - 1));
}

/// 1, 2, 5, 10, 20, 50, …: the one below a round value.
double rounder(double value) {
    return round_below(value * 0.6);
}

}  // namespace

ExtraCostClasses::ExtraCostClasses(Money most, const Currency& currency) : currency_(currency) {
    double top = std::max(1.0, static_cast<double>(most.minor()));
    const double below = round_below(top);
    // The smallest round value that is not below the most.
    for (const double factor : {1.0, 2.0, 2.5, 4.0, 5.0, 10.0}) {
        if (below * factor < top || round_below(below * factor) != below * factor) continue;
        top = below * factor;
        break;
    }
    for (int c = 0; c < most_classes && top >= 1; ++c, top = rounder(top))
        limits_minor_.insert(limits_minor_.begin(), top);
}

int ExtraCostClasses::class_of(Money extra) const {
    const auto at = std::lower_bound(limits_minor_.begin(), limits_minor_.end(), static_cast<double>(extra.minor()));
    return static_cast<int>(std::min<std::ptrdiff_t>(at - limits_minor_.begin(), count() - 1));
}

std::string ExtraCostClasses::in_words(int number) const {
    const double upper = limits_minor_[index_of(number)];
    const std::string to = money_tick_text(upper, upper, currency_);
    if (number == 0) return fmt::format("up to {} {} more", currency_.code, to);
    const double lower = limits_minor_[index_of(number) - 1];
    return fmt::format("{} {} to {} more", currency_.code, money_tick_text(lower, lower, currency_), to);
}

double extra_cost_radius(int number) {
    return radius[index_of(number)];
}

void write_extra_cost_sign(SvgWriter& svg, const Point& at, int number, std::string_view title) {
    svg.titled("circle",
               {{"cx", at.x},
                {"cy", at.y},
                {"r", extra_cost_radius(number)},
                {"fill", fill[index_of(number)]},
                {"stroke", colour::ink},
                {"stroke-width", 1}},
               title);
    for (int ring = 1; ring <= number; ++ring) {
        if (extra_cost_radius(number) - 2.2 * ring < 1) break;
        svg.leaf("circle", {{"cx", at.x},
                            {"cy", at.y},
                            {"r", extra_cost_radius(number) - 2.2 * ring},
                            {"fill", "none"},
                            {"stroke", colour::ink},
                            {"stroke-width", 0.6}});
    }
}

}  // namespace spadework::drawing
