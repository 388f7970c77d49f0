#include "report/plan_sentences.hpp"

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/metre_tables.hpp"

namespace spadework::report {

std::string site_sentence(const Scenario& scenario) {
    const auto counted = [](std::int64_t count, const char* what) {
        return fmt::format("{} {}{}", figure(count), what, count == 1 ? "" : "s");
    };
    const std::int64_t over_open_ground = scenario.open_ground.lines;
    const auto drawn = static_cast<std::int64_t>(scenario.segments.size()) - over_open_ground;
    const std::string more =
        over_open_ground > 0 ? fmt::format(" and {} over open ground", figure(over_open_ground)) : "";
    return fmt::format("{}, {} on the map{}. Money in {}, lengths in {}.",
                       counted(static_cast<std::int64_t>(scenario.buildings.size()), "building"),
                       counted(drawn, "segment"), more, scenario.currency.code, scenario.feet ? "feet" : "metres");
}

std::string metres_sentence(const Scenario& scenario, const LayoutResult& result) {
    const char* unit = length_unit(scenario);
    const Length shared = shared_length(scenario, *result.plan);
    const std::string dug = fmt::format("{} {} dug and {} {} of existing ducts and pole lines make {} {} in use",
                                        figure(result.trench, scenario), unit, figure(result.reused, scenario), unit,
                                        figure(result.trench + result.reused, scenario), unit);
    if (shared == Length()) return dug + "; none of it carries more than one cable.";
    return fmt::format("{}; {} {} of it carry two cables or more.", dug, figure(shared, scenario), unit);
}

std::string cut_sentence(const Scenario& scenario, const LayoutResult& result) {
    const SingleCut& cut = result.worst_cut;
    if (cut.lost.empty()) return "No single cut takes a building down.";
    if (cut.lost.size() == scenario.buildings.size()) {
        return fmt::format("The worst single cut, {}, takes down every building.", cut.what);
    }
    return fmt::format("The worst single cut, {}, takes down {} of {} buildings: {}.", cut.what, cut.lost.size(),
                       scenario.buildings.size(), ids_of(scenario, cut.lost, ", "));
}

}  // namespace spadework::report
