#include "report/strand_cost_tables.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"
#include "report/strand_amounts.hpp"
#include "strands/spare_policies.hpp"

namespace spadework::report {

namespace {

const CableProduct& product_of(const Scenario& scenario, int product) {
    return scenario.catalogue.cables[static_cast<std::size_t>(product)];
}

const CableSizeOption& size_at(const StrandStudy& study, int index) {
    return study.sizes[static_cast<std::size_t>(index)];
}

const std::string& cable_at(const Scenario& scenario, const StrandStudy& study, int index) {
    return product_of(scenario, size_at(study, index).product).id;
}

std::string with_duct(const std::string& cable, bool duct) {
    return duct ? cable + " with a spare duct" : cable;
}

/// A chance that shows in a table.
constexpr double least_shown = 0.00005;

std::string percent(double chance) {
    return figure(100.0 * chance, 1);
}

/// Money of the trunk, or of its metre, in the heading of a column.
std::string heading_of(const char* what, const Scenario& scenario, const StrandStudy& study) {
    if (study.run.planned) return fmt::format("{}\n({})", what, scenario.currency.code);
    return fmt::format("{}\n({} a {})", what, scenario.currency.code, length_unit(scenario));
}

Column amounts(const char* what, const Scenario& scenario, const StrandStudy& study) {
    return {heading_of(what, scenario, study), Align::right};
}

/// Stretches of one ground opened in one way, taken together.
struct GroundAgain {
    Length length;
    double duct_now = 0;
    double later = 0;  ///< Opening again and a new duct, beyond pulling into a duct that is there.
};

std::map<std::pair<std::string, std::string>, GroundAgain> dug_grounds(const TrunkRun& run) {
    std::map<std::pair<std::string, std::string>, GroundAgain> grounds;
    for (const TrunkStretch& stretch : run.stretches) {
        if (!stretch.dug_now) continue;
        GroundAgain& sum = grounds[{stretch.ground, stretch.method}];
        const double metres = stretch.length.metres();
        const auto along = [metres](UnitPrice price) {
            return static_cast<double>(price.thousandths()) / 1000.0 * metres;
        };
        sum.length += stretch.length;
        sum.duct_now += along(stretch.duct_per_metre);
        sum.later += static_cast<double>(stretch.opening_again.minor()) + along(stretch.again_per_metre) -
                     along(stretch.pulling_per_metre);
    }
    return grounds;
}

/// The chance of needing it in a year that makes the price now equal the discounted price then.
std::string break_even(double now, double later, double discount) {
    if (later <= 0) return "-";
    const double chance = now / (later * discount);
    return chance > 1 ? "over 100" : percent(chance);
}

double discount_of(const Scenario& scenario, int year) {
    return std::pow(1 + scenario.growth.discount_rate.fraction(), -year);
}

}  // namespace

std::vector<std::string> strand_cost_opening(const Scenario& scenario, const StrandStudy& study) {
    const TrunkRun& run = study.run;
    const std::string money = fmt::format("Direct cost in {}, before contingency and tax", scenario.currency.code);
    const std::string discount =
        fmt::format("what comes later is discounted at {} % a year", plain(scenario.growth.discount_rate.percent(), 3));
    std::string what =
        fmt::format("{}, of the cable of the trunk of {} {} to {} laid and ended, its trench apart; {}.", money,
                    figure(run.length, scenario), length_unit(scenario), shown(run.place), discount);
    if (!run.planned) {
        const std::string ground = run.stretches.empty() ? "" : " through " + shown(run.stretches.front().ground);
        what = fmt::format("{}, of a {} of trunk{}, as no plan with one enclosure is known; {}.", money,
                           length_unit(scenario), ground, discount);
    }
    return {what,
            "Whenever growth runs out of strands, another trunk of whichever size is then best is pulled: through room "
            "in a duct or on poles where there is any, else in a trench that is opened again. With a spare duct laid "
            "beside the trunk now, the first of them finds its way open."};
}

TextTable strand_cost_table(const Scenario& scenario, const StrandStudy& study) {
    const bool ducts = std::any_of(study.run.stretches.begin(), study.run.stretches.end(),
                                   [](const TrunkStretch& stretch) { return stretch.dug_now; });
    std::vector<Column> columns = {{"Strands", Align::right},
                                   amounts("Price now", scenario, study),
                                   amounts("Expected\nlater", scenario, study),
                                   amounts("Sum", scenario, study)};
    if (ducts) {
        columns.push_back(amounts("Spare duct\nnow", scenario, study));
        columns.push_back(amounts("Expected\nlater", scenario, study));
        columns.push_back(amounts("Sum with\na duct", scenario, study));
    }
    columns.push_back({"", Align::left, true});
    TextTable table(columns);
    for (std::size_t i = 0; i < study.sizes.size(); ++i) {
        const CableSizeOption& size = study.sizes[i];
        const bool holds_use = size.spare_strands >= 0;
        const auto money = [&](double minor, bool later = true) {
            return later && !holds_use ? "-" : trunk_amount(minor, scenario, study.run);
        };
        std::vector<std::string> cells = {figure(std::int64_t{product_of(scenario, size.product).strands}),
                                          money(size.price_now, false), money(size.later.expected), money(size.sum())};
        if (ducts) {
            for (const double minor : {size.duct_now, size.later_with_duct.expected, size.sum_with_duct()})
                cells.push_back(money(minor));
        }
        const bool recommended = static_cast<int>(i) == study.recommended;
        cells.emplace_back(!size.meets_policy ? "too small"
                           : !recommended     ? ""
                           : size.duct_pays() ? "recommended, with a duct"
                                              : "recommended");
        table.add(cells);
    }
    return table;
}

TextTable run_out_table(const Scenario& scenario, const StrandStudy& study) {
    TextTable table({{"By the end\nof year", Align::right},
                     {"Chance that the strands\nhave run out (%)", Align::right},
                     amounts("Cost expected\nin that year", scenario, study)});
    if (study.recommended < 0) return table;
    const CableSizeOption& size = size_at(study, study.recommended);
    const LaterTrunks& later = size.duct_pays() ? size.later_with_duct : size.later;
    if (later.years.empty() || later.years.back().chance_run_out < least_shown) return table;
    for (std::size_t year = 0; year < later.years.size(); ++year) {
        table.add({figure(static_cast<std::int64_t>(year)), figure(100.0 * later.years[year].chance_run_out, 2),
                   trunk_amount(later.years[year].expected, scenario, study.run)});
    }
    table.add_total({"Sum", "", trunk_amount(later.expected, scenario, study.run)});
    return table;
}

TextTable dig_once_table(const Scenario& scenario, const StrandStudy& study) {
    const int horizon = scenario.growth.horizon_years;
    TextTable table({{"Ground", Align::left, true},
                     {"Opened again by", Align::left, true},
                     {fmt::format("Trench\n({})", length_unit(scenario)), Align::right},
                     amounts("Spare duct\nnow", scenario, study),
                     amounts("Opened\nlater", scenario, study),
                     {"Break-even\nchance in\nyear 1 (%)", Align::right},
                     {fmt::format("In\nyear {}\n(%)", horizon), Align::right}});
    GroundAgain all;
    const auto cells = [&](const std::string& ground, const std::string& method, const GroundAgain& sum) {
        return std::vector<std::string>{ground,
                                        method,
                                        figure(sum.length, scenario),
                                        trunk_amount(sum.duct_now, scenario, study.run),
                                        trunk_amount(sum.later, scenario, study.run),
                                        break_even(sum.duct_now, sum.later, discount_of(scenario, 1)),
                                        break_even(sum.duct_now, sum.later, discount_of(scenario, horizon))};
    };
    for (const auto& [ground, sum] : dug_grounds(study.run)) {
        table.add(cells(shown(ground.first), shown(ground.second), sum));
        all.length += sum.length;
        all.duct_now += sum.duct_now;
        all.later += sum.later;
    }
    if (table.rows().size() > 1) table.add_total(cells("All of the trunk", "", all));
    return table;
}

TextTable larger_now_table(const Scenario& scenario, const StrandStudy& study) {
    TextTable table({{"Strands", Align::right},
                     {"Instead of", Align::right},
                     amounts("Costs more\nnow", scenario, study),
                     amounts("Another trunk\nlater", scenario, study),
                     {"Break-even\nchance (%)", Align::right},
                     {"Chance that the\nsmaller runs out (%)", Align::right}});
    int below = -1;
    for (int i = 0; i < static_cast<int>(study.sizes.size()); ++i) {
        const CableSizeOption& size = size_at(study, i);
        if (!size.meets_policy) continue;
        if (below >= 0 && size_at(study, below).later.product >= 0) {
            const CableSizeOption& smaller = size_at(study, below);
            const double more = size.price_now - smaller.price_now;
            const double another =
                price_of_later_trunk(scenario, study.run, product_of(scenario, smaller.later.product), 0, 0);
            table.add({figure(std::int64_t{product_of(scenario, size.product).strands}),
                       figure(std::int64_t{product_of(scenario, smaller.product).strands}),
                       trunk_amount(more, scenario, study.run), trunk_amount(another, scenario, study.run),
                       more <= 0 ? "0.0" : break_even(more, another, 1), percent(1 - smaller.chance_enough)});
        }
        below = i;
    }
    return table;
}

TextTable spare_policy_table(const Scenario& scenario, const StrandStudy& study) {
    TextTable table({{"Policy", Align::left, true},
                     {"Strands\nwanted", Align::right},
                     {"Cable", Align::left, true},
                     amounts("Now", scenario, study),
                     amounts("Later", scenario, study),
                     amounts("Sum", scenario, study),
                     {"Chance\nenough (%)", Align::right}});
    for (const SparePolicy& policy : spare_policies(scenario, study)) {
        std::vector<std::string> cells = {policy.name, figure(std::int64_t{policy.strands})};
        if (policy.size < 0) {
            cells.insert(cells.end(), {"none is large enough", "-", "-", "-", "-"});
        } else {
            const CableSizeOption& size = size_at(study, policy.size);
            const bool duct = size.duct_pays();
            const double now = size.price_now + (duct ? size.duct_now : 0);
            cells.insert(
                cells.end(),
                {with_duct(shown(cable_at(scenario, study, policy.size)), duct), trunk_amount(now, scenario, study.run),
                 trunk_amount(size.best_sum() - now, scenario, study.run),
                 trunk_amount(size.best_sum(), scenario, study.run), percent(size.chance_enough)});
        }
        table.add(cells);
    }
    return table;
}

std::vector<std::string> spare_policy_sources(const Scenario& scenario, const StrandStudy& study) {
    std::vector<std::string> sources;
    for (const SparePolicy& policy : spare_policies(scenario, study)) {
        if (policy.published) sources.push_back(fmt::format("{}: {}", policy.name, policy.source));
    }
    return sources;
}

TextTable growth_rate_table(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates) {
    TextTable table({{"Unnamed links\na year", Align::right},
                     {fmt::format("Expected in\n{} years", scenario.growth.horizon_years), Align::right},
                     {"Recommended", Align::left, true},
                     amounts("Sum", scenario, study),
                     {"Chance\nenough (%)", Align::right},
                     {"", Align::left}});
    for (const RateOfGrowth& rate : rates.rates) {
        std::vector<std::string> cells = {plain(rate.links_per_year, 3),
                                          figure(rate.links_per_year * scenario.growth.horizon_years, 1)};
        if (rate.recommended < 0) {
            cells.insert(cells.end(), {"none is large enough", "-", "-"});
        } else {
            cells.insert(cells.end(), {with_duct(shown(cable_at(scenario, study, rate.recommended)), rate.spare_duct),
                                       trunk_amount(rate.sum, scenario, study.run), percent(rate.chance_enough)});
        }
        cells.emplace_back(rate.of_the_site ? "this site" : "");
        table.add(cells);
    }
    return table;
}

std::vector<std::string> rate_switches(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates) {
    std::vector<std::string> sentences;
    for (const RateSwitch& change : rates.switches) {
        if (change.from < 0 || change.to < 0) continue;
        sentences.push_back(fmt::format("from {} unnamed links a year: {} instead of {}",
                                        plain(change.links_per_year, 3),
                                        with_duct(shown(cable_at(scenario, study, change.to)), change.duct_to),
                                        with_duct(shown(cable_at(scenario, study, change.from)), change.duct_from)));
    }
    return sentences;
}

std::string recommendation_sentence(const Scenario& scenario, const StrandStudy& study) {
    std::string text = shown(study.reason);
    if (!text.empty() && text.back() == '.') text.pop_back();
    if (study.recommended < 0) return text + ".";
    const CableSizeOption& size = size_at(study, study.recommended);
    const auto money = [&](double minor) {
        return fmt::format("{} {}", scenario.currency.code, trunk_amount(minor, scenario, study.run));
    };
    const std::string unit = study.run.planned ? "" : fmt::format(" a {}", length_unit(scenario));
    const double now = size.price_now + (size.duct_pays() ? size.duct_now : 0);
    if (!study.any_growth()) return text + fmt::format(". It costs {}{}; no growth is described.", money(now), unit);
    text += fmt::format(". It costs {}{} now and {}{} later on average; the chance that it lasts {} years is {} %.",
                        money(now), unit, money(size.best_sum() - now), unit, scenario.growth.horizon_years,
                        percent(size.chance_enough));
    if (size.duct_pays())
        text += fmt::format(" With it a spare duct of {}{} pays: without one the sum would be {} more.",
                            money(size.duct_now), unit, money(size.sum() - size.sum_with_duct()));
    return text;
}

}  // namespace spadework::report
