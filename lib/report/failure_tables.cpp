#include "report/failure_tables.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "report/csv_writer.hpp"
#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/paragraphs.hpp"
#include "report/sheet_columns.hpp"
#include "report/shown_text.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

namespace {

constexpr std::size_t most_failures_shown = 8;

std::string names_of(const Scenario& scenario, const std::vector<SegmentIndex>& segments) {
    std::string names;
    for (const SegmentIndex segment : segments)
        names += (names.empty() ? "" : ", ") + segment_at(scenario, segment).id;
    return names;
}

std::string minutes_sentence(const LayoutResult& result) {
    return fmt::format(
        "Expected minutes without service a year: {} for the building worst off, {} on average. They "
        "follow from the failure rates under rules.failures of the site, which are input "
        "and not a promise: 'check --show-defaults' names where each comes from.",
        figure(result.failures.worst_minutes, 1), figure(result.failures.mean_minutes, 1));
}

void write_second_way(JsonWriter& json, const Scenario& scenario, const FailureStudy& study) {
    json.key("second_way");
    if (!study.second_way) {
        json.null();
        return;
    }
    const SecondWay& way = *study.second_way;
    json.begin_object(JsonWriter::Shape::one_line);
    json.key("around").text(segment_at(scenario, way.around).id);
    json.key("segments").begin_list(JsonWriter::Shape::one_line);
    for (const SegmentIndex segment : way.segments)
        json.text(segment_at(scenario, segment).id);
    json.end();
    json.key("length_m").metres(way.length);
    json.key("opening_cost").money(way.opening, scenario.currency);
    json.end();
}

}  // namespace

std::string failing_part(const Scenario& scenario, const Plan& plan, const Failure& failure) {
    switch (failure.kind) {
        case FailureKind::segment_cut:
            return "segment " + segment_at(scenario, failure.index).id;
        case FailureKind::enclosure: {
            const PlannedEnclosure& enclosure = plan.enclosures[static_cast<std::size_t>(failure.index)];
            return "enclosure at " + place_at(scenario, enclosure.place).id;
        }
        case FailureKind::building_gear:
            return "gear in " + building_at(scenario, failure.index).id;
        default:
            return "hub gear";
    }
}

std::string second_way_sentence(const Scenario& scenario, const LayoutResult& result) {
    if (!result.failures.second_way) return "";
    const SecondWay& way = *result.failures.second_way;
    const std::string& around = segment_at(scenario, way.around).id;
    if (way.segments.empty()) {
        const double apart = way.metres_apart / (scenario.feet ? 0.3048 : 1.0);
        return fmt::format(
            "The map has no second way around segment {}: the nearest places on either side are {} and "
            "{}, {} {} apart.",
            around, place_at(scenario, way.from).id, place_at(scenario, way.to).id, figure(apart, 0),
            length_unit(scenario));
    }
    return fmt::format(
        "The cheapest second way around segment {} opens {} {} ({}) for {} {}, before contingency, tax "
        "and cable.",
        around, figure(way.length, scenario), length_unit(scenario), names_of(scenario, way.segments),
        scenario.currency.code, figure(way.opening, scenario.currency));
}

TextTable failures_table(const Scenario& scenario, const LayoutResult& result) {
    TextTable table({{"What fails", Align::left, true},
                     {"Buildings\nlost", Align::right},
                     {"Times\na year", Align::right},
                     {"Hours to\nmend", Align::right},
                     {"Minutes\na year", Align::right}});
    const std::vector<Failure>& failures = result.failures.failures;
    for (std::size_t f = 0; f < std::min(failures.size(), most_failures_shown); ++f) {
        const Failure& failure = failures[f];
        table.add({shown(failing_part(scenario, *result.plan, failure)),
                   figure(static_cast<std::int64_t>(failure.lost.size())), figure(failure.per_year, 5),
                   figure(failure.repair_hours, 1), figure(failure.minutes_per_year(), 2)});
    }
    return table;
}

std::vector<std::string> failure_sentences(const Scenario& scenario, const LayoutResult& result) {
    std::vector<std::string> sentences;
    const std::vector<Failure>& failures = result.failures.failures;
    if (failures.size() > most_failures_shown) {
        const std::size_t more = failures.size() - most_failures_shown;
        sentences.push_back(fmt::format("{} more failure{} down {} or fewer.", more,
                                        more == 1 ? " takes" : "s each take",
                                        failures[most_failures_shown].lost.size()));
    }
    sentences.push_back(minutes_sentence(result));
    const std::string second = second_way_sentence(scenario, result);
    if (!second.empty()) sentences.push_back(second);
    return sentences;
}

std::string failures_text(const Scenario& scenario, const LayoutResult& result) {
    std::string text = failures_table(scenario, result).text();
    for (const std::string& sentence : failure_sentences(scenario, result))
        text += paragraph(shown(sentence));
    return text;
}

void write_failures(JsonWriter& json, const Scenario& scenario, const LayoutResult& result) {
    const FailureStudy& study = result.failures;
    json.key("failures").begin_object();
    json.key("outage_minutes_a_year").begin_object();
    for (std::size_t b = 0; b < study.outage_minutes.size(); ++b)
        json.key(scenario.buildings[b].id).number(study.outage_minutes[b], 4);
    json.end();
    json.key("single").begin_list();
    for (const Failure& failure : study.failures) {
        json.begin_object(JsonWriter::Shape::one_line);
        json.key("what").text(failing_part(scenario, *result.plan, failure));
        json.key("kind").text(name_of(failure.kind));
        json.key("times_a_year").number(failure.per_year, 6);
        json.key("repair_hours").number(failure.repair_hours, 4);
        json.key("buildings_lost").whole(static_cast<std::int64_t>(failure.lost.size()));
        json.end();
    }
    json.end();
    write_second_way(json, scenario, study);
    json.end();
}

std::string failures_csv(const Scenario& scenario, const Comparison& comparison) {
    CsvWriter csv({"layout", "kind", "what", "cables", "times_a_year", "repair_hours", "minutes_a_year",
                   "buildings_lost", "which"});
    for_each_plan(comparison, [&](const LayoutResult& layout, const Plan& plan) {
        for (const Failure& failure : layout.failures.failures) {
            csv.text(id_of(layout.layout)).text(name_of(failure.kind)).text(failing_part(scenario, plan, failure));
            if (failure.kind == FailureKind::segment_cut) {
                csv.whole(failure.cables);
            } else {
                csv.text("");
            }
            csv.number(plain(failure.per_year, 6)).number(plain(failure.repair_hours, 4));
            csv.number(plain(failure.minutes_per_year(), 4)).whole(static_cast<std::int64_t>(failure.lost.size()));
            csv.text(ids_of(scenario, failure.lost, " ")).end_row();
        }
    });
    return csv.table();
}

}  // namespace spadework::report
