#include "doubt/risk.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <utility>

#include "doubt/draws.hpp"
#include "doubt/far_draws.hpp"
#include "doubt/plan_pool.hpp"
#include "doubt/planned_layout.hpp"
#include "layout/reconcile.hpp"
#include "study/side_by_side.hpp"

namespace spadework {

namespace {

/// Draws that plans for draws are chosen among, and that tell which plans are worth keeping.
constexpr std::int64_t trial_draws = 1024;
constexpr std::int64_t block_draws = 64;
/// A plan made for a draw is a quick one: the search stops at its first.
constexpr double quick_gap = 1;
/// What a plan made as a check is good for: the bound should say something.
constexpr double check_gap = 0.02;

class RiskWork {
public:
    RiskWork(const Scenario& scenario, const site_file::VaryingSite& site, const RiskOptions& options)
        : scenario_(scenario),
          site_(site),
          options_(options),
          drivers_(drivers_of(site.values())),
          draws_(static_cast<int>(drivers_.size()), options.draws, options.study.seed) {}

    RiskRun run();

private:
    using Point = std::vector<double>;

    [[nodiscard]] Scenario drawn(const double* quantiles) const;
    void plan_at_likely_values(RiskRun& run);
    [[nodiscard]] std::vector<double> influences() const;
    [[nodiscard]] std::vector<std::vector<PlannedLayout>> planned_at(const std::vector<Scenario>& scenarios,
                                                                     double gap) const;
    [[nodiscard]] std::vector<Scenario> drawn_at(const std::vector<Point>& points) const;
    bool take_violations(std::vector<PlannedLayout>& planned);
    void share_plans(std::vector<DrawnTotals>& totals) const;
    void replan(const std::vector<Point>& points, RiskHead& head);
    void replan_where_it_matters(RiskHead& head);
    [[nodiscard]] std::vector<std::size_t> close_calls(const std::vector<double>& points) const;
    void drop_useless_plans(RiskHead& head);
    void check_pool(RiskHead& head);
    [[nodiscard]] std::vector<DrawnTotals> totals_at(const Scenario& scenario) const;
    void price_draws(RiskSample& sample);
    void fill_head(RiskHead& head) const;
    [[nodiscard]] bool should_stop() const {
        return options_.study.observer != nullptr && options_.study.observer->should_stop();
    }

    const Scenario& scenario_;
    const site_file::VaryingSite& site_;
    const RiskOptions& options_;
    std::vector<Driver> drivers_;
    Draws draws_;
    std::vector<LayoutKind> layouts_;
    std::vector<std::string> violations_;
    std::vector<PlanPool> pools_;  ///< One a layout; today's plan is the first.
};

Scenario RiskWork::drawn(const double* quantiles) const {
    Scenario scenario = scenario_;
    site_.set(numbers_at(site_.values(), drivers_, quantiles), scenario);
    return scenario;
}

void RiskWork::fill_head(RiskHead& head) const {
    head.site = scenario_.name;
    head.digest = scenario_.digest;
    head.currency = scenario_.currency;
    head.contingency_thousandths = scenario_.rules.contingency.thousandths();
    head.random_seed = options_.study.seed;
    head.draws = options_.draws;
    head.lengths_vary = site_.lengths_vary();
    head.drivers = drivers_;
    for (const UncertainValue& value : site_.values())
        head.keys.push_back(value.key);
}

void RiskWork::plan_at_likely_values(RiskRun& run) {
    Study study = compare_layouts(scenario_, options_.study);
    run.violations = std::move(study.violations);
    if (study.interrupted) run.sample.interrupted = "the plans at the likely values";
    for (const LayoutResult& result : study.comparison.layouts) {
        SampledLayout sampled;
        sampled.layout = result.layout;
        sampled.reason = result.reason;
        layouts_.push_back(result.layout);
        pools_.emplace_back(site_.lengths_vary());
        if (result.feasible()) {
            pools_.back().add(scenario_, *result.plan);
            sampled.likely_total = result.total.minor();
            sampled.likely_direct = direct_cost(result.bill).minor();
            sampled.likely_bound = result.bound.minor();
        } else if (sampled.reason.empty()) {
            sampled.reason = "no plan was found";
        }
        run.sample.head.layouts.push_back(std::move(sampled));
    }
}

/// What each driver moves the total by, at most over the layouts, between its 5 % and its 95 % quantile.
std::vector<double> RiskWork::influences() const {
    std::vector<double> influences(drivers_.size());
    for (std::size_t d = 0; d < drivers_.size(); ++d) {
        Point point(drivers_.size(), 0.5);
        point[d] = 0.05;
        const Scenario low = drawn(point.data());
        point[d] = 0.95;
        const Scenario high = drawn(point.data());
        for (const PlanPool& pool : pools_) {
            if (pool.size() == 0) continue;
            const std::int64_t apart = pool.total(0, high) - pool.total(0, low);
            influences[d] = std::max(influences[d], std::abs(static_cast<double>(apart)));
        }
    }
    return influences;
}

/// Each layout planned at each point. Points are in order, whatever comes out first.
std::vector<std::vector<PlannedLayout>> RiskWork::planned_at(const std::vector<Scenario>& scenarios, double gap) const {
    const std::vector<std::optional<double>> same(layouts_.size(), gap);
    return PlanningJob(options_.study).run(scenarios, layouts_, PlanningJob::Gaps(scenarios.size(), same));
}

std::vector<Scenario> RiskWork::drawn_at(const std::vector<Point>& points) const {
    std::vector<Scenario> scenarios;
    for (const Point& point : points)
        scenarios.push_back(drawn(point.data()));
    return scenarios;
}

bool RiskWork::take_violations(std::vector<PlannedLayout>& planned) {
    bool interrupted = false;
    for (PlannedLayout& one : planned) {
        interrupted = interrupted || one.interrupted;
        for (std::string& violation : one.violations)
            violations_.push_back(std::move(violation));
    }
    return interrupted;
}

void RiskWork::replan(const std::vector<Point>& points, RiskHead& head) {
    const std::vector<Scenario> scenarios = drawn_at(points);
    std::vector<std::vector<PlannedLayout>> planned = planned_at(scenarios, quick_gap);
    for (std::size_t at = 0; at < points.size(); ++at) {
        head.replans += take_violations(planned[at]) ? 0 : 1;
        for (std::size_t layout = 0; layout < layouts_.size(); ++layout) {
            const LayoutResult& result = planned[at][layout].result;
            if (!result.feasible() || pools_[layout].size() == 0) continue;
            pools_[layout].add(scenarios[at], *result.plan);
            ++head.layouts[layout].plans_made;
        }
    }
}

/// The quarter of the draws at which the two cheapest layouts are nearest to each other.
std::vector<std::size_t> RiskWork::close_calls(const std::vector<double>& points) const {
    const std::size_t width = drivers_.size();
    std::vector<std::pair<double, std::size_t>> margins(width == 0 ? 0 : points.size() / width);
    do_side_by_side(static_cast<int>(margins.size()), options_.study.threads, [&](int job) {
        const auto draw = static_cast<std::size_t>(job);
        std::vector<std::int64_t> totals;
        for (const DrawnTotals& total : totals_at(drawn(points.data() + draw * width))) {
            if (total.best != no_plan) totals.push_back(total.best);
        }
        std::sort(totals.begin(), totals.end());
        totals.erase(std::unique(totals.begin(), totals.end()), totals.end());
        const double margin = totals.size() < 2 ? 0
                                                : static_cast<double>(totals[1] - totals[0]) /
                                                      static_cast<double>(std::max<std::int64_t>(1, totals[0]));
        margins[draw] = {margin, draw};
    });
    std::sort(margins.begin(), margins.end());
    std::vector<std::size_t> closest;
    for (std::size_t i = 0; i < (margins.size() + 3) / 4; ++i)
        closest.push_back(margins[i].second);
    std::sort(closest.begin(), closest.end());
    return closest;
}

void RiskWork::replan_where_it_matters(RiskHead& head) {
    const std::vector<double> points = draws_.between(0, std::min(trial_draws, options_.draws));
    const std::size_t width = drivers_.size();
    if (width == 0 || options_.replans == 0) return;
    const std::vector<double> weights = influences();
    std::vector<Point> planned = {Point(width, 0.5)};
    const auto replan_among = [&](const std::vector<std::size_t>& candidates, int count) {
        std::vector<Point> chosen;
        for (const std::size_t draw : far_draws(points, candidates, weights, planned, static_cast<std::size_t>(count)))
            chosen.emplace_back(points.begin() + static_cast<std::ptrdiff_t>(draw * width),
                                points.begin() + static_cast<std::ptrdiff_t>((draw + 1) * width));
        replan(chosen, head);
        planned.insert(planned.end(), chosen.begin(), chosen.end());
    };
    std::vector<std::size_t> all(points.size() / width);
    std::iota(all.begin(), all.end(), std::size_t{0});
    replan_among(all, (options_.replans + 1) / 2);
    if (options_.replans > 1) replan_among(close_calls(points), options_.replans / 2);
}

/// Totals of every layout.
std::vector<DrawnTotals> RiskWork::totals_at(const Scenario& scenario) const {
    std::vector<DrawnTotals> totals(layouts_.size());
    for (std::size_t layout = 0; layout < layouts_.size(); ++layout) {
        const PlanPool& pool = pools_[layout];
        if (pool.size() == 0) continue;
        totals[layout].today = pool.total(0, scenario);
        totals[layout].best = pool.cheapest(scenario, totals[layout].today).total;
    }
    share_plans(totals);
    return totals;
}

/// A layout that contains others may be built like them.
void RiskWork::share_plans(std::vector<DrawnTotals>& totals) const {
    for (const auto& [narrow, wide] : contained_in) {
        const auto from = std::find(layouts_.begin(), layouts_.end(), narrow) - layouts_.begin();
        const auto to = std::find(layouts_.begin(), layouts_.end(), wide) - layouts_.begin();
        const auto count = static_cast<std::ptrdiff_t>(layouts_.size());
        if (from == count || to == count) continue;
        const std::int64_t total = totals[static_cast<std::size_t>(from)].best;
        std::int64_t& best = totals[static_cast<std::size_t>(to)].best;
        if (total != no_plan && (best == no_plan || total < best)) best = total;
    }
}

/// Keeps today's plans, and those that are the cheapest of their layout at any of the first draws.
void RiskWork::drop_useless_plans(RiskHead& head) {
    const std::int64_t count = std::min(trial_draws, options_.draws);
    const std::vector<double> points = draws_.between(0, count);
    std::vector<std::vector<std::size_t>> best(static_cast<std::size_t>(count));
    do_side_by_side(static_cast<int>(count), options_.study.threads, [&](int job) {
        const auto draw = static_cast<std::size_t>(job);
        const Scenario scenario = drawn(points.data() + draw * drivers_.size());
        for (const PlanPool& pool : pools_)
            best[draw].push_back(pool.cheapest(scenario).plan);
    });
    for (std::size_t layout = 0; layout < pools_.size(); ++layout) {
        std::vector<bool> wanted(pools_[layout].size(), false);
        if (wanted.empty()) continue;
        wanted[0] = true;
        for (const std::vector<std::size_t>& each : best)
            wanted[each[layout]] = true;
        pools_[layout].keep(wanted);
        head.layouts[layout].plans_kept = static_cast<std::int64_t>(pools_[layout].size());
    }
}

void RiskWork::check_pool(RiskHead& head) {
    std::vector<Point> points;
    for (int number = 0; number < options_.checks; ++number)
        points.push_back(draws_.fresh(number));
    const std::vector<Scenario> scenarios = drawn_at(points);
    std::vector<std::vector<PlannedLayout>> planned = planned_at(scenarios, check_gap);
    for (std::size_t at = 0; at < points.size(); ++at) {
        if (take_violations(planned[at])) continue;
        ++head.checks;
        raise_bounds(planned[at], layouts_);
        std::vector<DrawnTotals> made(layouts_.size());
        for (std::size_t layout = 0; layout < layouts_.size(); ++layout) {
            const LayoutResult& result = planned[at][layout].result;
            if (result.feasible()) made[layout].best = result.total.minor();
        }
        share_plans(made);
        const std::vector<DrawnTotals> known = totals_at(scenarios[at]);
        for (std::size_t layout = 0; layout < layouts_.size(); ++layout) {
            const LayoutResult& result = planned[at][layout].result;
            if (!result.feasible() || known[layout].best == no_plan) continue;
            head.layouts[layout].checks.push_back({known[layout].best, made[layout].best, result.bound.minor()});
        }
    }
}

void RiskWork::price_draws(RiskSample& sample) {
    const std::int64_t first = options_.draws * (options_.shard.number - 1) / options_.shard.of;
    std::int64_t last = options_.draws * options_.shard.number / options_.shard.of;
    if (should_stop()) last = std::min(last, first + trial_draws);
    const auto blocks = static_cast<int>((last - first + block_draws - 1) / block_draws);
    std::vector<std::vector<DrawnTotals>> priced(static_cast<std::size_t>(blocks));
    do_side_by_side(blocks, options_.study.threads, [&](int block) {
        if (block * block_draws >= trial_draws && should_stop()) return;
        const std::int64_t begin = first + block * block_draws;
        const std::int64_t end = std::min(last, begin + block_draws);
        const std::vector<double> points = draws_.between(begin, end);
        Scenario scenario = scenario_;
        for (std::int64_t draw = begin; draw < end; ++draw) {
            const double* at = points.data() + static_cast<std::size_t>(draw - begin) * drivers_.size();
            site_.set(numbers_at(site_.values(), drivers_, at), scenario);
            const std::vector<DrawnTotals> totals = totals_at(scenario);
            auto& own = priced[static_cast<std::size_t>(block)];
            own.insert(own.end(), totals.begin(), totals.end());
        }
    });
    sample.first = first;
    for (const std::vector<DrawnTotals>& block : priced) {
        if (block.empty()) break;
        sample.totals.insert(sample.totals.end(), block.begin(), block.end());
    }
}

RiskRun RiskWork::run() {
    RiskRun run;
    fill_head(run.sample.head);
    plan_at_likely_values(run);
    if (!run.violations.empty()) return run;
    replan_where_it_matters(run.sample.head);
    drop_useless_plans(run.sample.head);
    check_pool(run.sample.head);
    run.violations = std::move(violations_);
    price_draws(run.sample);
    if (run.sample.interrupted.empty() && should_stop()) run.sample.interrupted = "planning and drawing";
    return run;
}

}  // namespace

RiskRun run_risk(const Scenario& scenario, const site_file::VaryingSite& site, const RiskOptions& options) {
    return RiskWork(scenario, site, options).run();
}

}  // namespace spadework
