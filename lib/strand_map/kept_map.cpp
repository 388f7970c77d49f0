#include "strand_map/kept_map.hpp"

#include <map>
#include <tuple>

#include <fmt/format.h>

namespace spadework {

namespace {

/// Sentences of one kind that are told one by one.
constexpr std::size_t most_told = 8;

/// Cables of a plan by id, with the places they lead between.
using Ends = std::map<std::string, std::pair<std::string, std::string>>;

Ends ends_of(const Scenario& scenario, const Plan& plan) {
    Ends ends;
    for (const PlannedCable& cable : plan.cables) {
        ends[cable.id] = {scenario.places[static_cast<std::size_t>(cable.from)].id,
                          scenario.places[static_cast<std::size_t>(cable.to)].id};
    }
    return ends;
}

bool is_there(const Ends& ends, const KeptCable& cable) {
    const auto found = ends.find(cable.id);
    return found != ends.end() && found->second == std::pair(cable.from, cable.to);
}

/// A strand of a link within a cable.
using Leg = std::tuple<std::string, std::string, int, int>;

Leg leg_of(const KeptStrand& row) {
    return {row.cable, row.building, row.link, row.leg};
}

/// Whether a plugged end is where it was; an end that was not plugged may be now.
bool is_same(int before, int now) {
    return before == 0 || before == now;
}

bool stays(const KeptStrand& before, const KeptStrand& now) {
    return before.number == now.number && is_same(before.near_adapter, now.near_adapter) &&
           is_same(before.far_adapter, now.far_adapter) && is_same(before.near_port, now.near_port) &&
           is_same(before.far_port, now.far_port);
}

/// What became of the strands in use.
struct Fate {
    int in_use = 0;
    int kept = 0;
    std::vector<std::string> sentences;
};

void tell_of_cables(const Ends& ends, const KeptMap& earlier, Fate& fate) {
    for (const KeptCable& cable : earlier.cables) {
        if (is_there(ends, cable)) continue;
        fate.sentences.push_back(ends.contains(cable.id) ? fmt::format("Cable {} no longer leads from {} to {}.",
                                                                       cable.id, cable.from, cable.to)
                                                         : fmt::format("This plan has no cable {}.", cable.id));
    }
}

void tell_of_strands(const std::vector<KeptStrand>& still_there, const std::vector<KeptStrand>& now, Fate& fate) {
    std::map<Leg, const KeptStrand*> row_of;
    for (const KeptStrand& row : now) {
        if (!row.building.empty()) row_of.emplace(leg_of(row), &row);
    }
    for (const KeptStrand& before : still_there) {
        if (before.building.empty()) continue;
        const auto found = row_of.find(leg_of(before));
        if (found != row_of.end() && stays(before, *found->second)) {
            ++fate.kept;
            continue;
        }
        fate.sentences.push_back(fmt::format("Strand {} of {}, {} link {}, could not stay where it was.", before.number,
                                             before.cable, before.building, before.link));
    }
}

}  // namespace

std::vector<KeptStrand> strands_still_there(const Scenario& scenario, const Plan& plan, const KeptMap& earlier) {
    const Ends ends = ends_of(scenario, plan);
    std::map<std::string, bool> there;
    for (const KeptCable& cable : earlier.cables)
        there[cable.id] = is_there(ends, cable);
    std::vector<KeptStrand> strands;
    for (const KeptStrand& strand : earlier.strands) {
        const auto found = there.find(strand.cable);
        if (found != there.end() && found->second) strands.push_back(strand);
    }
    return strands;
}

std::vector<std::string> notes_on_kept(const Scenario& scenario, const Plan& plan, const StrandMap& map,
                                       const KeptMap& earlier) {
    Fate fate;
    for (const KeptStrand& row : earlier.strands)
        fate.in_use += row.building.empty() ? 0 : 1;
    if (fate.in_use == 0) return {};
    tell_of_cables(ends_of(scenario, plan), earlier, fate);
    tell_of_strands(strands_still_there(scenario, plan, earlier), kept_strands(scenario, plan, map), fate);
    std::vector<std::string> notes = {
        fmt::format("Of the {} strands in use of the earlier plan, {} stay as they are, with their adapters and ports.",
                    fate.in_use, fate.kept)};
    for (std::size_t s = 0; s < fate.sentences.size() && s < most_told; ++s)
        notes.push_back(fate.sentences[s]);
    if (fate.sentences.size() > most_told)
        notes.push_back(
            fmt::format("{} more cables and strands could not be kept.", fate.sentences.size() - most_told));
    return notes;
}

}  // namespace spadework

template class std::vector<spadework::KeptCable>;
template class std::vector<spadework::KeptStrand>;
