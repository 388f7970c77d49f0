#include "growth/built_from_file.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "diagnostics/shown_text.hpp"
#include "plan_file/making.hpp"
#include "plan_file/plan_on_site.hpp"
#include "scenario/lookup.hpp"

namespace spadework {

namespace {

using plan_file::NamedCable;
using plan_file::NamedEnclosure;
using plan_file::NamedLink;
using plan_file::NamedStrand;
using plan_file::PlanFile;

bool is_in(const std::vector<std::string>& list, const std::string& id) {
    return std::find(list.begin(), list.end(), id) != list.end();
}

std::vector<std::string> gone_from(const Scenario& scenario, const PlanFile& file) {
    std::set<std::string> gone;
    for (const NamedLink& link : file.links) {
        if (!find_building(scenario, link.building)) gone.insert(link.building);
    }
    return {gone.begin(), gone.end()};
}

/// Buildings of chains that others hang behind cannot go.
void note_broken_chains(const PlanFile& file, const std::vector<std::string>& gone,
                        std::vector<std::string>& problems) {
    const bool ring = file.layout == LayoutKind::ring;
    for (const std::vector<std::string>& chain : file.chains) {
        for (std::size_t i = 0; i < chain.size(); ++i) {
            const bool others_behind = ring
                                           ? chain.size() > 1
                                           : std::any_of(chain.begin() + static_cast<std::ptrdiff_t>(i) + 1,
                                                         chain.end(), [&](const auto& id) { return !is_in(gone, id); });
            if (is_in(gone, chain[i]) && others_behind) {
                problems.push_back(fmt::format(
                    "Building {} is gone from the site, but others are linked through its gear: plan the chain anew.",
                    shown(chain[i], 80)));
            }
        }
    }
}

/// What makes it another site, or one that the plan's money and strands do not fit.
void note_mismatches(const Scenario& scenario, const PlanFile& file, std::vector<std::string>& problems) {
    if (file.costs.currency != scenario.currency.code || file.costs.digits != scenario.currency.minor_digits) {
        problems.push_back(fmt::format("The plan's money is {} with {} digits, the site's is {} with {}.",
                                       shown(file.costs.currency, 80), file.costs.digits,
                                       shown(scenario.currency.code, 80), scenario.currency.minor_digits));
    }
    const int strands = strands_per_link(scenario.rules.strand_use);
    const auto other = std::find_if(file.links.begin(), file.links.end(),
                                    [&](const NamedLink& link) { return link.strands != strands; });
    if (other != file.links.end()) {
        problems.push_back(fmt::format("The plan's links use {} {}, a link by the site's rules {}.", other->strands,
                                       other->strands == 1 ? "strand" : "strands", strands));
    }
    if (file.termination != scenario.rules.termination) {
        const bool factory = file.termination == Termination::factory;
        problems.push_back(fmt::format("The plan's cables are {}, those of the site's rules {}.",
                                       factory ? "factory-terminated" : "spliced",
                                       factory ? "spliced" : "factory-terminated"));
    }
}

/// How many strands of each cable carry links to buildings that are gone.
struct Freed {
    std::map<std::string, int> strands;
    std::map<std::string, int> on_adapters;  ///< Those that end in an enclosure, and are not spliced on.
};

Freed freed_strands(const PlanFile& file, const std::vector<std::string>& gone) {
    Freed freed;
    for (const NamedStrand& strand : file.strands) {
        if (!is_in(gone, strand.kept.building)) continue;
        ++freed.strands[strand.kept.cable];
        if (strand.far != Holder::spliced) ++freed.on_adapters[strand.kept.cable];
    }
    return freed;
}

StrandNeed with_freed(StrandNeed need, int freed) {
    need.in_use -= freed;
    need.spare += freed;
    return need;
}

void free_cables(PlanFile& file, const std::vector<std::string>& gone) {
    const Freed freed = freed_strands(file, gone);
    const auto freed_of = [](const std::map<std::string, int>& counts, const std::string& cable) {
        const auto found = counts.find(cable);
        return found == counts.end() ? 0 : found->second;
    };
    for (NamedCable& cable : file.cables) {
        cable.need = with_freed(cable.need, freed_of(freed.strands, cable.id));
        if (is_in(gone, cable.building)) cable.building.clear();
    }
    for (NamedEnclosure& enclosure : file.enclosures) {
        for (const std::string& trunk : enclosure.trunks)
            enclosure.need = with_freed(enclosure.need, freed_of(freed.on_adapters, trunk));
        std::erase_if(enclosure.serves, [&](const std::string& id) { return is_in(gone, id); });
    }
    for (NamedStrand& strand : file.strands) {
        KeptStrand& kept = strand.kept;
        if (!is_in(gone, kept.building)) continue;
        kept = {kept.cable, kept.number, "", 0, 0, kept.near_adapter, 0, kept.far_adapter, 0};
        strand.purpose = StrandPurpose::spare;
    }
}

}  // namespace

PlanFile without_buildings(PlanFile file, const std::vector<std::string>& gone) {
    if (gone.empty()) return file;
    free_cables(file, gone);
    for (const NamedLink& link : file.links) {
        if (is_in(gone, link.building) && link.from.empty()) --file.hub_ports;
    }
    std::erase_if(file.links, [&](const NamedLink& link) { return is_in(gone, link.building); });
    std::erase_if(file.building_gear, [&](const auto& gear) { return is_in(gone, gear.building); });
    for (std::vector<std::string>& chain : file.chains)
        std::erase_if(chain, [&](const std::string& id) { return is_in(gone, id); });
    std::erase_if(file.chains, [](const auto& chain) { return chain.empty(); });
    return file;
}

Scenario site_to_extend(const Scenario& scenario, const PlanFile& file) {
    Scenario site = scenario;
    site.hub.growth_ports = 0;
    if (!site.rules.either_strand_use) return site;
    site.rules.either_strand_use = false;
    const bool one = !file.links.empty() && file.links.front().strands == 1;
    site.rules.strand_use = one ? StrandUse::bidirectional : StrandUse::duplex;
    return site;
}

BuiltFromFile built_from_file(const Scenario& scenario, const PlanFile& file) {
    BuiltFromFile result;
    result.gone = gone_from(scenario, file);
    note_broken_chains(file, result.gone, result.problems);
    note_mismatches(scenario, file, result.problems);
    const PlanFile kept = without_buildings(file, result.gone);
    plan_file::PlanOnSite found = plan_file::plan_of(scenario, kept);
    result.problems.insert(result.problems.end(), found.missing.begin(), found.missing.end());
    result.notes = std::move(found.changed);
    if (file.site_name != scenario.name) {
        const std::string names = fmt::format("The plan is of the site {}, this site is {}.", shown(file.site_name, 80),
                                              shown(scenario.name, 80));
        auto& list = result.problems.empty() ? result.notes : result.problems;
        list.insert(list.begin(), names);
    }
    if (result.problems.empty() && found.plan)
        result.built = BuiltPlan{*std::move(found.plan), kept_strands(kept), kept_strands(file)};
    return result;
}

namespace {

/// Readings of buildings that are gone, and of links that are made again; and the length of a trunk that is cut.
void forget_what_is_gone(const Scenario& scenario, const Extension& extension, plan_file::AsBuilt& as_built) {
    std::set<std::pair<std::string, int>> made_again;
    for (const int l : extension.extended.interrupted) {
        const PlannedLink& link = extension.extended.plan.links[static_cast<std::size_t>(l)];
        made_again.insert({scenario.buildings[static_cast<std::size_t>(link.building)].id, link.number});
    }
    std::erase_if(as_built.readings, [&](const plan_file::NamedReading& reading) {
        return !find_building(scenario, reading.key.building) ||
               made_again.contains({reading.key.building, reading.key.link});
    });
    if (!extension.interruption || extension.interruption->cut_far.empty()) return;
    std::erase_if(as_built.cables,
                  [&](const plan_file::AsBuiltCable& cable) { return cable.cable == extension.interruption->cut_far; });
}

}  // namespace

PlanFile extended_file(const Scenario& scenario, const PlanFile& before, const Extension& extension) {
    LayoutResult result;
    result.layout = extension.extended.plan.layout;
    result.plan = extension.extended.plan;
    result.strand_map = extension.strand_map;
    result.findings = extension.findings;
    result.link_budgets = extension.link_budgets;
    PlanFile file = plan_file::plan_file_of(scenario, result);
    file.as_built = before.as_built;
    if (file.as_built) forget_what_is_gone(scenario, extension, *file.as_built);
    file.costs = before.costs;
    for (auto& [category, amount] : file.costs.categories) {
        for (int c = 0; c < category_count; ++c) {
            if (category == id_of(static_cast<Category>(c))) amount += extension.bill.total(static_cast<Category>(c));
        }
    }
    file.costs.total += extension.total;
    return file;
}

}  // namespace spadework
