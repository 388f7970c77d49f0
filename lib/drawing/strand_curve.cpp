#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "drawing/drawing.hpp"
#include "drawing/figures.hpp"
#include "drawing/size_curve.hpp"

namespace spadework::drawing {

namespace {

const CableProduct& product_of(const Scenario& scenario, const CableSizeOption& size) {
    return scenario.catalogue.cables[static_cast<std::size_t>(size.product)];
}

/// An amount of a study in minor units of the trunk, or of a site's unit of length of it.
double shown_minor(double minor, const Scenario& scenario, const StrandStudy& study) {
    return minor * (scenario.feet && !study.run.planned ? 0.3048 : 1.0);
}

/// No larger than a Money can hold.
double clamped(double value) {
    return std::clamp(value, -4e18, 4e18);
}

std::string amount_text(double minor, const Scenario& scenario, const StrandStudy& study) {
    const double value = shown_minor(minor, scenario, study);
    if (study.run.planned)
        return grouped(decimal_text(Money::from_minor(std::llround(clamped(value))), scenario.currency));
    return price_figure(UnitPrice::from_thousandths(std::llround(clamped(value * 1000))), scenario.currency);
}

std::string in_words(double minor, const Scenario& scenario, const StrandStudy& study) {
    const std::string unit = study.run.planned ? "" : fmt::format(" a {}", length_unit(scenario));
    return fmt::format("{} {}{}", scenario.currency.code, amount_text(minor, scenario, study), unit);
}

/// Whether a spare duct pays beside a size that holds what is in use.
bool with_duct(const CableSizeOption& size) {
    return size.spare_strands >= 0 && size.duct_pays();
}

/// With a spare duct where that pays.
double now_of(const CableSizeOption& size) {
    return size.price_now + (with_duct(size) ? size.duct_now : 0);
}

/// What a size costs, now and later.
std::string cost_in_words(const CableSizeOption& size, const Scenario& scenario, const StrandStudy& study) {
    std::string text = in_words(now_of(size), scenario, study);
    if (!study.any_growth() || size.spare_strands < 0) return text;
    return text + fmt::format("{} now and {} expected later", with_duct(size) ? " with a spare duct" : "",
                              in_words(size.best_sum() - now_of(size), scenario, study));
}

SizeColumn column_of(const Scenario& scenario, const StrandStudy& study, std::size_t index) {
    const CableSizeOption& size = study.sizes[index];
    const CableProduct& product = product_of(scenario, size);
    SizeColumn column;
    column.label = std::to_string(product.strands);
    column.fits = size.meets_policy;
    column.recommended = static_cast<int>(index) == study.recommended;
    column.chance_enough = size.chance_enough;
    column.chance_text = fmt::format("{:.1f}", 100 * size.chance_enough);
    column.title = fmt::format("{}: {} strands, {}, {} spare, enough with a chance of {:.1f} %{}", drawn(product.id),
                               product.strands, cost_in_words(size, scenario, study), size.spare_strands,
                               100 * size.chance_enough, size.meets_policy ? "" : ", below the policy");
    return column;
}

/// Prices now; where growth is described also what is expected later, and the sum of both, for sizes that hold what is
/// in use.
std::vector<SizeSeries> series_of(const Scenario& scenario, const StrandStudy& study) {
    std::vector<SizeSeries> all = {{"Sum", {}, {}, ""}, {"Now", {}, {}, "7 4"}, {"Expected later", {}, {}, "2 3"}};
    if (std::any_of(study.sizes.begin(), study.sizes.end(), with_duct))
        all[1].name = "Now, with a spare duct where that pays";
    if (!study.any_growth()) all = {{"Price now", {}, {}, ""}};
    for (const CableSizeOption& size : study.sizes) {
        std::vector<double> amounts = {size.best_sum(), now_of(size), size.best_sum() - now_of(size)};
        if (size.spare_strands < 0) amounts[0] = amounts[2] = std::numeric_limits<double>::quiet_NaN();
        if (!study.any_growth()) amounts = {size.price_now};
        for (std::size_t s = 0; s < all.size(); ++s) {
            all[s].values.push_back(shown_minor(amounts[s], scenario, study));
            all[s].texts.push_back(std::isnan(amounts[s]) ? "" : amount_text(amounts[s], scenario, study));
        }
    }
    return all;
}

std::string description(const Scenario& scenario, const StrandStudy& study) {
    std::string text = fmt::format("A trunk to all buildings needs {} strands: {} in use, {} spare, {} headroom.",
                                   study.need.total(), study.need.in_use, study.need.spare, study.need.headroom);
    for (const CableSizeOption& size : study.sizes) {
        text += fmt::format(" {} strands: {}, enough with a chance of {:.1f} %{}.", product_of(scenario, size).strands,
                            cost_in_words(size, scenario, study), 100 * size.chance_enough,
                            size.meets_policy ? "" : ", below the policy");
    }
    if (study.sizes.empty()) return text + " No cable is on offer.";
    if (study.recommended < 0) return text + " No size meets the policy.";
    const CableSizeOption& best = study.sizes[static_cast<std::size_t>(study.recommended)];
    return text + fmt::format(" Recommended: {} strands.", product_of(scenario, best).strands);
}

}  // namespace

std::string strand_curve_svg(const Scenario& scenario, const StrandStudy& study, const Frame& frame) {
    SizeCurve curve;
    curve.title = "Cable sizes on offer for the trunk";
    const std::string unit = study.run.planned ? "" : fmt::format(" a {}", length_unit(scenario));
    curve.price_text = fmt::format("Cost of the trunk{} ({}{})", study.any_growth() ? ", now and later" : "",
                                   scenario.currency.code, unit);
    curve.chance_text = fmt::format("Chance that it is enough for {} years (%)", scenario.growth.horizon_years);
    curve.size_text = fmt::format("Strands in the cable; {} needed today with spares and headroom", study.need.total());
    curve.tick = [&](double value, double step) { return money_tick_text(value, step, scenario.currency); };
    for (std::size_t i = 0; i < study.sizes.size(); ++i)
        curve.columns.push_back(column_of(scenario, study, i));
    curve.series = series_of(scenario, study);
    const std::string title = fmt::format("Strand count of the trunk: {}", drawn_in_sentence(scenario.name));
    return size_curve_svg(curve, {"strand-curve", title, description(scenario, study)}, frame);
}

}  // namespace spadework::drawing
