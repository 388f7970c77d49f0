#include "report/metre_tables.hpp"

#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "comparison/metres.hpp"
#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

struct Opened {
    std::int64_t segments = 0;
    Length length;
    Money cost;
};

/// Dug ways first, then by ground and method.
using WayKey = std::tuple<bool, std::string, std::string>;

std::map<WayKey, Opened> opened_by_way(const Scenario& scenario, const Plan& plan) {
    std::map<WayKey, Opened> opened;
    for (const Step& step : plan.trenches) {
        const Way way = way_of(scenario, step);
        Opened& sum = opened[{!is_dug(way.method->kind), way.ground, way.method->id}];
        sum.segments += 1;
        sum.length += segment_at(scenario, step.segment).length;
        sum.cost += way.opening;
    }
    return opened;
}

}  // namespace

TextTable trench_table(const Scenario& scenario, const Plan& plan) {
    TextTable table({{"Ground", Align::left, true},
                     {"Method", Align::left, true},
                     {"Segments", Align::right},
                     {fmt::format("Length ({})", length_unit(scenario)), Align::right},
                     {fmt::format("Opening cost ({})", scenario.currency.code), Align::right}});
    Opened all;
    for (const auto& [key, sum] : opened_by_way(scenario, plan)) {
        table.add({shown(std::get<1>(key)), shown(std::get<2>(key)), figure(sum.segments), figure(sum.length, scenario),
                   figure(sum.cost, scenario.currency)});
        all.segments += sum.segments;
        all.length += sum.length;
        all.cost += sum.cost;
    }
    table.add_total(
        {"Total", "", figure(all.segments), figure(all.length, scenario), figure(all.cost, scenario.currency)});
    return table;
}

Length shared_length(const Scenario& scenario, const Plan& plan) {
    std::map<SegmentIndex, int> cables;
    for (const PlannedCable& cable : plan.cables) {
        std::set<SegmentIndex> passed;
        for (const Step& step : cable.steps)
            passed.insert(step.segment);
        for (const SegmentIndex segment : passed)
            ++cables[segment];
    }
    Length shared;
    for (const auto& [segment, count] : cables) {
        if (count > 1) shared += segment_at(scenario, segment).length;
    }
    return shared;
}

TextTable cable_size_table(const Scenario& scenario, const LayoutResult& result) {
    const std::string unit = length_unit(scenario);
    TextTable table({{"Strands", Align::right},
                     {"Cables", Align::right},
                     {fmt::format("On the map ({})", unit), Align::right},
                     {fmt::format("With slack ({})", unit), Align::right},
                     {fmt::format("As ordered ({})", unit), Align::right}});
    std::map<int, std::int64_t> cables;
    for (const PlannedCable& cable : result.plan->cables)
        ++cables[product_of(scenario, cable).strands];
    CableMetres all;
    for (const auto& [strands, metres] : result.cable_by_strands) {
        table.add({figure(std::int64_t{strands}), figure(cables[strands]), figure(metres.route, scenario),
                   figure(metres.with_slack, scenario), figure(metres.ordered, scenario)});
        all.route += metres.route;
        all.with_slack += metres.with_slack;
        all.ordered += metres.ordered;
    }
    table.add_total({"Total", figure(static_cast<std::int64_t>(result.plan->cables.size())),
                     figure(all.route, scenario), figure(all.with_slack, scenario), figure(all.ordered, scenario)});
    return table;
}

}  // namespace spadework::report
