#include <algorithm>
#include <cmath>

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

/// A price a metre in minor units a site's unit of length.
double minor_a_unit(UnitPrice per_metre, const Scenario& scenario) {
    return static_cast<double>(per_metre.thousandths()) / 1000.0 * (scenario.feet ? 0.3048 : 1.0);
}

std::string price_text(UnitPrice per_metre, const Scenario& scenario) {
    const double thousandths = minor_a_unit(per_metre, scenario) * 1000;
    return price_figure(UnitPrice::from_thousandths(std::llround(thousandths)), scenario.currency);
}

std::string price_in_words(UnitPrice per_metre, const Scenario& scenario) {
    return fmt::format("{} a {}", price_text(per_metre, scenario), length_unit(scenario));
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
    column.title =
        fmt::format("{}: {} strands, {} {}, {} spare, enough with a chance of {:.1f} %{}", drawn(product.id),
                    product.strands, scenario.currency.code, price_in_words(size.price_per_metre, scenario),
                    size.spare_strands, 100 * size.chance_enough, size.meets_policy ? "" : ", below the policy");
    return column;
}

std::string description(const Scenario& scenario, const StrandStudy& study) {
    std::string text = fmt::format("A trunk to all buildings needs {} strands: {} in use, {} spare, {} headroom.",
                                   study.need.total(), study.need.in_use, study.need.spare, study.need.headroom);
    for (const CableSizeOption& size : study.sizes) {
        text +=
            fmt::format(" {} strands: {} {}, enough with a chance of {:.1f} %{}.", product_of(scenario, size).strands,
                        scenario.currency.code, price_in_words(size.price_per_metre, scenario),
                        100 * size.chance_enough, size.meets_policy ? "" : ", below the policy");
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
    curve.price_text = fmt::format("Price of the cable ({} a {})", scenario.currency.code, length_unit(scenario));
    curve.chance_text = fmt::format("Chance that it is enough for {} years (%)", scenario.growth.horizon_years);
    curve.size_text = fmt::format("Strands in the cable; {} needed today with spares and headroom", study.need.total());
    curve.tick = [&](double value, double step) { return money_tick_text(value, step, scenario.currency); };
    SizeSeries price;
    price.name = "Price now";
    for (std::size_t i = 0; i < study.sizes.size(); ++i) {
        curve.columns.push_back(column_of(scenario, study, i));
        price.values.push_back(minor_a_unit(study.sizes[i].price_per_metre, scenario));
        price.texts.push_back(price_text(study.sizes[i].price_per_metre, scenario));
    }
    curve.series = {price};
    const std::string title = fmt::format("Strand count of the trunk: {}", drawn_in_sentence(scenario.name));
    return size_curve_svg(curve, {"strand-curve", title, description(scenario, study)}, frame);
}

}  // namespace spadework::drawing
