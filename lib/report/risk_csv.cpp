#include <cmath>

#include <fmt/format.h>

#include "report/csv_writer.hpp"
#include "report/figures.hpp"
#include "report/risk_report.hpp"

namespace spadework::report {

namespace {

std::string major(double minor, const RiskSample& sample) {
    return plain(minor / std::pow(10.0, sample.head.currency.minor_digits), 2);
}

std::string total_text(std::int64_t minor, const RiskSample& sample) {
    return minor == no_plan ? "" : decimal_text(Money::from_minor(minor), sample.head.currency);
}

std::string layouts_csv(const RiskSample& sample, const RiskStudy& study) {
    CsvWriter csv({"layout", "currency", "likely_total", "p10", "p50", "p50_error_95", "p80", "p90", "mean",
                   "mean_error_95", "deviation", "cheapest_share", "no_plan_share", "mean_regret", "regret_p90",
                   "held_plan_extra", "plans_made", "plans_kept"});
    for (std::size_t i = 0; i < study.layouts.size(); ++i) {
        const LayoutOutlook& outlook = study.layouts[i];
        const SampledLayout& layout = sample.head.layouts[i];
        csv.text(id_of(layout.layout)).text(sample.head.currency.code);
        csv.number(total_text(layout.planned() ? layout.likely_total : no_plan, sample));
        csv.number(major(outlook.quantiles[0].value, sample)).number(major(outlook.quantiles[1].value, sample));
        csv.number(major(outlook.quantiles[1].half_width, sample)).number(major(outlook.quantiles[2].value, sample));
        csv.number(major(outlook.quantiles[3].value, sample)).number(major(outlook.mean.value, sample));
        csv.number(major(outlook.mean.half_width, sample)).number(major(outlook.deviation, sample));
        csv.number(plain(outlook.cheapest.value, 6)).number(plain(outlook.no_plan_share, 6));
        csv.number(major(outlook.regret.value, sample)).number(major(outlook.regret_90, sample));
        csv.number(major(outlook.held.value, sample)).whole(layout.plans_made).whole(layout.plans_kept).end_row();
    }
    return csv.table();
}

std::string drivers_csv(const RiskSample& sample, const RiskStudy& study) {
    CsvWriter csv({"source", "is_group", "range", "variance_share", "variance_share_error_95", "rank_correlation",
                   "mean_lowest_tenth", "mean_highest_tenth"});
    for (const DriverShare& share : study.drivers) {
        const Driver& driver = sample.head.drivers[static_cast<std::size_t>(share.driver)];
        for (const int value : driver.values) {
            csv.text(driver.name).whole(driver.is_group ? 1 : 0);
            csv.text(sample.head.keys[static_cast<std::size_t>(value)]).number(plain(share.share.value, 6));
            csv.number(plain(share.share.half_width, 6)).number(plain(share.correlation, 6));
            csv.number(major(share.low_mean, sample)).number(major(share.high_mean, sample)).end_row();
        }
    }
    return csv.table();
}

std::string contingency_csv(const RiskSample& sample, const RiskStudy& study) {
    CsvWriter csv({"confidence", "contingency_percent", "contingency", "total", "total_error_95", "of_site"});
    for (const ContingencyRow& row : study.contingency) {
        csv.number(plain(row.confidence, 6)).number(plain(row.percent, 4)).number(major(row.contingency, sample));
        csv.number(major(row.total.value, sample)).number(major(row.total.half_width, sample));
        csv.whole(row.of_site ? 1 : 0).end_row();
    }
    return csv.table();
}

std::string draws_csv(const RiskSample& sample) {
    std::vector<std::string> headings = {"draw"};
    for (const SampledLayout& layout : sample.head.layouts) {
        headings.push_back(fmt::format("{}_best", id_of(layout.layout)));
        headings.push_back(fmt::format("{}_today", id_of(layout.layout)));
    }
    CsvWriter csv(headings);
    const std::size_t width = sample.head.layouts.size();
    for (std::size_t at = 0; at < sample.totals.size(); at += width) {
        csv.whole(sample.first + static_cast<std::int64_t>(at / width));
        for (std::size_t layout = 0; layout < width; ++layout) {
            const DrawnTotals& totals = sample.totals[at + layout];
            csv.number(total_text(totals.best, sample)).number(total_text(totals.today, sample));
        }
        csv.end_row();
    }
    return csv.table();
}

}  // namespace

std::vector<std::pair<std::string, std::string>> risk_csv(const RiskSample& sample, const RiskStudy& study) {
    return {{"risk-layouts.csv", layouts_csv(sample, study)},
            {"risk-drivers.csv", drivers_csv(sample, study)},
            {"risk-contingency.csv", contingency_csv(sample, study)},
            {"risk-draws.csv", draws_csv(sample)}};
}

}  // namespace spadework::report
