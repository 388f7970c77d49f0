#include "drawing/support/invented_plan.hpp"

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

#include "comparison/metres.hpp"
#include "support/small_site.hpp"

namespace spadework::testing {

namespace {

constexpr double block = 60;

/// Streets cross at junctions (column, row); the hub stands at (0, 0); a building hangs on a junction by a lateral.
class GridSite {
public:
    GridSite(int buildings, unsigned dice) : random_(dice) {
        site_ = small_site::site();
        site_.name = "Grid of " + std::to_string(buildings);
        site_.places.clear();
        site_.segments.clear();
        site_.buildings.clear();
        site_.grounds = {{"grass", "Grass", {small_site::open_cut()}},
                         {"paving", "Paving", {small_site::open_cut()}},
                         {"street", "Street", {small_site::open_cut()}}};
        columns_ = static_cast<int>(std::ceil(std::sqrt(buildings * 1.6)));
        rows_ = (buildings + columns_ - 1) / columns_;
        add_streets();
        for (int b = 0; b < buildings; ++b)
            add_building(b);
        site_.hub.place = 0;
        site_.places[0].kind = PlaceKind::hub;
    }

    InventedPlan planned(LayoutKind layout) {
        Plan plan;
        plan.layout = layout;
        const PlaceIndex middle = junction(columns_ / 2, rows_ / 2);
        const bool trunk = layout == LayoutKind::trunk_one || layout == LayoutKind::trunk;
        if (trunk) add_trunk(plan, middle);
        for (int b = 0; b < static_cast<int>(site_.buildings.size()); ++b)
            add_cable(plan, b, trunk);
        std::set<Step> steps;
        for (const PlannedCable& cable : plan.cables)
            steps.insert(cable.steps.begin(), cable.steps.end());
        plan.trenches.assign(steps.begin(), steps.end());
        return {site_, with_figures(site_, plan)};
    }

private:
    int dice(int below) { return static_cast<int>(random_() % static_cast<unsigned>(below)); }

    [[nodiscard]] PlaceIndex junction(int column, int row) const { return row * columns_ + column; }

    SegmentIndex add_segment(PlaceIndex from, PlaceIndex to, int ground) {
        const auto& at = site_.places;
        const Position a = at[static_cast<std::size_t>(from)].at;
        const Position b = at[static_cast<std::size_t>(to)].at;
        small_site::add_segment(site_, "s" + std::to_string(site_.segments.size() + 1000), from, to,
                                std::max(0.1, std::hypot(b.x - a.x, b.y - a.y)));
        site_.segments.back().ground = ground;
        return static_cast<SegmentIndex>(site_.segments.size()) - 1;
    }

    void add_streets() {
        for (int r = 0; r < rows_; ++r) {
            for (int c = 0; c < columns_; ++c)
                site_.places.push_back(small_site::place("j" + std::to_string(1000 + junction(c, r)),
                                                         (c + r) % 3 == 0 ? PlaceKind::handhole : PlaceKind::junction,
                                                         c * block, r * block));
        }
        east_.resize(site_.places.size());
        north_.resize(site_.places.size());
        for (int r = 0; r < rows_; ++r) {
            for (int c = 0; c + 1 < columns_; ++c) {
                const SegmentIndex segment = add_segment(junction(c, r), junction(c + 1, r), (c + r) % 3);
                east_[static_cast<std::size_t>(junction(c, r))] = segment;
                if (c % 4 == 1) site_.segments.back().duct_room = 500;
            }
        }
        for (int r = 0; r + 1 < rows_; ++r) {
            for (int c = 0; c < columns_; ++c) {
                north_[static_cast<std::size_t>(junction(c, r))] = add_segment(junction(c, r), junction(c, r + 1), 2);
                if (c == 0) site_.segments.back().pole_line = true;
            }
        }
    }

    void add_building(int number) {
        const PlaceIndex at = junction(number % columns_, number / columns_);
        const Position corner = site_.places[static_cast<std::size_t>(at)].at;
        const auto place = static_cast<PlaceIndex>(site_.places.size());
        site_.places.push_back(small_site::place("p" + std::to_string(1000 + number), PlaceKind::building,
                                                 corner.x + 8 + dice(30), corner.y + 8 + dice(30)));
        laterals_.push_back(add_segment(at, place, 0));
        Building building = small_site::building("b" + std::to_string(1000 + number), place, {});
        const char* const words[] = {"Barn", "Old mill", "Reception and offices", "Hall", "Workshop of the north yard"};
        building.name = std::string(words[dice(5)]) + " " + std::to_string(number + 1);
        site_.buildings.push_back(building);
    }

    /// The pole line or the existing duct where there is one: always the last way.
    [[nodiscard]] Step step(SegmentIndex segment) const {
        const Segment& here = site_.segments[static_cast<std::size_t>(segment)];
        return {segment, here.duct_room || here.pole_line ? 1 : 0};
    }

    /// Along the row, then along the column.
    [[nodiscard]] std::vector<Step> way(int column, int row, int to_column, int to_row) const {
        std::vector<Step> steps;
        for (; column < to_column; ++column)
            steps.push_back(step(east_[static_cast<std::size_t>(junction(column, row))]));
        for (; column > to_column; --column)
            steps.push_back(step(east_[static_cast<std::size_t>(junction(column - 1, row))]));
        for (; row < to_row; ++row)
            steps.push_back(step(north_[static_cast<std::size_t>(junction(column, row))]));
        for (; row > to_row; --row)
            steps.push_back(step(north_[static_cast<std::size_t>(junction(column, row - 1))]));
        return steps;
    }

    void add_trunk(Plan& plan, PlaceIndex middle) const {
        const std::vector<Step> steps = way(0, 0, columns_ / 2, rows_ / 2);
        PlannedCable cable = small_site::cable_along(site_, "trunk-1", steps, small_site::cable_24);
        cable.role = CableRole::trunk;
        cable.from = 0;
        cable.to = middle;
        cable.enclosure = 0;
        plan.cables.push_back(cable);
        PlannedEnclosure enclosure;
        enclosure.place = middle;
        enclosure.trunks = {0};
        for (int b = 0; b < static_cast<int>(site_.buildings.size()); ++b)
            enclosure.serves.push_back(b);
        plan.enclosures.push_back(enclosure);
    }

    void add_cable(Plan& plan, int building, bool drop) const {
        const int column = drop ? columns_ / 2 : 0;
        const int row = drop ? rows_ / 2 : 0;
        std::vector<Step> steps = way(column, row, building % columns_, building / columns_);
        steps.push_back({laterals_[static_cast<std::size_t>(building)], 0});
        PlannedCable cable =
            small_site::cable_along(site_, (drop ? "drop-" : "run-") + std::to_string(building), steps);
        cable.role = drop ? CableRole::drop : CableRole::home_run;
        cable.from = junction(column, row);
        cable.to = site_.buildings[static_cast<std::size_t>(building)].place;
        cable.building = building;
        plan.cables.push_back(cable);
    }

    std::mt19937 random_;
    Scenario site_;
    int columns_ = 1;
    int rows_ = 1;
    std::vector<SegmentIndex> east_;
    std::vector<SegmentIndex> north_;
    std::vector<SegmentIndex> laterals_;
};

}  // namespace

LayoutResult with_figures(const Scenario& scenario, const Plan& plan) {
    LayoutResult result;
    result.layout = plan.layout;
    result.plan = plan;
    result.bill = price(scenario, plan);
    result.total = result.bill.total();
    result.bound = Money::from_minor(result.total.minor() / 10 * 9);
    result.gap = 0.1;
    const TrenchMetres metres = trench_metres(scenario, plan);
    result.trench = metres.trench;
    result.reused = metres.reused;
    result.trench_by_ground = metres.by_ground;
    result.trench_by_method = metres.by_method;
    result.cable_by_strands = cable_metres(scenario, plan);
    return result;
}

InventedPlan grid_plan(int buildings, LayoutKind layout, unsigned dice) {
    return GridSite(buildings, dice).planned(layout);
}

InventedPlan small_plan(LayoutKind layout) {
    const Scenario site = small_site::site();
    Plan plan = small_site::home_runs(site);
    if (layout == LayoutKind::trunk_one) plan = small_site::trunk(site);
    if (layout == LayoutKind::daisy_chain) plan = small_site::chain(site);
    if (layout == LayoutKind::ring) plan = small_site::ring(site);
    return {site, with_figures(site, plan)};
}

Comparison small_comparison(const Scenario& scenario) {
    Comparison comparison;
    for (const Plan& plan : {small_site::home_runs(scenario), small_site::trunk(scenario), small_site::chain(scenario)})
        comparison.layouts.push_back(with_figures(scenario, plan));
    LayoutResult infeasible;
    infeasible.layout = LayoutKind::ring;
    infeasible.reason = "the map has no second way to the mill";
    comparison.layouts.push_back(infeasible);
    comparison.cheapest = 1;
    return comparison;
}

EnclosureStudy small_enclosure_study(const Scenario& scenario) {
    EnclosureStudy study;
    const LayoutResult best = with_figures(scenario, small_site::trunk(scenario));
    const auto extra = [&](PlaceIndex place, std::int64_t minor) {
        LayoutResult result = best;
        result.total += Money::from_minor(minor);
        study.ranking.push_back({place, result, Money::from_minor(minor), minor == 0 ? "" : "more trench"});
    };
    extra(small_site::gate, 0);
    extra(small_site::mill_place, 31'050);
    extra(small_site::barn_place, 180'000);
    study.barred.push_back({small_site::hub, "the hub is indoors"});
    return study;
}

}  // namespace spadework::testing
