#include "doubt/risk_study.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

#include "doubt/draws.hpp"
#include "doubt/statistics.hpp"

namespace spadework {

namespace {

/// One number a draw, and the draw it is of.
struct Column {
    std::vector<double> values;
    std::vector<std::int64_t> draws;
    void add(std::int64_t draw, double value) {
        draws.push_back(draw);
        values.push_back(value);
    }
};

using Statistic = std::function<double(std::vector<double> values)>;

/// A statistic of the whole column, and its error by the spread of the same over each replicate.
Estimate estimate(const Column& column, const Statistic& statistic) {
    std::vector<std::vector<double>> parts(Draws::replicates);
    for (std::size_t i = 0; i < column.values.size(); ++i)
        parts[static_cast<std::size_t>(column.draws[i] % Draws::replicates)].push_back(column.values[i]);
    std::vector<double> each;
    for (std::vector<double>& part : parts) {
        if (!part.empty()) each.push_back(statistic(std::move(part)));
    }
    return {column.values.empty() ? 0 : statistic(column.values), half_width_95(each)};
}

Statistic quantile_at(double share) {
    return [share](std::vector<double> values) {
        std::sort(values.begin(), values.end());
        return sample_quantile(values, share);
    };
}

double mean_statistic(const std::vector<double>& values) {
    return mean_of(values);
}

/// The sample by draw and layout, and the cheapest layout of each draw.
class Table {
public:
    explicit Table(const RiskSample& sample) : sample_(sample), width_(sample.head.layouts.size()) {
        for (std::int64_t draw = 0; draw < sample.count(); ++draw) {
            std::optional<std::size_t> least;
            for (std::size_t layout = 0; layout < width_; ++layout) {
                if (at(draw, layout).best == no_plan) continue;
                if (!least || at(draw, layout).best < at(draw, *least).best) least = layout;
            }
            cheapest_.push_back(least);
        }
    }

    [[nodiscard]] std::int64_t draws() const { return sample_.count(); }
    [[nodiscard]] const DrawnTotals& at(std::int64_t draw, std::size_t layout) const {
        return sample_.totals[static_cast<std::size_t>(draw) * width_ + layout];
    }
    [[nodiscard]] std::optional<std::size_t> cheapest(std::int64_t draw) const {
        return cheapest_[static_cast<std::size_t>(draw)];
    }
    [[nodiscard]] double least_total(std::int64_t draw) const {
        return static_cast<double>(at(draw, *cheapest(draw)).best);
    }

private:
    const RiskSample& sample_;
    std::size_t width_;
    std::vector<std::optional<std::size_t>> cheapest_;
};

/// Totals of today's plan of one layout, where it can be built.
Column today_of(const Table& table, std::size_t layout) {
    Column column;
    for (std::int64_t draw = 0; draw < table.draws(); ++draw) {
        const DrawnTotals& totals = table.at(draw, layout);
        if (totals.today != no_plan) column.add(draw, static_cast<double>(totals.today));
    }
    return column;
}

void look_at_today(const Table& table, std::size_t layout, LayoutOutlook& outlook) {
    Column regret;
    Column held;
    for (std::int64_t draw = 0; draw < table.draws(); ++draw) {
        const DrawnTotals& totals = table.at(draw, layout);
        if (totals.today == no_plan) continue;
        regret.add(draw, static_cast<double>(totals.today) - table.least_total(draw));
        held.add(draw, static_cast<double>(totals.today - totals.best));
    }
    outlook.regret = estimate(regret, mean_statistic);
    outlook.held = estimate(held, mean_statistic);
    if (!regret.values.empty()) outlook.regret_90 = quantile_at(0.9)(regret.values);
}

LayoutOutlook outlook_of(const Table& table, std::size_t layout) {
    LayoutOutlook outlook;
    Column best;
    Column cheapest;
    for (std::int64_t draw = 0; draw < table.draws(); ++draw) {
        const std::int64_t total = table.at(draw, layout).best;
        const auto least = table.cheapest(draw);
        cheapest.add(draw, least && total == table.at(draw, *least).best ? 1 : 0);
        if (total != no_plan) best.add(draw, static_cast<double>(total));
    }
    outlook.no_plan_share =
        1 - static_cast<double>(best.values.size()) / static_cast<double>(std::max<std::int64_t>(1, table.draws()));
    outlook.cheapest = estimate(cheapest, mean_statistic);
    if (best.values.empty()) return outlook;
    for (std::size_t q = 0; q < outlook_percents.size(); ++q)
        outlook.quantiles[q] = estimate(best, quantile_at(outlook_percents[q] / 100.0));
    outlook.mean = estimate(best, mean_statistic);
    outlook.deviation = std::sqrt(variance_of(best.values));
    look_at_today(table, layout, outlook);
    return outlook;
}

std::optional<int> least_mean(const std::vector<LayoutOutlook>& layouts) {
    std::optional<int> least;
    for (std::size_t i = 0; i < layouts.size(); ++i) {
        if (layouts[i].no_plan_share > 0) continue;
        if (!least || layouts[i].mean.value < layouts[static_cast<std::size_t>(*least)].mean.value)
            least = static_cast<int>(i);
    }
    return least;
}

/// Mean of the totals at the draws where a driver stands lowest or highest: a tenth of them.
double mean_of_tenth(const std::vector<double>& quantiles, const std::vector<double>& totals, bool highest) {
    double sum = 0;
    double count = 0;
    for (std::size_t i = 0; i < totals.size(); ++i) {
        if (highest ? quantiles[i] <= 0.9 : quantiles[i] >= 0.1) continue;
        sum += totals[i];
        ++count;
    }
    return count == 0 ? mean_of(totals) : sum / count;
}

/// Pseudo-values of the first-order index, a replicate left out at a time: their mean has its error (Tukey 1958).
std::vector<double> jackknife_values(const std::vector<double>& at, const Column& totals) {
    const double whole = first_order_index(at, totals.values);
    std::vector<double> values;
    for (std::int64_t replicate = 0; replicate < Draws::replicates; ++replicate) {
        std::vector<double> inputs;
        std::vector<double> outputs;
        for (std::size_t i = 0; i < totals.values.size(); ++i) {
            if (totals.draws[i] % Draws::replicates == replicate) continue;
            inputs.push_back(at[i]);
            outputs.push_back(totals.values[i]);
        }
        constexpr double all = Draws::replicates;
        values.push_back(all * whole - (all - 1) * first_order_index(inputs, outputs));
    }
    return values;
}

DriverShare share_of_driver(int driver, const std::vector<double>& at, const Column& totals) {
    DriverShare share;
    share.driver = driver;
    share.share = {first_order_index(at, totals.values), half_width_95(jackknife_values(at, totals))};
    share.correlation = rank_correlation(at, totals.values);
    share.low_mean = mean_of_tenth(at, totals.values, false);
    share.high_mean = mean_of_tenth(at, totals.values, true);
    return share;
}

std::vector<DriverShare> shares_of_drivers(const RiskHead& head, const Column& totals) {
    const auto drivers = static_cast<int>(head.drivers.size());
    const Draws draws(drivers, head.draws, head.random_seed);
    std::vector<std::vector<double>> at(head.drivers.size());
    constexpr std::int64_t block = 4096;
    for (std::size_t i = 0; i < totals.draws.size();) {
        const std::int64_t first = totals.draws[i];
        const std::vector<double> points = draws.between(first, std::min(first + block, head.draws));
        for (; i < totals.draws.size() && totals.draws[i] < first + block; ++i) {
            const auto row = static_cast<std::size_t>(totals.draws[i] - first) * head.drivers.size();
            for (std::size_t d = 0; d < head.drivers.size(); ++d)
                at[d].push_back(points[row + d]);
        }
    }
    std::vector<DriverShare> shares;
    for (int d = 0; d < drivers; ++d)
        shares.push_back(share_of_driver(d, at[static_cast<std::size_t>(d)], totals));
    std::stable_sort(shares.begin(), shares.end(),
                     [](const DriverShare& a, const DriverShare& b) { return a.share.value > b.share.value; });
    return shares;
}

/// Contingency as a share of the direct cost at likely values is what the total is above the total there: both have
/// the site's contingency and tax on them.
std::vector<ContingencyRow> contingency_rows(const RiskHead& head, const SampledLayout& layout, const Column& totals) {
    const auto likely = static_cast<double>(layout.likely_total);
    const double site_share = static_cast<double>(head.contingency_thousandths) / 100'000;
    const auto direct = static_cast<double>(layout.likely_direct);
    std::vector<ContingencyRow> rows;
    if (likely <= 0 || totals.values.empty()) return rows;
    for (const int percent : confidence_percents) {
        const Estimate at = estimate(totals, quantile_at(percent / 100.0));
        const double share = at.value / likely - 1;
        rows.push_back({percent / 100.0,
                        100 * share,
                        share * direct,
                        {at.value / (1 + site_share), at.half_width / (1 + site_share)},
                        false});
    }
    const double covered = likely * (1 + site_share);
    const auto within =
        std::count_if(totals.values.begin(), totals.values.end(), [covered](double total) { return total <= covered; });
    rows.push_back({static_cast<double>(within) / static_cast<double>(totals.values.size()),
                    100 * site_share,
                    site_share * direct,
                    {likely, 0},
                    true});
    std::stable_sort(rows.begin(), rows.end(),
                     [](const ContingencyRow& a, const ContingencyRow& b) { return a.percent < b.percent; });
    return rows;
}

}  // namespace

RiskStudy study_risk(const RiskSample& sample) {
    RiskStudy study;
    study.draws = sample.count();
    if (study.draws == 0) return study;
    const Table table(sample);
    for (std::size_t layout = 0; layout < sample.head.layouts.size(); ++layout)
        study.layouts.push_back(outlook_of(table, layout));
    study.recommended = least_mean(study.layouts);
    if (!study.recommended) return study;
    const auto recommended = static_cast<std::size_t>(*study.recommended);
    const Column today = today_of(table, recommended);
    study.drivers = shares_of_drivers(sample.head, today);
    for (const DriverShare& driver : study.drivers)
        study.explained += driver.share.value;
    study.contingency = contingency_rows(sample.head, sample.head.layouts[recommended], today);
    return study;
}

}  // namespace spadework
