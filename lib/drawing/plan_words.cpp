#include "drawing/plan_words.hpp"

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "drawing/figures.hpp"
#include "drawing/ground_look.hpp"
#include "drawing/map_furniture.hpp"
#include "drawing/plan_look.hpp"

namespace spadework::drawing {

namespace {

const Place& place_of(const Scenario& scenario, PlaceIndex place) {
    return scenario.places[static_cast<std::size_t>(place)];
}

Length cable_ordered(const LayoutResult& result) {
    Length sum;
    for (const auto& [strands, metres] : result.cable_by_strands)
        sum += metres.ordered;
    return sum;
}

std::string trench_sentence(const Scenario& scenario, const LayoutResult& result) {
    std::string text = fmt::format("{} dug", length_in_words(result.trench, scenario));
    if (result.reused > Length())
        text += fmt::format(", {} of existing ducts and pole lines used", length_in_words(result.reused, scenario));
    return text;
}

/// "1 trunk cable, 4 drops".
std::string cables_by_role(const Plan& plan) {
    constexpr std::array<std::array<const char*, 2>, 5> names = {{{"home run", "home runs"},
                                                                  {"trunk cable", "trunk cables"},
                                                                  {"drop", "drops"},
                                                                  {"hop", "hops"},
                                                                  {"closing cable", "closing cables"}}};
    std::string text;
    for (const RoleLook& look : role_looks) {
        std::size_t count = 0;
        for (const PlannedCable& cable : plan.cables)
            count += cable.role == look.role ? 1U : 0U;
        const auto& name = names[static_cast<std::size_t>(look.role)];
        if (count > 0) text += (text.empty() ? "" : ", ") + counted(count, name[0], name[1]);
    }
    return text;
}

/// A plan that was built step by step has none.
bool has_bound(const LayoutResult& result) {
    return result.bound > Money();
}

std::string ground_sentence(const Scenario& scenario, const LayoutResult& result) {
    std::string text;
    const std::vector<GroundLook> looks = ground_looks(scenario);
    for (const auto& [ground, length] : result.trench_by_ground) {
        if (length == Length()) continue;
        text += fmt::format("{}{} {}", text.empty() ? " By ground: " : ", ",
                            drawn_in_sentence(look_of(looks, ground).name), length_in_words(length, scenario));
    }
    return text.empty() ? text : text + ".";
}

}  // namespace

std::string name_or_id(const std::string& name, const std::string& id) {
    return drawn(name.empty() ? id : name);
}

std::vector<TitleRow> plan_title_rows(const Scenario& scenario, const LayoutResult& result, const MapFrame& frame) {
    std::vector<TitleRow> rows = {{"Site", drawn_in_sentence(scenario.name), true},
                                  {"Layout", name_of(result.layout), true}};
    const Currency& currency = scenario.currency;
    if (result.feasible()) {
        const char* const as_what = has_bound(result) ? "" : ", all of it new at today's prices";
        rows.push_back(
            {"Total", money_in_words(result.total, currency) + as_what + ", contingency and tax included", true});
        if (has_bound(result)) {
            rows.push_back({"Proven", fmt::format("no plan of this layout costs less than {} (gap {:.2f} %)",
                                                  money_in_words(result.bound, currency), 100 * result.gap)});
        }
        rows.push_back({"Trench", trench_sentence(scenario, result)});
        rows.push_back({"Cable", fmt::format("{}; {} ordered", cables_by_role(*result.plan),
                                             length_in_words(cable_ordered(result), scenario))});
    } else {
        const std::string why = result.reason.empty() ? "no plan was found" : drawn_in_sentence(result.reason, 400);
        rows.push_back({"Not feasible", why, true});
    }
    std::string scale =
        scale_in_words(frame) +
        " at natural size (96 units to the inch). Not to scale when printed otherwise: measure with the "
        "scale bar.";
    if (result.feasible()) scale += " Cables are drawn beside their trench.";
    rows.push_back({"Scale", scale});
    return rows;
}

std::string plan_description(const Scenario& scenario, const LayoutResult& result) {
    const std::string buildings = counted(scenario.buildings.size(), "building", "buildings");
    if (!result.feasible()) {
        return fmt::format("Map of the site with {} and the hub, north up. No plan of this layout is feasible: {}.",
                           buildings, drawn_in_sentence(result.reason.empty() ? "none was found" : result.reason, 400));
    }
    std::string text = fmt::format("Map of the plan, north up: {} and the hub. {} in all.{} {}; {} ordered.", buildings,
                                   trench_sentence(scenario, result), ground_sentence(scenario, result),
                                   cables_by_role(*result.plan), length_in_words(cable_ordered(result), scenario));
    for (const PlannedEnclosure& enclosure : result.plan->enclosures)
        text += " " + enclosure_in_words(scenario, *result.plan, enclosure) + ".";
    text += fmt::format(" Total {}", money_in_words(result.total, scenario.currency));
    if (has_bound(result))
        text += fmt::format(", proven lower bound {}", money_in_words(result.bound, scenario.currency));
    return text + ".";
}

std::string trench_in_words(const Scenario& scenario, const DrawnTrench& trench, const std::string& ground_name) {
    const Segment& segment = scenario.segments[static_cast<std::size_t>(trench.step.segment)];
    return fmt::format("{}: {}, {}, {}, {}", drawn_in_sentence(segment.name.empty() ? segment.id : segment.name),
                       length_in_words(segment.length, scenario), drawn_in_sentence(ground_name),
                       drawn_in_sentence(trench.method),
                       counted(static_cast<std::size_t>(trench.cables), "cable", "cables"));
}

std::string cable_in_words(const Scenario& scenario, const PlannedCable& cable) {
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
    return fmt::format(
        "{}: {}, {}, {} on the map, {} ordered", drawn_in_sentence(cable.id), drawn_in_sentence(product.id),
        counted(static_cast<std::size_t>(product.strands), "strand", "strands"),
        length_in_words(cable.lengths.route, scenario), length_in_words(cable.lengths.ordered, scenario));
}

std::string enclosure_in_words(const Scenario& scenario, const Plan& plan, const PlannedEnclosure& enclosure) {
    int strands = 0;
    for (const int trunk : enclosure.trunks) {
        const PlannedCable& cable = plan.cables[static_cast<std::size_t>(trunk)];
        strands += scenario.catalogue.cables[static_cast<std::size_t>(cable.product)].strands;
    }
    const Place& place = place_of(scenario, enclosure.place);
    return fmt::format("Enclosure at {}: serves {}, {} in its trunk",
                       drawn_in_sentence(place.name.empty() ? place.id : place.name),
                       counted(enclosure.serves.size(), "building", "buildings"),
                       counted(static_cast<std::size_t>(strands), "strand", "strands"));
}

}  // namespace spadework::drawing
