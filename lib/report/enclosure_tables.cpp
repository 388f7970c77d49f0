#include "report/enclosure_tables.hpp"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "report/csv_writer.hpp"
#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

/// The first few of many ids, and how many there are.
std::string in_short(const std::vector<std::string>& ids) {
    constexpr std::size_t shown_at_most = 12;
    const auto shown_end = ids.begin() + static_cast<std::ptrdiff_t>(std::min(ids.size(), shown_at_most));
    std::string text = fmt::format("{}", fmt::join(ids.begin(), shown_end, ", "));
    if (ids.size() > shown_at_most) text += fmt::format(" and {} more", ids.size() - shown_at_most);
    return text;
}

std::string places_of(const Scenario& scenario, const LayoutResult& result) {
    std::string text;
    for (const PlannedEnclosure& enclosure : result.plan->enclosures)
        text += (text.empty() ? "" : ", ") + place_at(scenario, enclosure.place).id;
    return text;
}

}  // namespace

TextTable ranking_table(const Scenario& scenario, const EnclosureStudy& study, std::size_t most) {
    const std::string unit = length_unit(scenario);
    const std::string& code = scenario.currency.code;
    TextTable table({{"Rank", Align::right},
                     {"Place", Align::left, true},
                     {fmt::format("Total ({})", code), Align::right},
                     {fmt::format("Above the\nbest ({})", code), Align::right},
                     {"Proven\ngap (%)", Align::right},
                     {fmt::format("Trench\ndug ({})", unit), Align::right},
                     {fmt::format("Cable\nordered ({})", unit), Align::right}});
    std::int64_t rank = 0;
    for (const PlaceRank& place : study.ranking) {
        const LayoutResult& result = place.result;
        if (!result.feasible() || table.rows().size() == most) continue;
        table.add({figure(++rank), shown(place_at(scenario, place.place).id), figure(result.total, scenario.currency),
                   figure(place.over_best, scenario.currency), figure(100.0 * result.gap, 2),
                   figure(result.trench, scenario), figure(cable_ordered(result), scenario)});
    }
    return table;
}

std::string further_places_sentence(const Scenario& scenario, const EnclosureStudy& study, std::size_t most) {
    std::size_t feasible = 0;
    Money farthest;
    for (const PlaceRank& place : study.ranking) {
        if (!place.result.feasible()) continue;
        ++feasible;
        farthest = std::max(farthest, place.over_best);
    }
    if (feasible <= most) return "";
    const std::size_t more = feasible - most;
    return fmt::format("{} more place{} up to {} above the best.", figure(static_cast<std::int64_t>(more)),
                       more == 1 ? " costs" : "s cost", money_in_words(farthest, scenario.currency));
}

std::string places_csv(const Scenario& scenario, const EnclosureStudy& study) {
    const std::string unit = length_unit(scenario);
    CsvWriter csv({"rank", "place", "status", "total", "above_best", "currency", "gap_percent", "trench_" + unit,
                   "cable_ordered_" + unit, "why"});
    std::int64_t rank = 0;
    for (const PlaceRank& place : study.ranking) {
        const LayoutResult& result = place.result;
        if (!result.feasible()) continue;
        csv.whole(++rank).text(place_at(scenario, place.place).id).text("possible");
        csv.number(decimal_text(result.total, scenario.currency));
        csv.number(decimal_text(place.over_best, scenario.currency)).text(scenario.currency.code);
        csv.number(plain(100.0 * result.gap, 4)).number(plain(result.trench, scenario));
        csv.number(plain(cable_ordered(result), scenario)).text(place.why).end_row();
    }
    const auto add_without = [&](PlaceIndex place, const char* status, const std::string& why) {
        csv.text("").text(place_at(scenario, place).id).text(status);
        for (int blank = 0; blank < 6; ++blank)
            csv.text("");
        csv.text(why).end_row();
    };
    for (const PlaceRank& place : study.ranking) {
        if (!place.result.feasible()) add_without(place.place, "infeasible", place.result.reason);
    }
    for (const BarredPlace& barred : study.barred)
        add_without(barred.place, "barred", barred.reason);
    return csv.table();
}

std::string best_sentence(const Scenario& scenario, const EnclosureStudy& study) {
    if (study.ranking.empty() || !study.ranking.front().result.feasible()) {
        const std::string why = study.reason.empty() ? "" : ": " + study.reason;
        return fmt::format("No place can take the enclosure{}.", why);
    }
    const PlaceRank& best = study.ranking.front();
    const Place& place = place_at(scenario, best.place);
    std::string text = fmt::format("One enclosure costs least at {}: {} in all", place.id,
                                   money_in_words(best.result.total, scenario.currency));
    if (study.ranking.size() < 2 || !study.ranking[1].result.feasible()) return text + ".";
    const PlaceRank& next = study.ranking[1];
    return text + fmt::format(", {} less than at {}, the next best.", money_in_words(next.over_best, scenario.currency),
                              place_at(scenario, next.place).id);
}

std::vector<std::string> why_dear(const Scenario& scenario, const EnclosureStudy& study, std::size_t most) {
    std::vector<std::string> sentences;
    for (const PlaceRank& place : study.ranking) {
        const std::string& id = place_at(scenario, place.place).id;
        const std::string& why = place.result.feasible() ? place.why : place.result.reason;
        if (!why.empty() && sentences.size() < most) sentences.push_back(shown(fmt::format("{}: {}", id, why)));
    }
    return sentences;
}

std::vector<std::string> why_barred(const Scenario& scenario, const EnclosureStudy& study) {
    std::vector<std::string> sentences;
    std::map<std::string, std::vector<std::string>> places_by_reason;
    for (const BarredPlace& barred : study.barred)
        places_by_reason[barred.reason].push_back(place_at(scenario, barred.place).id);
    for (const auto& [reason, places] : places_by_reason)
        sentences.push_back(shown(fmt::format("{}: {}", reason, in_short(places))));
    return sentences;
}

TextTable count_table(const Scenario& scenario, const EnclosureStudy& study) {
    const std::string unit = length_unit(scenario);
    TextTable table({{"Enclosures", Align::right},
                     {fmt::format("Total ({})", scenario.currency.code), Align::right},
                     {"Proven\ngap (%)", Align::right},
                     {fmt::format("Trench\ndug ({})", unit), Align::right},
                     {fmt::format("Cable\nordered ({})", unit), Align::right},
                     {"Places", Align::left, true}});
    for (std::size_t i = 0; i < study.by_count.size(); ++i) {
        const LayoutResult& result = study.by_count[i];
        const std::string count = figure(static_cast<std::int64_t>(i + 1));
        if (!result.feasible()) {
            table.add({count, "-", "-", "-", "-", shown(result.reason)});
            continue;
        }
        table.add({count, figure(result.total, scenario.currency), figure(100.0 * result.gap, 2),
                   figure(result.trench, scenario), figure(cable_ordered(result), scenario),
                   shown(places_of(scenario, result))});
    }
    return table;
}

}  // namespace spadework::report
