#include "doubt/sweep.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "doubt/bound_chord.hpp"
#include "doubt/plan_pool.hpp"
#include "doubt/planned_layout.hpp"
#include "doubt/replanning.hpp"
#include "layout/reconcile.hpp"

namespace spadework {

namespace {

/// Halvings of a stretch where each of them plans what may win.
constexpr int halvings_when_planned = 3;

class Sweeping {
public:
    Sweeping(const Scenario& scenario, const site_file::VaryingSite& site, const std::vector<SweptInput>& inputs,
             const SweepOptions& options)
        : scenario_(scenario), site_(site), options_(options) {
        sweep_.inputs = inputs;
        sweep_.layouts = options.study.layouts.empty() ? layouts_allowed(scenario.rules) : options.study.layouts;
        std::sort(sweep_.layouts.begin(), sweep_.layouts.end());
        sweep_.layouts.erase(std::unique(sweep_.layouts.begin(), sweep_.layouts.end()), sweep_.layouts.end());
        sweep_.prices_alone = std::all_of(inputs.begin(), inputs.end(),
                                          [&](const SweptInput& input) { return moves_prices_alone(input, scenario); });
        pools_.assign(sweep_.layouts.size(), PlanPool(false));
        if (!sweep_.prices_alone) replanning_.emplace(sweep_, options_, [this](const Spot& spot) { return at(spot); });
    }

    Sweep run();

private:
    using Spot = Replanning::Spot;

    [[nodiscard]] std::optional<Scenario> at(const Spot& spot);
    [[nodiscard]] std::vector<Spot> grid() const;
    [[nodiscard]] bool should_stop() const {
        return options_.study.observer != nullptr && options_.study.observer->should_stop();
    }
    void plan_anchors();
    void plan_at(const std::vector<Spot>& spots);
    [[nodiscard]] double gap_for(const Scenario& scenario, std::size_t layout) const;
    void take(const Spot& spot, const Scenario& scenario, std::vector<PlannedLayout> planned);
    [[nodiscard]] SweptPoint point_at(const Spot& spot);
    [[nodiscard]] std::int64_t bound_at(std::size_t layout, const Spot& spot) const;
    [[nodiscard]] std::int64_t bound_in_row(std::size_t layout, double x, double y) const;
    void settle(SweptPoint& point) const;
    void price_grid();
    void find_changes_replanning();
    void find_changes();
    [[nodiscard]] bool may_be(double x) const;
    [[nodiscard]] WinnerChange narrowed(const SweptPoint& before, const SweptPoint& after);
    [[nodiscard]] std::optional<double> least_proven() const;
    void plan_changes();
    void prove_changes();
    [[nodiscard]] std::optional<double> nearest_proven(double change, double end, std::optional<int> winner);

    const Scenario& scenario_;
    const site_file::VaryingSite& site_;
    const SweepOptions& options_;
    Sweep sweep_;
    std::vector<PlanPool> pools_;  ///< One a layout; used where prices alone move, as are the next two.
    std::map<Spot, std::vector<SweptTotal>> planned_;
    double rounding_ = 0;
    std::optional<Replanning> replanning_;  ///< Where more than prices moves.
};

std::optional<Scenario> Sweeping::at(const Spot& spot) {
    SweptSite swept = site_at(scenario_, site_, sweep_.inputs, {spot.first, spot.second});
    if (sweep_.diagnostics.empty()) sweep_.diagnostics = std::move(swept.diagnostics);
    return std::move(swept.scenario);
}

std::vector<Sweeping::Spot> Sweeping::grid() const {
    std::vector<Spot> spots;
    const bool two = sweep_.inputs.size() > 1;
    for (int row = 0; row < (two ? sweep_.inputs[1].points : 1); ++row) {
        for (int column = 0; column < sweep_.inputs[0].points; ++column)
            spots.emplace_back(sweep_.inputs[0].at(column), two ? sweep_.inputs[1].at(row) : 0.0);
    }
    spots.erase(std::unique(spots.begin(), spots.end()), spots.end());
    return spots;
}

/// A search may stop early where the layout is far from winning by the plans known: its bound needs no more than to
/// pass the cheapest total.
double Sweeping::gap_for(const Scenario& scenario, std::size_t layout) const {
    std::int64_t least = no_plan;
    for (const PlanPool& pool : pools_) {
        const std::int64_t total = pool.cheapest(scenario).total;
        if (total != no_plan && (least == no_plan || total < least)) least = total;
    }
    const std::int64_t own = pools_[layout].cheapest(scenario).total;
    if (own == no_plan || own <= 0) return options_.gap;
    constexpr double to_be_sure = 0.7;
    const double above = static_cast<double>(own - least) / static_cast<double>(own);
    return std::max(options_.gap, to_be_sure * above);
}

void Sweeping::plan_at(const std::vector<Spot>& spots) {
    std::vector<Scenario> scenarios;
    for (const Spot& spot : spots) {
        auto scenario = at(spot);
        if (!scenario) return;
        scenarios.push_back(std::move(*scenario));
    }
    PlanningJob::Gaps gaps(scenarios.size());
    for (std::size_t at = 0; at < scenarios.size(); ++at) {
        for (std::size_t layout = 0; layout < sweep_.layouts.size(); ++layout)
            gaps[at].emplace_back(gap_for(scenarios[at], layout));
    }
    std::vector<std::vector<PlannedLayout>> planned = PlanningJob(options_.study).run(scenarios, sweep_.layouts, gaps);
    for (std::size_t spot = 0; spot < spots.size(); ++spot)
        take(spots[spot], scenarios[spot], std::move(planned[spot]));
}

/// Keeps the plans and bounds of one spot, all of them checked.
void Sweeping::take(const Spot& spot, const Scenario& scenario, std::vector<PlannedLayout> planned) {
    raise_bounds(planned, sweep_.layouts);
    std::vector<SweptTotal>& totals = planned_[spot];
    totals.assign(planned.size(), {});
    for (std::size_t layout = 0; layout < planned.size(); ++layout) {
        PlannedLayout& one = planned[layout];
        sweep_.interrupted = sweep_.interrupted || one.interrupted;
        for (std::string& violation : one.violations)
            sweep_.violations.push_back(std::move(violation));
        if (!one.result.feasible()) continue;
        totals[layout] = {one.result.total.minor(), one.result.bound.minor()};
        pools_[layout].add(scenario, *one.result.plan);
    }
    ++sweep_.planned;
}

/// Bound in a row of the grid that was planned in: by the chord along the first input.
std::int64_t Sweeping::bound_in_row(std::size_t layout, double x, double y) const {
    std::vector<ProvedAt> proved;
    for (const auto& [spot, totals] : planned_) {
        if (spot.second == y && totals[layout].total != no_plan) proved.push_back({spot.first, totals[layout].bound});
    }
    return bound_between(proved, x, rounding_);
}

std::int64_t Sweeping::bound_at(std::size_t layout, const Spot& spot) const {
    const auto known = planned_.find(spot);
    if (known != planned_.end()) return known->second[layout].bound;
    std::vector<double> rows;
    for (const auto& [planned, totals] : planned_)
        rows.push_back(planned.second);
    std::sort(rows.begin(), rows.end());
    rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
    std::vector<ProvedAt> proved;
    for (const double row : rows) {
        const std::int64_t bound = bound_in_row(layout, spot.first, row);
        if (bound > 0) proved.push_back({row, bound});
    }
    return bound_between(proved, spot.second, rounding_);
}

/// The winner, and whether it is proven.
void Sweeping::settle(SweptPoint& point) const {
    for (const auto& [narrow, wide] : contained_in) {
        const auto from = std::find(sweep_.layouts.begin(), sweep_.layouts.end(), narrow);
        const auto to = std::find(sweep_.layouts.begin(), sweep_.layouts.end(), wide);
        if (from == sweep_.layouts.end() || to == sweep_.layouts.end()) continue;
        const SweptTotal& own = point.totals[static_cast<std::size_t>(from - sweep_.layouts.begin())];
        SweptTotal& other = point.totals[static_cast<std::size_t>(to - sweep_.layouts.begin())];
        if (own.total != no_plan && (other.total == no_plan || own.total < other.total)) other.total = own.total;
    }
    for (std::size_t layout = 0; layout < point.totals.size(); ++layout) {
        const std::int64_t total = point.totals[layout].total;
        if (total == no_plan) continue;
        if (!point.winner || total < point.totals[static_cast<std::size_t>(*point.winner)].total)
            point.winner = static_cast<int>(layout);
    }
    if (!point.winner) return;
    const auto winner = static_cast<std::size_t>(*point.winner);
    point.proven = true;
    for (std::size_t rival = 0; rival < point.totals.size(); ++rival) {
        const SweptTotal& other = point.totals[rival];
        if (rival == winner || includes(sweep_.layouts[rival], sweep_.layouts[winner])) continue;
        if (other.total == no_plan ? !other.looked_for : point.totals[winner].total > other.bound) point.proven = false;
    }
}

SweptPoint Sweeping::point_at(const Spot& spot) {
    SweptPoint point{spot.first, spot.second, planned_.contains(spot), {}, {}, false};
    if (replanning_) {
        point = replanning_->point_at(spot);
    } else {
        const auto scenario = at(spot);
        point.totals.resize(sweep_.layouts.size());
        for (std::size_t layout = 0; scenario && layout < point.totals.size(); ++layout)
            point.totals[layout] = {pools_[layout].cheapest(*scenario).total, bound_at(layout, spot)};
    }
    settle(point);
    return point;
}

void Sweeping::plan_anchors() {
    if (replanning_) return replanning_->plan(grid());
    std::vector<double> rows = {0};
    const SweptInput& x = sweep_.inputs[0];
    if (sweep_.inputs.size() > 1) rows = {sweep_.inputs[1].from, sweep_.inputs[1].to};
    for (const double row : {rows.front(), rows.back()}) {
        const auto scenario = at({x.from, row});
        const auto other = at({x.to, row});
        if (!scenario || !other) return;
        rounding_ = std::max({rounding_, most_rounding(*scenario), most_rounding(*other)});
    }
    const double middle_y = (rows.front() + rows.back()) / 2;
    plan_at({{(x.from + x.to) / 2, middle_y}});
    for (const double row : rows) {
        if (sweep_.diagnostics.empty()) plan_at({{x.from, row}, {x.to, row}});
        if (rows.size() > 1 && rows.front() == rows.back()) break;
    }
}

void Sweeping::price_grid() {
    sweep_.points.clear();
    for (const Spot& spot : grid())
        sweep_.points.push_back(point_at(spot));
}

/// Between two values that may be, a fraction of a whole number may not.
bool Sweeping::may_be(double x) const {
    return site_at(scenario_, site_, sweep_.inputs, {x, 0}).scenario.has_value();
}

WinnerChange Sweeping::narrowed(const SweptPoint& before, const SweptPoint& after) {
    WinnerChange change{before.x, after.x, before.winner, after.winner, {}, {}};
    const int halvings = sweep_.prices_alone ? options_.halvings : std::min(options_.halvings, halvings_when_planned);
    for (int i = 0; i < halvings && !should_stop(); ++i) {
        double middle = (change.from + change.to) / 2;
        if (sweep_.inputs[0].whole || !may_be(middle)) middle = std::floor(middle);
        if (middle <= change.from || middle >= change.to || !may_be(middle)) break;
        if (replanning_) replanning_->plan_what_may_win({middle, 0});
        const SweptPoint point = point_at({middle, 0});
        if (point.winner == change.before) {
            change.from = middle;
        } else {
            change.to = middle;
            change.after = point.winner;  // A third layout may come between.
        }
    }
    return change;
}

void Sweeping::find_changes() {
    sweep_.changes.clear();
    for (std::size_t i = 0; i + 1 < sweep_.points.size(); ++i) {
        SweptPoint from = sweep_.points[i];
        const SweptPoint& to = sweep_.points[i + 1];
        while (from.winner != to.winner && from.x < to.x) {
            const WinnerChange change = narrowed(from, to);
            sweep_.changes.push_back(change);
            from.x = change.to;
            from.winner = change.after;
        }
    }
}

/// Plans made while changes were narrowed may be the best elsewhere too, and move changes: then all once more.
void Sweeping::find_changes_replanning() {
    constexpr int rounds = 2;
    for (int round = 0; round < rounds; ++round) {
        const std::size_t plans = replanning_->plans();
        find_changes();
        if (replanning_->plans() == plans) return;
        price_grid();
    }
    find_changes();
}

/// The point of the grid, apart from those planned, whose winner is the farthest from being proven.
std::optional<double> Sweeping::least_proven() const {
    std::optional<double> worst;
    std::int64_t most = 0;
    for (const SweptPoint& point : sweep_.points) {
        if (point.planned || point.proven || !point.winner) continue;
        const auto winner = static_cast<std::size_t>(*point.winner);
        for (std::size_t rival = 0; rival < point.totals.size(); ++rival) {
            if (rival == winner || point.totals[rival].total == no_plan) continue;
            if (includes(sweep_.layouts[rival], sweep_.layouts[winner])) continue;
            const std::int64_t missing = point.totals[winner].total - point.totals[rival].bound;
            if (missing <= most) continue;
            most = missing;
            worst = point.x;
        }
    }
    return worst;
}

/// Plans at changes move them where plans known there were not the best.
void Sweeping::plan_changes() {
    for (int round = 0; round < options_.most_planned_on_the_way && !should_stop(); ++round) {
        const double range = std::abs(sweep_.inputs[0].to - sweep_.inputs[0].from);
        std::optional<double> next;
        for (const WinnerChange& change : sweep_.changes) {
            const double middle = (change.from + change.to) / 2;
            const bool near = std::any_of(planned_.begin(), planned_.end(), [&](const auto& planned) {
                return std::abs(planned.first.first - middle) < range / 100;
            });
            if (!near && !next) next = middle;
        }
        if (!next) next = least_proven();
        if (!next) return;
        plan_at({{*next, 0}});
        price_grid();
        find_changes();
    }
}

/// The point nearest to a change, towards `end`, where the winner is proven: found by halving, so that it is one but
/// not always the very nearest.
std::optional<double> Sweeping::nearest_proven(double change, double end, std::optional<int> winner) {
    const auto wins = [&](double x) {
        const SweptPoint point = point_at({x, 0});
        return point.proven && point.winner == winner;
    };
    if (change == end || wins(change)) return wins(change) ? std::optional(change) : std::nullopt;
    std::optional<double> sure;
    for (const SweptPoint& point : sweep_.points) {
        const bool between = std::min(change, end) <= point.x && point.x <= std::max(change, end);
        if (!between || !point.proven || point.winner != winner) continue;
        if (!sure || std::abs(point.x - change) < std::abs(*sure - change)) sure = point.x;
    }
    if (!sure || !sweep_.prices_alone) return sure;
    double unsure = change;
    for (int i = 0; i < options_.halvings; ++i) {
        const double middle = (*sure + unsure) / 2;
        (wins(middle) ? *sure : unsure) = middle;
    }
    return sure;
}

void Sweeping::prove_changes() {
    for (std::size_t i = 0; i < sweep_.changes.size(); ++i) {
        WinnerChange& change = sweep_.changes[i];
        const double before = i == 0 ? sweep_.inputs[0].from : sweep_.changes[i - 1].to;
        const double after = i + 1 == sweep_.changes.size() ? sweep_.inputs[0].to : sweep_.changes[i + 1].from;
        if (change.before) change.proven_from = nearest_proven(change.from, before, change.before);
        if (change.after) change.proven_to = nearest_proven(change.to, after, change.after);
    }
}

Sweep Sweeping::run() {
    plan_anchors();
    if (!sweep_.diagnostics.empty() || !sweep_.violations.empty()) return std::move(sweep_);
    price_grid();
    if (sweep_.inputs.size() == 1) {
        replanning_ ? find_changes_replanning() : find_changes();
        if (sweep_.prices_alone) plan_changes();
        prove_changes();
    }
    sweep_.interrupted = sweep_.interrupted || should_stop();
    return std::move(sweep_);
}

}  // namespace

Sweep sweep(const Scenario& scenario, const site_file::VaryingSite& site, const std::vector<SweptInput>& inputs,
            const SweepOptions& options) {
    return Sweeping(scenario, site, inputs, options).run();
}

}  // namespace spadework
