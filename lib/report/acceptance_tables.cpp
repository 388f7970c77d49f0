#include "report/acceptance_tables.hpp"

#include <algorithm>
#include <array>
#include <set>

#include <fmt/format.h>

#include "acceptance/words.hpp"
#include "report/figures.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

using acceptance::Acceptance;
using acceptance::JudgedReading;
using plan_file::PlanFile;
using plan_file::ReadingKey;
using plan_file::Verdict;

/// Readings that one verdict's sentence counts: "2 readings are over their limit".
struct VerdictWords {
    const char* name;
    const char* one;
    const char* several;
};

const VerdictWords& words_of(Verdict verdict) {
    static constexpr std::array<VerdictWords, plan_file::verdict_count> words = {{
        {"swapped strands", "is of swapped strands", "are of swapped strands"},
        {"fail", "is over its limit", "are over their limit"},
        {"wrong length", "has a wrong length", "have a wrong length"},
        {"too good", "is too good to be true", "are too good to be true"},
        {"directions differ", "differs by direction", "differ by direction"},
        {"missing", "is missing", "are missing"},
        {"not in the plan", "is not in the plan", "are not in the plan"},
        {"pass", "passes", "pass"},
    }};
    return words[static_cast<std::size_t>(verdict)];
}

std::string loss_figure(const std::optional<std::int64_t>& mdb) {
    return mdb ? acceptance::decibels(*mdb) : "-";
}

std::string length_figure(const PlanFile& plan, const std::optional<Length>& length) {
    if (!length) return "-";
    return figure(plan.feet ? length->feet() : length->metres(), 1);
}

/// "kiosk 1/2": strand 2 of link 1.
std::string strand_name(const ReadingKey& key) {
    return fmt::format("{} {}/{}", shown(key.building), key.link, key.leg);
}

TextTable readings_heading(const PlanFile& plan) {
    return TextTable({{"Building,\nlink/strand", Align::left, true},
                      {"Measured\nfrom", Align::left, true},
                      {"nm", Align::right},
                      {"Loss\n(dB)", Align::right},
                      {"Limit\n(dB)", Align::right},
                      {fmt::format("Length\n({})", plan.feet ? "ft" : "m"), Align::right},
                      {"Verdict", Align::left, true},
                      {"Why", Align::left, true}});
}

void add_reading(const PlanFile& plan, const JudgedReading& judged, TextTable& table) {
    const plan_file::NamedReading& reading = judged.reading;
    const bool planned = reading.verdict != Verdict::not_in_plan;
    table.add({strand_name(reading.key), shown(reading.key.from), acceptance::nanometres(reading.key.wavelength_pm),
               loss_figure(reading.loss_mdb), planned ? acceptance::decibels(judged.limit.pass_mdb) : "-",
               length_figure(plan, reading.length), name_of(reading.verdict), shown(reading.why)});
}

/// A strand of a link, without end and wavelength.
ReadingKey strand_of(ReadingKey key) {
    key.from.clear();
    key.wavelength_pm = 0;
    return key;
}

}  // namespace

const char* name_of(Verdict verdict) {
    return words_of(verdict).name;
}

std::string acceptance_sentence(const Acceptance& acceptance) {
    const std::size_t all = acceptance.readings.size();
    if (acceptance.accepted()) return fmt::format("Accepted: all {} readings pass.", all);
    std::string list;
    for (int v = 0; v < plan_file::verdict_count; ++v) {
        const auto verdict = static_cast<Verdict>(v);
        const int count = acceptance.count(verdict);
        if (count == 0 || verdict == Verdict::pass) continue;
        const char* what = count == 1 ? words_of(verdict).one : words_of(verdict).several;
        list += fmt::format("{}{} {}", list.empty() ? "" : ", ", count, what);
    }
    return fmt::format("Not accepted: of {} readings {}; {} {}.", all, list, acceptance.count(Verdict::pass),
                       acceptance.count(Verdict::pass) == 1 ? "passes" : "pass");
}

std::vector<std::string> acceptance_remarks(const PlanFile& plan, const Acceptance& acceptance) {
    const plan_file::AcceptanceLimits& limits = acceptance.limits;
    std::vector<std::string> remarks = {fmt::format(
        "A length may be {} % off, or {} where that is more; the two directions of a strand {} dB apart: common "
        "practice, no published source; --length-tolerance, --least-tolerance and --direction-limit "
        "change it.",
        figure(static_cast<double>(limits.length_share) / 1000, 1),
        acceptance::length_in_words(limits.length_least, plan.feet), acceptance::decibels(limits.direction_mdb))};
    if (acceptance.lengths == 0) {
        remarks.emplace_back(
            "No length was measured: a wrong cable, or strands swapped whose losses are alike, cannot be seen.");
    }
    if (acceptance.from_earlier > 0) {
        remarks.push_back(fmt::format(
            "{} taken over from the earlier acceptance that the plan file holds.",
            acceptance.from_earlier == 1 ? "1 reading is" : fmt::format("{} readings are", acceptance.from_earlier)));
    }
    return remarks;
}

TextTable verdict_table(const Acceptance& acceptance) {
    TextTable table({{"Verdict", Align::left}, {"Readings", Align::right}, {"Strands", Align::right}});
    std::set<ReadingKey> all;
    for (int v = 0; v < plan_file::verdict_count; ++v) {
        const auto verdict = static_cast<Verdict>(v);
        std::set<ReadingKey> strands;
        for (const JudgedReading& judged : acceptance.readings) {
            if (judged.reading.verdict == verdict) strands.insert(strand_of(judged.reading.key));
        }
        all.insert(strands.begin(), strands.end());
        if (strands.empty()) continue;
        table.add({name_of(verdict), figure(std::int64_t{acceptance.count(verdict)}),
                   figure(static_cast<std::int64_t>(strands.size()))});
    }
    // A strand with readings of several verdicts counts once.
    table.add_total({"All", figure(static_cast<std::int64_t>(acceptance.readings.size())),
                     figure(static_cast<std::int64_t>(all.size()))});
    return table;
}

TextTable refused_table(const PlanFile& plan, const Acceptance& acceptance) {
    TextTable table = readings_heading(plan);
    for (const JudgedReading& judged : acceptance.readings) {
        const Verdict verdict = judged.reading.verdict;
        if (verdict != Verdict::pass && verdict != Verdict::missing) add_reading(plan, judged, table);
    }
    return table;
}

TextTable readings_table(const PlanFile& plan, const Acceptance& acceptance) {
    TextTable table = readings_heading(plan);
    for (const JudgedReading& judged : acceptance.readings)
        add_reading(plan, judged, table);
    return table;
}

TextTable as_built_cable_table(const PlanFile& plan, const Acceptance& acceptance) {
    const char* unit = plan.feet ? "ft" : "m";
    TextTable table({{"Cable", Align::left, true},
                     {"From", Align::left, true},
                     {"To", Align::left, true},
                     {fmt::format("Ordered\n({})", unit), Align::right},
                     {fmt::format("Measured\n({})", unit), Align::right}});
    for (std::size_t c = 0; c < acceptance.cables.size(); ++c) {
        const plan_file::AsBuiltCable& built = acceptance.cables[c];
        const plan_file::NamedCable& cable = plan.cables[c];
        table.add({shown(cable.id), shown(cable.from), shown(cable.to), length_figure(plan, built.ordered),
                   length_figure(plan, built.measured)});
    }
    return table;
}

}  // namespace spadework::report
