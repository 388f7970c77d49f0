#include "doubt/replanning.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "study/side_by_side.hpp"

namespace spadework {

namespace {

/// Spots along an input at which every layout is planned, both ends among them.
constexpr int anchors_along_one = 5;
constexpr int anchors_along_two = 4;
/// Layouts above the cheapest by less than this share may win once planned anew.
constexpr double contending = 0.05;
/// Planning anew was worth it where it saved more than this share.
constexpr double worth_it = 0.002;
/// Spots planned halfway between others, at most.
constexpr std::size_t most_halfway = 12;
/// A rival's bound passes the winner's total where its gap is this share of what lies between the two.
constexpr double to_be_sure = 0.7;

/// Indices of `count` of `size` items, spread evenly, first and last among them.
std::set<std::size_t> spread(std::size_t size, int count) {
    std::set<std::size_t> chosen;
    for (int i = 0; i < count; ++i) {
        chosen.insert(
            static_cast<std::size_t>(std::lround(static_cast<double>(size - 1) * i / std::max(1, count - 1))));
    }
    return chosen;
}

std::int64_t lesser(std::int64_t a, std::int64_t b) {
    if (a == no_plan || b == no_plan) return std::max(a, b);
    return std::min(a, b);
}

/// By which share of itself a total lies above the least of all; 0 for one that has no plan.
double share_above_least(const std::vector<std::int64_t>& totals, std::size_t layout) {
    std::int64_t least = no_plan;
    for (const std::int64_t total : totals)
        least = lesser(least, total);
    if (totals[layout] == no_plan || totals[layout] <= 0) return 0;
    return static_cast<double>(totals[layout] - least) / static_cast<double>(totals[layout]);
}

}  // namespace

Replanning::Replanning(Sweep& sweep, const SweepOptions& options, SiteAt site_at)
    : sweep_(sweep), options_(options), site_at_(std::move(site_at)), known_(sweep.layouts.size()) {
    for (const SweptInput& input : sweep_.inputs)
        reuses_ = reuses_ && input.key != "buildings";
    narrows_ = sweep_.inputs.size() == 1 && narrows_plans(sweep_.inputs[0]);
}

std::vector<Replanning::Found>& Replanning::found_at(const Spot& spot) {
    std::vector<Found>& found = found_[spot];
    found.resize(sweep_.layouts.size());
    return found;
}

std::size_t Replanning::plans() const {
    std::size_t count = 0;
    for (const ReusedPlans& known : known_)
        count += known.size();
    return count;
}

/// Lays out at each spot what plans were added since it was looked at last. False where a value is refused.
bool Replanning::lay_out(const std::vector<Spot>& spots) {
    if (!reuses_) return true;
    std::vector<Scenario> scenarios;
    std::vector<std::vector<Found>*> founds;
    for (const Spot& spot : spots) {
        std::vector<Found>& found = found_at(spot);
        const auto is_new = [&](std::size_t layout) { return found[layout].laid.plans < known_[layout].size(); };
        bool any = false;
        for (std::size_t layout = 0; layout < found.size(); ++layout)
            any = any || is_new(layout);
        if (!any) continue;
        auto scenario = site_at_(spot);
        if (!scenario) return false;
        scenarios.push_back(std::move(*scenario));
        founds.push_back(&found);
    }
    do_side_by_side(static_cast<int>(founds.size()), options_.study.threads, [&](int job) {
        std::vector<Found>& found = *founds[static_cast<std::size_t>(job)];
        for (std::size_t layout = 0; layout < found.size(); ++layout) {
            Laid& laid = found[layout].laid;
            const std::int64_t limit = lesser(found[layout].planned.total, laid.total);
            const auto more = known_[layout].cheapest(scenarios[static_cast<std::size_t>(job)], laid.plans, limit);
            laid = {known_[layout].size(), lesser(laid.total, more)};
        }
    });
    return true;
}

/// What was found at the spot planned wholly that lies nearest, each input counted by its range; null where there is
/// none yet.
const std::vector<Replanning::Found>* Replanning::nearest_planned(const Spot& spot) const {
    const std::vector<Found>* nearest = nullptr;
    double least = 0;
    for (const auto& [other, found] : found_) {
        if (!std::ranges::all_of(found, &Found::looked)) continue;
        const SweptInput& x = sweep_.inputs.front();
        const SweptInput& y = sweep_.inputs.back();
        const double apart = std::abs(other.first - spot.first) / (x.to - x.from) +
                             std::abs(other.second - spot.second) / (y.to - y.from);
        if (nearest != nullptr && apart >= least) continue;
        nearest = &found;
        least = apart;
    }
    return nearest;
}

std::vector<std::int64_t> Replanning::nearest_totals(const Spot& spot) const {
    std::vector<std::int64_t> totals(sweep_.layouts.size(), no_plan);
    const std::vector<Found>* nearest = nearest_planned(spot);
    for (std::size_t layout = 0; nearest != nullptr && layout < totals.size(); ++layout)
        totals[layout] = (*nearest)[layout].planned.total;
    return totals;
}

std::vector<std::int64_t> Replanning::totals_at(const Spot& spot) {
    if (!reuses_ && !std::ranges::all_of(found_at(spot), &Found::looked)) return nearest_totals(spot);
    std::vector<std::int64_t> totals;
    for (const Found& found : found_at(spot))
        totals.push_back(lesser(found.planned.total, found.laid.total));
    return totals;
}

Replanning::Gaps Replanning::gaps_of_all(const Spot& spot) {
    const std::vector<std::int64_t> totals = totals_at(spot);
    Gaps gaps;
    for (std::size_t layout = 0; layout < totals.size(); ++layout)
        gaps.emplace_back(std::max(options_.gap, to_be_sure * share_above_least(totals, layout)));
    return gaps;
}

Replanning::Gaps Replanning::gaps_of_contenders(const Spot& spot) {
    const std::vector<std::int64_t> totals = totals_at(spot);
    Gaps gaps = gaps_of_all(spot);
    for (std::size_t layout = 0; layout < totals.size(); ++layout) {
        const bool may_win = share_above_least(totals, layout) < std::max(options_.gap, contending);
        const bool has_no_plan_anywhere = reuses_ && known_[layout].size() == 0;
        if (!may_win || has_no_plan_anywhere) gaps[layout].reset();
    }
    return gaps;
}

/// All layouts, once those that may win were planned there: where one of these keeps the winner from being proven, the
/// others need a plan and no bound.
Replanning::Gaps Replanning::gaps_of_the_rest(const Spot& spot) {
    constexpr double plan_alone = 1;
    Gaps gaps = gaps_of_all(spot);
    const std::vector<Found>& found = found_at(spot);
    std::int64_t least = no_plan;
    for (const Found& one : found)
        least = lesser(least, one.planned.total);
    const auto winner = std::ranges::find(found, least, [](const Found& one) { return one.planned.total; });
    if (least == no_plan) return gaps;
    const LayoutKind winning = sweep_.layouts[static_cast<std::size_t>(winner - found.begin())];
    for (std::size_t rival = 0; rival < found.size(); ++rival) {
        const SweptTotal& planned = found[rival].planned;
        if (planned.total == no_plan || planned.bound >= least) continue;
        if (winning == sweep_.layouts[rival] || includes(sweep_.layouts[rival], winning)) continue;
        gaps.assign(gaps.size(), plan_alone);
    }
    return gaps;
}

/// Whether a rival's bound passes the winner's total at the planned spot that lies nearest.
bool Replanning::passes_nearby(const Spot& spot, std::size_t rival, std::size_t winner) const {
    const std::vector<Found>* nearest = nearest_planned(spot);
    return nearest != nullptr && (*nearest)[winner].planned.total != no_plan &&
           (*nearest)[rival].planned.bound >= (*nearest)[winner].planned.total;
}

/// Those rivals whose bounds do not pass the winner yet; none where one of them is too near for that, so that proving
/// the others would prove nothing.
Replanning::Gaps Replanning::gaps_to_prove(const Spot& spot) {
    const Gaps none(sweep_.layouts.size());
    const SweptPoint point = point_at(spot);
    std::optional<std::size_t> winner;
    for (std::size_t layout = 0; layout < none.size(); ++layout) {
        const std::int64_t total = point.totals[layout].total;
        if (total != no_plan && (!winner || total < point.totals[*winner].total)) winner = layout;
    }
    if (!winner) return none;
    const std::vector<std::int64_t> totals = totals_at(spot);
    Gaps gaps = gaps_of_all(spot);
    for (std::size_t rival = 0; rival < none.size(); ++rival) {
        const bool passes =
            point.totals[rival].total != no_plan && point.totals[rival].bound >= point.totals[*winner].total;
        if (rival == *winner || passes || includes(sweep_.layouts[rival], sweep_.layouts[*winner])) {
            gaps[rival].reset();
        } else if (found_at(spot)[rival].looked) {
            if (totals[rival] != no_plan) return none;
            gaps[rival].reset();
        } else if (totals[rival] != no_plan && share_above_least(totals, rival) < options_.gap &&
                   !passes_nearby(spot, rival, *winner)) {
            return none;
        }
    }
    return gaps;
}

void Replanning::plan_at(const std::vector<Spot>& spots, const std::function<Gaps(const Spot&)>& gaps_at) {
    if (!lay_out(spots)) return;
    std::vector<Spot> chosen;
    std::vector<Scenario> scenarios;
    PlanningJob::Gaps gaps;
    for (const Spot& spot : spots) {
        Gaps wanted = gaps_at(spot);
        for (std::size_t layout = 0; layout < wanted.size(); ++layout) {
            if (found_at(spot)[layout].looked) wanted[layout].reset();
        }
        if (std::ranges::none_of(wanted, [](const auto& gap) { return gap.has_value(); })) continue;
        auto scenario = site_at_(spot);
        if (!scenario) return;
        chosen.push_back(spot);
        scenarios.push_back(std::move(*scenario));
        gaps.push_back(std::move(wanted));
    }
    auto planned = PlanningJob(options_.study).with_trunks_in_mixes().run(scenarios, sweep_.layouts, gaps);
    for (std::size_t at = 0; at < chosen.size(); ++at)
        take(chosen[at], std::move(planned[at]), gaps[at]);
}

void Replanning::take(const Spot& spot, std::vector<PlannedLayout> planned, const Gaps& gaps) {
    raise_bounds(planned, sweep_.layouts);
    std::vector<Found>& found = found_at(spot);
    const auto count = [&found](int in_part, int whole) {
        if (std::ranges::all_of(found, &Found::looked)) return whole;
        return std::ranges::any_of(found, &Found::looked) ? in_part : 0;
    };
    sweep_.planned -= count(0, 1);
    sweep_.planned_in_part -= count(1, 0);
    for (std::size_t layout = 0; layout < planned.size(); ++layout) {
        if (!gaps[layout]) continue;
        PlannedLayout& one = planned[layout];
        sweep_.interrupted = sweep_.interrupted || one.interrupted;
        sweep_.violations.insert(sweep_.violations.end(), one.violations.begin(), one.violations.end());
        found[layout].looked = one.result.feasible() || !one.interrupted;
        if (!one.result.feasible()) continue;
        found[layout].planned = {one.result.total.minor(), one.result.bound.minor()};
        if (reuses_) known_[layout].add(*one.result.plan);
    }
    sweep_.planned += count(0, 1);
    sweep_.planned_in_part += count(1, 0);
}

void Replanning::plan_wholly(const std::vector<Spot>& spots) {
    plan_at(spots, [this](const Spot& spot) { return gaps_of_all(spot); });
}

/// Plans what may win halfway between the planned spots of a row, and on towards both sides where that paid.
void Replanning::plan_halfway(const std::vector<Spot>& row) {
    using Stretch = std::pair<std::size_t, std::size_t>;
    const std::set<std::size_t> anchors = spread(row.size(), anchors_along_one);
    std::vector<Stretch> stretches;
    for (auto at = anchors.begin(); std::next(at) != anchors.end(); ++at)
        stretches.emplace_back(*at, *std::next(at));
    std::size_t left = most_halfway;
    while (!stretches.empty() && left > 0 && !should_stop()) {
        std::erase_if(stretches, [](const Stretch& stretch) { return stretch.second - stretch.first < 2; });
        stretches.resize(std::min(stretches.size(), left));
        left -= stretches.size();
        std::vector<Spot> spots;
        for (const auto& [from, to] : stretches)
            spots.push_back(row[(from + to) / 2]);
        if (!lay_out(spots)) return;
        std::vector<std::vector<std::int64_t>> before;
        for (const Spot& spot : spots)
            before.push_back(totals_at(spot));
        plan_at(spots, [this](const Spot& spot) { return gaps_of_contenders(spot); });
        std::vector<Stretch> next;
        for (std::size_t i = 0; i < spots.size(); ++i) {
            const std::vector<std::int64_t> after = totals_at(spots[i]);
            bool paid = false;
            for (std::size_t layout = 0; layout < after.size(); ++layout) {
                const auto saved = static_cast<double>(before[i][layout] - after[layout]);
                paid = paid || (before[i][layout] == no_plan ? after[layout] != no_plan
                                                             : saved > worth_it * static_cast<double>(after[layout]));
            }
            const std::size_t middle = (stretches[i].first + stretches[i].second) / 2;
            if (!paid) continue;
            next.emplace_back(stretches[i].first, middle);
            next.emplace_back(middle, stretches[i].second);
        }
        stretches = std::move(next);
    }
}

void Replanning::plan(const std::vector<Spot>& grid) {
    if (!reuses_) {
        plan_wholly({grid[grid.size() / 2]});
        plan_at(grid, [this](const Spot& spot) { return gaps_of_contenders(spot); });
        plan_at(grid, [this](const Spot& spot) { return gaps_of_the_rest(spot); });
        return;
    }
    const bool two = sweep_.inputs.size() > 1;
    std::vector<double> columns;
    std::vector<double> rows;
    for (const Spot& spot : grid) {
        columns.push_back(spot.first);
        rows.push_back(spot.second);
    }
    for (std::vector<double>* values : {&columns, &rows}) {
        std::ranges::sort(*values);
        values->erase(std::unique(values->begin(), values->end()), values->end());
    }
    std::vector<Spot> anchors;
    for (const std::size_t row : spread(rows.size(), two ? anchors_along_two : 1)) {
        for (const std::size_t column : spread(columns.size(), two ? anchors_along_two : anchors_along_one))
            anchors.emplace_back(columns[column], rows[row]);
    }
    plan_wholly({anchors[anchors.size() / 2]});
    plan_wholly(anchors);
    if (!two) plan_halfway(grid);
    plan_at(grid, [this](const Spot& spot) { return gaps_to_prove(spot); });
}

/// Where any plan at a larger value is one at a smaller value, what is proved there holds here.
std::int64_t Replanning::bound_from_smaller(const Spot& spot, std::size_t layout) const {
    std::int64_t bound = 0;
    for (const auto& [other, found] : found_) {
        if (narrows_ && other.first <= spot.first && layout < found.size())
            bound = std::max(bound, found[layout].planned.bound);
    }
    return bound;
}

SweptPoint Replanning::point_at(const Spot& spot) {
    SweptPoint point{spot.first, spot.second, false, std::vector<SweptTotal>(sweep_.layouts.size()), {}, false};
    if (!lay_out({spot})) return point;
    const std::vector<Found>& found = found_at(spot);
    point.planned = std::ranges::all_of(found, &Found::looked);
    for (std::size_t layout = 0; layout < found.size(); ++layout) {
        point.totals[layout] = {lesser(found[layout].planned.total, found[layout].laid.total),
                                std::max(found[layout].planned.bound, bound_from_smaller(spot, layout)),
                                found[layout].looked};
    }
    return point;
}

void Replanning::plan_what_may_win(const Spot& spot) {
    if (should_stop()) return;
    plan_at({spot}, [this](const Spot& at) { return reuses_ ? gaps_of_contenders(at) : gaps_of_all(at); });
}

}  // namespace spadework
