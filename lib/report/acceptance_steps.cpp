#include <map>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "acceptance/words.hpp"
#include "report/acceptance_tables.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

using acceptance::Acceptance;
using acceptance::JudgedReading;
using plan_file::PlanFile;
using plan_file::ReadingKey;
using plan_file::Verdict;

/// Strands that one kind of step is told for, one by one; the others are counted.
constexpr std::size_t most_told = 12;

/// What is wrong with one strand: the rows, and where its glass comes by.
struct Strand {
    std::string name;
    std::string way;
    std::vector<const JudgedReading*> rows;
};

/// The strands that have readings of a verdict, in the order of the sheet.
std::vector<Strand> strands_with(const Acceptance& acceptance, Verdict verdict) {
    std::vector<Strand> strands;
    std::map<std::tuple<std::string, int, int>, std::size_t> position;
    for (const JudgedReading& judged : acceptance.readings) {
        if (judged.reading.verdict != verdict) continue;
        const ReadingKey& key = judged.reading.key;
        const auto [found, is_new] = position.emplace(std::tuple(key.building, key.link, key.leg), strands.size());
        if (is_new) {
            strands.push_back(
                {fmt::format("{} link {} strand {}", shown(key.building), key.link, key.leg), shown(judged.way), {}});
        }
        strands[found->second].rows.push_back(&judged);
    }
    return strands;
}

/// Where a reflectometer should show something on a strand: "hub 0.0, enclosure at gate 110.0, building barn 150.0 m".
std::string events_of(const PlanFile& plan, const ReadingKey& key) {
    std::string list;
    for (const plan_file::NamedTest& test : plan.tests) {
        if (test.building != key.building || test.link != key.link || test.leg != key.leg) continue;
        for (const plan_file::NamedEvent& event : test.events) {
            list += fmt::format("{}{} ({})", list.empty() ? "" : ", ", shown(event.where),
                                acceptance::length_in_words(event.distance, plan.feet));
        }
    }
    return list;
}

/// "from hub at 1310 nm, from barn at 1310 nm".
std::string ends_of(const Strand& strand) {
    std::string list;
    for (const JudgedReading* judged : strand.rows) {
        list += fmt::format("{}from {} at {} nm", list.empty() ? "" : ", ", shown(judged->reading.key.from),
                            acceptance::nanometres(judged->reading.key.wavelength_pm));
    }
    return list;
}

/// With a full stop at its end, where it does not ask.
std::string as_sentence(std::string text) {
    if (!text.empty() && text.back() != '?' && text.back() != '.') text += '.';
    return text;
}

std::string step_for(const PlanFile& plan, const Strand& strand, Verdict verdict) {
    const JudgedReading& first = *strand.rows.front();
    const std::string name = fmt::format("{} ({})", strand.name, strand.way);
    switch (verdict) {
        case Verdict::swapped:
            return fmt::format(
                "{}: {}. See which label is right at both ends, change the strands or the labels over, "
                "and measure both again.",
                name, shown(first.reading.why));
        case Verdict::fail:
            return fmt::format(
                "{}: with the light off, look at every connector with a scope, clean it and measure again {}. If it "
                "stays "
                "over, trace it: what a trace should show is at {}.",
                name, ends_of(strand), events_of(plan, first.reading.key));
        case Verdict::wrong_length:
            return fmt::format(
                "{}: {}. See whether the cable of that order was pulled, and set the fibre's index in "
                "the instrument.",
                name, shown(first.reading.why));
        case Verdict::too_good:
            return fmt::format(
                "{}: set the meter's reference anew, see that this strand was on the meter and not a "
                "cord, and measure again {}.",
                name, ends_of(strand));
        case Verdict::directions_differ:
            return fmt::format(
                "{}: measure again from both ends with the same cords; a difference that stays is at a "
                "connector or splice: trace it from both ends.",
                name);
        case Verdict::missing:
            return fmt::format("{}: measure {}.", name, ends_of(strand));
        default:
            return fmt::format("{}: {} Correct the row, or hand in the readings of this plan.", strand.name,
                               as_sentence(shown(first.reading.why)));
    }
}

void add_steps(const PlanFile& plan, const Acceptance& acceptance, Verdict verdict, std::vector<std::string>& steps) {
    const std::vector<Strand> strands = strands_with(acceptance, verdict);
    for (std::size_t s = 0; s < strands.size() && s < most_told; ++s)
        steps.push_back(step_for(plan, strands[s], verdict));
    if (strands.size() > most_told) {
        steps.push_back(fmt::format("and {} more strands that are of the kind '{}': all in as_built.csv, with --out",
                                    strands.size() - most_told, name_of(verdict)));
    }
}

}  // namespace

std::vector<std::string> next_steps(const PlanFile& plan, const Acceptance& acceptance) {
    if (acceptance.accepted()) {
        return {
            "Keep the as-built record (as_built.json, written with --out) with the site's papers: it is the plan "
            "file of what stands there, to measure against and to extend from."};
    }
    std::vector<std::string> steps;
    for (int v = 0; v < plan_file::verdict_count; ++v) {
        const auto verdict = static_cast<Verdict>(v);
        if (verdict != Verdict::pass) add_steps(plan, acceptance, verdict, steps);
    }
    steps.emplace_back(
        "Then hand in the new readings alone with the as-built record (spadework accept as_built.json NEW.csv): what "
        "the "
        "record holds already counts.");
    return steps;
}

}  // namespace spadework::report
