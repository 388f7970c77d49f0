#include "report/explanation_tables.hpp"

#include <map>
#include <utility>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

const char* const none = "-";

std::string extra_figure(const Scenario& scenario, const Alternative& alternative) {
    return alternative.found ? figure(alternative.extra, scenario.currency) : none;
}

std::string least_figure(const Scenario& scenario, const Alternative& alternative) {
    const bool known = alternative.found && alternative.least_extra && *alternative.least_extra > Money();
    return known ? figure(*alternative.least_extra, scenario.currency) : none;
}

std::string saved_figure(const Scenario& scenario, const Alternative& left_out) {
    return left_out.found ? figure(Money() - left_out.extra, scenario.currency) : none;
}

std::string places_in_words(const Scenario& scenario, const Alternative& alternative,
                            const std::vector<PlaceIndex>& places) {
    if (!alternative.found) return none;
    if (places.empty()) return "none";
    std::string text;
    for (const PlaceIndex place : places)
        text += (text.empty() ? "" : ", ") + place_at(scenario, place).id;
    return shown(text);
}

std::string other_way_in_words(const Scenario& scenario, LayoutKind layout, const BuildingReason& reason) {
    if (!reason.otherwise.found) return none;
    std::string text = fmt::format("{}, {} {}", point_in_words(scenario, reason.service_otherwise),
                                   figure(reason.service_otherwise.route, scenario), length_unit(scenario));
    const auto next = reason.service_otherwise.next;
    if (next) text += ", then " + building_at(scenario, *next).id;
    if (!next && layout == LayoutKind::daisy_chain) text += ", then none";
    if (reason.segment_avoided) text += ", not by " + segment_at(scenario, *reason.segment_avoided).id;
    return shown(text);
}

/// What cannot be had, those with one reason together.
class Remarks {
public:
    explicit Remarks(std::string opening) : opening_(std::move(opening)) {}
    void add(const Alternative& alternative, const std::string& id) {
        if (!alternative.looked_at) {
            not_looked_at_.push_back(id);
        } else if (!alternative.found) {
            ids_by_reason_[alternative.reason].push_back(id);
        }
    }
    void write(std::vector<std::string>& sentences) const {
        if (!not_looked_at_.empty()) {
            sentences.push_back(shown(fmt::format("{} not looked at: {}.", opening_, fmt::join(not_looked_at_, ", "))));
        }
        for (const auto& [reason, ids] : ids_by_reason_)
            sentences.push_back(shown(fmt::format("{} none for {}: {}.", opening_, fmt::join(ids, ", "), reason)));
    }

private:
    std::string opening_;
    std::vector<std::string> not_looked_at_;
    std::map<std::string, std::vector<std::string>> ids_by_reason_;
};

std::string ids_proved(const Scenario& scenario, const Explanation& explanation, Alternative BuildingReason::*which) {
    std::string ids;
    for (const BuildingReason& reason : explanation.buildings) {
        if (!(reason.*which).proved()) continue;
        ids += (ids.empty() ? "" : ", ") + building_at(scenario, reason.building).id;
    }
    return ids;
}

bool any_cheaper(const Explanation& explanation) {
    const auto is_cheaper = [](const Alternative& other) { return other.found && other.extra < Money(); };
    for (const EnclosureReason& reason : explanation.enclosures) {
        if (is_cheaper(reason.elsewhere) || is_cheaper(reason.left_out)) return true;
    }
    for (const BuildingReason& reason : explanation.buildings) {
        if (is_cheaper(reason.otherwise)) return true;
    }
    return false;
}

}  // namespace

std::vector<std::string> explanation_opening(const std::optional<Explanation>& explanation) {
    if (!explanation) return {"No layout can be built: there is no plan to explain."};
    std::vector<std::string> sentences = {
        "Every amount is the difference between two totals, contingency and tax included: this plan's and that of "
        "another whole plan, which passed the same checks."};
    if (explanation->of_one_strand_use) {
        sentences.emplace_back(
            "Only plans with the same strand use as this one were looked at, and least extras hold for "
            "those.");
    }
    if (explanation->interrupted)
        sentences.emplace_back("The work was stopped early: amounts are those of the best plans found by then.");
    if (any_cheaper(*explanation))
        sentences.emplace_back("An extra cost below 0 is that of a plan cheaper than this one, within its proven gap.");
    return sentences;
}

std::string enclosure_reasons_opening(const Explanation& explanation) {
    const std::string name = name_of(explanation.layout);
    if (explanation.enclosures.empty()) return name + ": the plan has no enclosure.";
    return fmt::format(
        "{}: each enclosure, the best plan found without one at its place, and the best found with one "
        "fewer and none at its place. No plan of the kind costs less than the proven least extra; where "
        "that is the extra cost itself, no cheaper one exists.",
        name);
}

std::string building_reasons_opening(const Explanation& explanation) {
    return fmt::format(
        "{}: each building, the next best way found of serving it (from another point, or without a "
        "segment that its cable alone uses), and what is saved, in the same layout, when it is left "
        "out. These are plans found; a cheaper one may exist unless said to be proved.",
        name_of(explanation.layout));
}

TextTable enclosure_reasons_table(const Scenario& scenario, const Explanation& explanation) {
    const std::string& code = scenario.currency.code;
    TextTable table({{"Enclosure", Align::left, true},
                     {"Serves\n(buildings)", Align::right},
                     {"Enclosures of\nthe next best", Align::left, true},
                     {fmt::format("Extra cost\n({})", code), Align::right},
                     {fmt::format("Proven least\nextra ({})", code), Align::right},
                     {fmt::format("One fewer:\nextra ({})", code), Align::right},
                     {fmt::format("Proven least\nextra ({})", code), Align::right}});
    for (const EnclosureReason& reason : explanation.enclosures) {
        table.add({shown(place_at(scenario, reason.place).id), figure(std::int64_t{reason.buildings_served}),
                   places_in_words(scenario, reason.elsewhere, reason.places_elsewhere),
                   extra_figure(scenario, reason.elsewhere), least_figure(scenario, reason.elsewhere),
                   extra_figure(scenario, reason.left_out), least_figure(scenario, reason.left_out)});
    }
    return table;
}

TextTable building_reasons_table(const Scenario& scenario, const Explanation& explanation) {
    const std::string& code = scenario.currency.code;
    const char* unit = length_unit(scenario);
    TextTable table({{"Building", Align::left, true},
                     {"Served\nfrom", Align::left, true},
                     {fmt::format("Route\n({})", unit), Align::right},
                     {fmt::format("Own\ntrench\n({})", unit), Align::right},
                     {fmt::format("Shared\ntrench\n({})", unit), Align::right},
                     {"Next best way", Align::left, true},
                     {fmt::format("Extra\ncost\n({})", code), Align::right},
                     {fmt::format("Saved\nwithout it\n({})", code), Align::right}});
    Length route;
    Length own;
    for (const BuildingReason& reason : explanation.buildings) {
        table.add({shown(building_at(scenario, reason.building).id), shown(point_in_words(scenario, reason.service)),
                   figure(reason.service.route, scenario), figure(reason.own_trench, scenario),
                   figure(reason.shared_trench, scenario), other_way_in_words(scenario, explanation.layout, reason),
                   extra_figure(scenario, reason.otherwise), saved_figure(scenario, reason.left_out)});
        route += reason.service.route;
        own += reason.own_trench;
    }
    table.add_total({"Total", "", figure(route, scenario), figure(own, scenario)});
    return table;
}

std::vector<std::string> enclosure_remarks(const Scenario& scenario, const Explanation& explanation) {
    Remarks elsewhere("Another place:");
    Remarks fewer("One enclosure fewer:");
    for (const EnclosureReason& reason : explanation.enclosures) {
        elsewhere.add(reason.elsewhere, place_at(scenario, reason.place).id);
        fewer.add(reason.left_out, place_at(scenario, reason.place).id);
    }
    std::vector<std::string> sentences;
    elsewhere.write(sentences);
    fewer.write(sentences);
    return sentences;
}

std::vector<std::string> building_remarks(const Scenario& scenario, const Explanation& explanation) {
    Remarks otherwise("Another way:");
    Remarks without("Left out:");
    for (const BuildingReason& reason : explanation.buildings) {
        const std::string& id = building_at(scenario, reason.building).id;
        otherwise.add(reason.otherwise, id);
        without.add(reason.left_out, id);
    }
    std::vector<std::string> sentences;
    otherwise.write(sentences);
    without.write(sentences);
    const std::string extras = ids_proved(scenario, explanation, &BuildingReason::otherwise);
    const std::string savings = ids_proved(scenario, explanation, &BuildingReason::left_out);
    if (!extras.empty()) sentences.push_back(shown(fmt::format("Extra cost proved the least: {}.", extras)));
    if (!savings.empty()) sentences.push_back(shown(fmt::format("Saving proved the most: {}.", savings)));
    return sentences;
}

std::string point_in_words(const Scenario& scenario, const Service& service) {
    if (service.enclosure) return place_at(scenario, *service.enclosure).id;
    return service.building ? "after " + building_at(scenario, *service.building).id : "hub";
}

}  // namespace spadework::report
