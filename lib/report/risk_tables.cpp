#include "report/risk_tables.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

/// Whole major units: what comes from draws is not known to the cent.
std::string amount_of(double minor, const RiskSample& sample) {
    return figure(minor / std::pow(10.0, sample.head.currency.minor_digits), 0);
}

std::string percent(double share, int digits = 1) {
    return figure(100 * share, digits);
}

std::string amount_heading(const char* what, const RiskSample& sample) {
    return fmt::format("{}\n({})", what, sample.head.currency.code);
}

/// Calls `add` for each layout that some draw has a plan for.
template <typename Add>
void for_each_planned(const RiskSample& sample, const RiskStudy& study, Add add) {
    for (std::size_t i = 0; i < study.layouts.size(); ++i) {
        if (study.layouts[i].no_plan_share < 1) add(sample.head.layouts[i], study.layouts[i]);
    }
}

std::string counted(std::int64_t count, const char* one, const char* several) {
    return fmt::format("{} {}", figure(count), count == 1 ? one : several);
}

std::string name_of_driver(const Driver& driver) {
    return shown(driver.is_group ? "group " + driver.name : driver.name);
}

}  // namespace

std::string recommended_name(const RiskSample& sample, const RiskStudy& study) {
    return name_of(sample.head.layouts[static_cast<std::size_t>(*study.recommended)].layout);
}

std::string risk_opening(const RiskSample& sample, const RiskStudy& study) {
    return fmt::format("{} of {} from {} of doubt. Money in {}, contingency and tax included, whole units.",
                       counted(study.draws, "draw", "draws"),
                       counted(static_cast<std::int64_t>(sample.head.keys.size()), "range", "ranges"),
                       counted(static_cast<std::int64_t>(sample.head.drivers.size()), "source", "sources"),
                       sample.head.currency.code);
}

std::string risk_verdict(const RiskSample& sample, const RiskStudy& study) {
    if (!study.recommended) return "No layout can be built at every draw, so that there is none to recommend.";
    const LayoutOutlook& best = study.layouts[static_cast<std::size_t>(*study.recommended)];
    const std::string& code = sample.head.currency.code;
    return fmt::format(
        "{} is the best bet: its mean of {} {} is the least, and none costs less at {} % of the draws. Half of the "
        "draws stay within {} {} (± {} %), eight of ten within {} {}, nine of ten within {} {}.",
        recommended_name(sample, study), code, amount_of(best.mean.value, sample), percent(best.cheapest.value), code,
        amount_of(best.quantiles[1].value, sample),
        figure(100 * best.quantiles[1].half_width / std::max(1.0, best.quantiles[1].value), 2), code,
        amount_of(best.quantiles[2].value, sample), code, amount_of(best.quantiles[3].value, sample));
}

std::string risk_interrupted(const RiskSample& sample) {
    if (sample.interrupted.empty()) return "";
    return fmt::format("Cut short: {}. The figures rest on the {} of {} that were made.", sample.interrupted,
                       figure(sample.count()), counted(sample.head.draws, "draw", "draws"));
}

TextTable outlook_table(const RiskSample& sample, const RiskStudy& study) {
    TextTable table({{"Layout"},
                     {amount_heading("Likely", sample), Align::right},
                     {amount_heading("10 %", sample), Align::right},
                     {amount_heading("50 %", sample), Align::right},
                     {amount_heading("80 %", sample), Align::right},
                     {amount_heading("90 %", sample), Align::right},
                     {amount_heading("Mean", sample), Align::right},
                     {amount_heading("Deviation", sample), Align::right},
                     {"Not to be\nbuilt (%)", Align::right}});
    for_each_planned(sample, study, [&](const SampledLayout& layout, const LayoutOutlook& outlook) {
        std::vector<std::string> cells = {name_of(layout.layout),
                                          amount_of(static_cast<double>(layout.likely_total), sample)};
        for (const Estimate& quantile : outlook.quantiles)
            cells.push_back(amount_of(quantile.value, sample));
        cells.push_back(amount_of(outlook.mean.value, sample));
        cells.push_back(amount_of(outlook.deviation, sample));
        cells.push_back(percent(outlook.no_plan_share));
        table.add(cells);
    });
    return table;
}

TextTable error_table(const RiskSample& sample, const RiskStudy& study) {
    TextTable table({{"Layout"},
                     {amount_heading("10 %", sample), Align::right},
                     {amount_heading("50 %", sample), Align::right},
                     {amount_heading("80 %", sample), Align::right},
                     {amount_heading("90 %", sample), Align::right},
                     {amount_heading("Mean", sample), Align::right},
                     {"50 %,\nof it (%)", Align::right}});
    for_each_planned(sample, study, [&](const SampledLayout& layout, const LayoutOutlook& outlook) {
        std::vector<std::string> cells = {name_of(layout.layout)};
        for (const Estimate& quantile : outlook.quantiles)
            cells.push_back("± " + amount_of(quantile.half_width, sample));
        cells.push_back("± " + amount_of(outlook.mean.half_width, sample));
        const Estimate& median = outlook.quantiles[1];
        cells.push_back("± " + figure(100 * median.half_width / std::max(1.0, median.value), 3));
        table.add(cells);
    });
    return table;
}

TextTable choice_table(const RiskSample& sample, const RiskStudy& study) {
    TextTable table({{"Layout"},
                     {"Cheapest\n(%)", Align::right},
                     {"\n", Align::right},
                     {amount_heading("Mean regret", sample), Align::right},
                     {"\n", Align::right},
                     {amount_heading("Regret, 90 %", sample), Align::right},
                     {amount_heading("Held plan", sample), Align::right}});
    for_each_planned(sample, study, [&](const SampledLayout& layout, const LayoutOutlook& outlook) {
        table.add({name_of(layout.layout), percent(outlook.cheapest.value), "± " + percent(outlook.cheapest.half_width),
                   amount_of(outlook.regret.value, sample), "± " + amount_of(outlook.regret.half_width, sample),
                   amount_of(outlook.regret_90, sample), amount_of(outlook.held.value, sample)});
    });
    return table;
}

TextTable driver_table(const RiskSample& sample, const RiskStudy& study) {
    TextTable table({{"Source of doubt", Align::left, true},
                     {"Ranges", Align::right},
                     {"Share of\nvariance (%)", Align::right},
                     {"\n", Align::right},
                     {"Rank\ncorrelation", Align::right},
                     {amount_heading("Mean, lowest", sample), Align::right},
                     {amount_heading("Mean, highest", sample), Align::right}});
    for (const DriverShare& share : study.drivers) {
        const Driver& driver = sample.head.drivers[static_cast<std::size_t>(share.driver)];
        table.add({name_of_driver(driver), figure(static_cast<std::int64_t>(driver.values.size())),
                   percent(share.share.value), "± " + percent(share.share.half_width), figure(share.correlation, 2),
                   amount_of(share.low_mean, sample), amount_of(share.high_mean, sample)});
    }
    if (!table.empty()) table.add_total({"All", "", percent(study.explained)});
    return table;
}

TextTable contingency_table(const RiskSample& sample, const RiskStudy& study) {
    TextTable table({{"Enough at\n(% of draws)", Align::right},
                     {"Contingency\n(%)", Align::right},
                     {amount_heading("Contingency", sample), Align::right},
                     {amount_heading("Total", sample), Align::right},
                     {"\n", Align::right},
                     {"\n"}});
    for (const ContingencyRow& row : study.contingency) {
        table.add({percent(row.confidence), figure(row.percent, 1), amount_of(row.contingency, sample),
                   amount_of(row.total.value, sample),
                   row.of_site ? "" : "± " + amount_of(row.total.half_width, sample),
                   row.of_site ? "the site's own rule" : ""});
    }
    return table;
}

TextTable pool_table(const RiskSample& sample, const RiskStudy& study) {
    TextTable table({{"Layout"},
                     {"Plans\nmade", Align::right},
                     {"Plans\nkept", Align::right},
                     {"Draws\nchecked", Align::right},
                     {"Left on the\ntable, mean (%)", Align::right},
                     {"Left on the\ntable, most (%)", Align::right},
                     {"No more than,\nproven (%)", Align::right}});
    for_each_planned(sample, study, [&](const SampledLayout& layout, const LayoutOutlook& /*outlook*/) {
        double sum = 0;
        double most = -1;
        double proven = 0;
        for (const PoolCheck& check : layout.checks) {
            const double known = std::max(1.0, static_cast<double>(check.known));
            const double left = (known - static_cast<double>(check.planned)) / known;
            sum += left;
            most = std::max(most, left);
            proven = std::max(proven, (known - static_cast<double>(check.bound)) / known);
        }
        const auto checks = static_cast<std::int64_t>(layout.checks.size());
        table.add({name_of(layout.layout), figure(layout.plans_made), figure(layout.plans_kept), figure(checks),
                   checks == 0 ? "-" : percent(sum / static_cast<double>(checks), 3),
                   checks == 0 ? "-" : percent(most, 3), checks == 0 ? "-" : percent(proven, 2)});
    });
    return table;
}

std::string outlook_note() {
    return "Of the cheapest plan known at each draw. At the likely values stands what compare finds; the percentages "
           "are those of the draws that cost no more.";
}

std::string choice_note() {
    return "Cheapest: the share of draws at which no other layout costs less (several that cost the same all count, "
           "so that shares may add up to more than 100 %). Regret: what today's plan, built whatever happens, costs "
           "more than the cheapest plan known of any "
           "layout; its mean, and what nine draws of ten do not exceed. Held plan: what today's plan costs more, in "
           "the mean, than the cheapest plan known of its own layout at each draw.";
}

std::string driver_note(const RiskSample& sample, const RiskStudy& study) {
    return fmt::format(
        "Of today's plan, {}. Share of variance: first-order Sobol' index, by the correlation ratio (Pearson 1905); "
        "near 0 it may come out a little below; what the shares leave to "
        "100 % comes from sources that act together. Means: of the tenth of draws at "
        "which the source stands lowest, and highest.",
        recommended_name(sample, study));
}

std::string contingency_note(const RiskSample& sample, const RiskStudy& study) {
    return fmt::format(
        "For today's plan, {}: contingency on its direct cost at the likely values, before tax, and what the "
        "customer "
        "pays then with tax. Below 0 where less than the likely cost is enough.",
        recommended_name(sample, study));
}

std::string pool_note(const RiskSample& sample) {
    return fmt::format(
        "Every layout was planned at the likely values and anew, by a quick search, at {} chosen for being far apart "
        "and for close calls between layouts; the cheapest of these plans counts at each draw. At {} of their own "
        "every layout was planned anew in full: what the plans known cost more than that is left on the table, and "
        "lower bounds prove that it is no more than the last column. Figures below 0: the plans known were cheaper. "
        "Statistical errors are 95 % intervals from 16 independently shifted sequences of draws; random seed {}.",
        counted(sample.head.replans, "draw", "draws"), counted(sample.head.checks, "fresh draw", "fresh draws"),
        sample.head.random_seed);
}

std::vector<std::string> layouts_without_plan(const RiskSample& sample) {
    std::vector<std::string> texts;
    for (const SampledLayout& layout : sample.head.layouts) {
        if (!layout.planned()) texts.push_back(fmt::format("{}: {}", name_of(layout.layout), shown(layout.reason)));
    }
    return texts;
}

}  // namespace spadework::report
