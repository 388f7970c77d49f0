#include "extension/candidates.hpp"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <optional>
#include <set>

#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// Assignments tried one by one; beyond that a few that look good.
constexpr std::size_t most_assignments = 400;
/// Additions laid in every order.
constexpr std::size_t most_in_every_order = 3;
/// Places for a new enclosure tried.
constexpr std::size_t most_places = 60;

/// Strands that are left to take at a source; no limit at the hub.
int strands_left(const ExtensionSearch& search, const Source& source) {
    if (source.kind == Source::Kind::hub) return -1;
    int left = 0;
    const int link = strands_per_link(search.scenario.rules.strand_use);
    for (const int c : search.built.enclosures[static_cast<std::size_t>(source.enclosure)].trunks)
        left += search.works.dark_strands[static_cast<std::size_t>(c)] / link * link;
    return left;
}

bool strands_suffice(const ExtensionSearch& search, const std::vector<Source>& assigned) {
    std::vector<int> left;
    for (std::size_t e = 0; e < search.built.enclosures.size(); ++e)
        left.push_back(strands_left(search, {Source::Kind::built_enclosure, static_cast<int>(e)}));
    for (std::size_t i = 0; i < assigned.size(); ++i) {
        if (assigned[i].kind != Source::Kind::built_enclosure) continue;
        const Building& building = search.scenario.buildings[static_cast<std::size_t>(search.additions[i])];
        int& here = left[static_cast<std::size_t>(assigned[i].enclosure)];
        here -= strands_in_use(building, search.scenario.rules);
        if (here < 0) return false;
    }
    return true;
}

/// Buildings from a built chain's first to its last; 0 where the building is the last of none.
int length_of_chain_to(const ExtensionSearch& search, BuildingIndex last) {
    for (const std::vector<BuildingIndex>& chain : search.built.chains) {
        if (!chain.empty() && chain.back() == last) return static_cast<int>(chain.size());
    }
    return 0;
}

/// Whether every addition that hangs on a building is in a chain that begins in the built plan and keeps the hop limit,
/// and no building has two behind it.
bool chains_hold(const ExtensionSearch& search, const std::vector<Source>& assigned) {
    for (std::size_t i = 0; i < assigned.size(); ++i) {
        if (assigned[i].kind != Source::Kind::building) continue;
        const auto hangs_there = [&](const Source& source) {
            return source.kind == Source::Kind::building && source.building == assigned[i].building;
        };
        if (std::count_if(assigned.begin(), assigned.end(), hangs_there) > 1) return false;
        int hops = 1;
        BuildingIndex at = assigned[i].building;
        while (length_of_chain_to(search, at) == 0) {
            const auto before = std::find(search.additions.begin(), search.additions.end(), at);
            if (before == search.additions.end() || ++hops > search.scenario.rules.hop_limit) return false;
            const Source& source = assigned[static_cast<std::size_t>(before - search.additions.begin())];
            if (source.kind != Source::Kind::building) return false;
            at = source.building;
        }
        if (length_of_chain_to(search, at) + hops > search.scenario.rules.hop_limit) return false;
    }
    return true;
}

PlaceIndex place_of(const ExtensionSearch& search, std::size_t addition) {
    return search.scenario.buildings[static_cast<std::size_t>(search.additions[addition])].place;
}

/// Whether a dark cable leads to this addition and holds its strands.
bool serves(const ExtensionSearch& search, int cable, std::size_t addition) {
    const PlannedCable& dark = search.built.cables[static_cast<std::size_t>(cable)];
    const Building& building = search.scenario.buildings[static_cast<std::size_t>(search.additions[addition])];
    const int strands = search.scenario.catalogue.cables[static_cast<std::size_t>(dark.product)].strands;
    return dark.to == building.place && strands_in_use(building, search.scenario.rules) <= strands;
}

/// Whether dark cables go to where they lead, each to one addition.
bool cables_lead_there(const ExtensionSearch& search, const std::vector<Source>& assigned) {
    std::set<int> taken;
    for (std::size_t i = 0; i < assigned.size(); ++i) {
        if (assigned[i].cable < 0) continue;
        if (!serves(search, assigned[i].cable, i) || !taken.insert(assigned[i].cable).second) return false;
    }
    return true;
}

bool may_stand(const ExtensionSearch& search, const std::vector<Source>& assigned) {
    return cables_lead_there(search, assigned) && strands_suffice(search, assigned) && chains_hold(search, assigned);
}

/// Orders to lay so many in: all of them, or from the first to the last and back.
std::vector<std::vector<std::size_t>> orders_of(std::size_t count) {
    std::vector<std::size_t> order(count);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::vector<std::vector<std::size_t>> orders;
    if (count > most_in_every_order) {
        orders.push_back(order);
        orders.emplace_back(order.rbegin(), order.rend());
        return orders;
    }
    do {
        orders.push_back(order);
    } while (std::next_permutation(order.begin(), order.end()));
    return orders;
}

void add_in_orders(const ExtensionSearch& search, const std::vector<Source>& assigned,
                   std::vector<Candidate>& candidates) {
    if (!may_stand(search, assigned)) return;
    const bool alike =
        std::all_of(assigned.begin(), assigned.end(), [&](const Source& source) { return source == assigned.front(); });
    const bool all_hub = alike && assigned.front().kind == Source::Kind::hub;
    for (const auto& order : orders_of(assigned.size())) {
        auto routed = routed_from(search, assigned, order);
        if (routed)
            candidates.push_back(
                {*std::move(routed), all_hub ? "every new building by a cable of its own from the hub" : ""});
    }
}

/// The next assignment in counting order; false behind the last.
bool count_on(std::vector<std::size_t>& digits, std::size_t base) {
    for (std::size_t& digit : digits) {
        if (++digit < base) return true;
        digit = 0;
    }
    return false;
}

bool few_assignments(std::size_t sources, std::size_t additions) {
    std::size_t count = 1;
    for (std::size_t i = 0; i < additions; ++i) {
        count *= sources;
        if (count > most_assignments) return false;
    }
    return true;
}

std::vector<Source> sources_at(const std::vector<std::size_t>& digits, const std::vector<Source>& sources) {
    std::vector<Source> assigned;
    for (const std::size_t digit : digits)
        assigned.push_back(sources[digit]);
    return assigned;
}

/// Every addition from the source that is nearest in cost when it is laid alone.
std::optional<std::vector<Source>> each_from_its_own(const ExtensionSearch& search,
                                                     const std::vector<Source>& sources) {
    std::vector<Source> assigned;
    for (std::size_t i = 0; i < search.additions.size(); ++i) {
        const std::vector<BuildingIndex> one = {search.additions[i]};
        const ExtensionSearch alone{search.scenario, search.built,       search.works, one,
                                    search.network,  {search.figures[i]}};
        const FreeRoutes free = routed_from_anywhere(alone, sources);
        if (!free.routed) return std::nullopt;
        assigned.push_back(free.routed->additions.front().source);
    }
    return assigned;
}

std::vector<PlaceIndex> places_to_try(const ExtensionSearch& search) {
    std::vector<std::pair<double, PlaceIndex>> order;
    const auto& places = search.scenario.places;
    for (std::size_t p = 0; p < places.size(); ++p) {
        const auto taken = [&](const PlannedEnclosure& enclosure) {
            return enclosure.place == static_cast<PlaceIndex>(p);
        };
        if (!places[p].enclosure_allowed ||
            std::any_of(search.built.enclosures.begin(), search.built.enclosures.end(), taken))
            continue;
        double distance = 0;
        for (const BuildingIndex addition : search.additions) {
            const Building& building = search.scenario.buildings[static_cast<std::size_t>(addition)];
            const Position& at = places[static_cast<std::size_t>(building.place)].at;
            const double dx = at.x - places[p].at.x;
            const double dy = at.y - places[p].at.y;
            distance += dx * dx + dy * dy;
        }
        order.emplace_back(distance, static_cast<PlaceIndex>(p));
    }
    std::sort(order.begin(), order.end());
    if (order.size() > most_places) order.resize(most_places);
    std::vector<PlaceIndex> nearest;
    for (const auto& [distance, place] : order)
        nearest.push_back(place);
    return nearest;
}

/// All positions together and, where these are few, every part of them.
std::vector<std::vector<std::size_t>> subsets_of(std::size_t count) {
    std::vector<std::size_t> all(count);
    std::iota(all.begin(), all.end(), std::size_t{0});
    if (count > most_in_every_order) return {all};
    std::vector<std::vector<std::size_t>> subsets;
    for (unsigned bits = 1; bits < 1U << count; ++bits) {
        std::vector<std::size_t> subset;
        for (const std::size_t i : all) {
            if ((bits >> i & 1U) != 0) subset.push_back(i);
        }
        subsets.push_back(std::move(subset));
    }
    return subsets;
}

/// Sources for the additions that are not among these: every assignment that has the strands. Where there are others,
/// additions are few.
std::vector<std::vector<std::vector<Source>>> sources_of_others(const ExtensionSearch& search,
                                                                const std::vector<std::size_t>& subset,
                                                                const std::vector<Source>& sources) {
    std::vector<std::size_t> others;
    for (std::size_t i = 0; i < search.additions.size(); ++i) {
        if (std::find(subset.begin(), subset.end(), i) == subset.end()) others.push_back(i);
    }
    std::vector<std::vector<std::vector<Source>>> all;
    std::vector<std::size_t> digits(others.size(), 0);
    do {
        // Whoever comes through the new enclosure takes no strands that are there.
        std::vector<Source> assigned(search.additions.size(), Source{});
        for (std::size_t n = 0; n < others.size(); ++n)
            assigned[others[n]] = sources[digits[n]];
        if (!may_stand(search, assigned)) continue;
        all.emplace_back();
        for (const Source& source : assigned)
            all.back().push_back({source});
    } while (count_on(digits, sources.size()));
    return all;
}

/// Figures of a trunk that serves these additions.
std::optional<CableFigures> trunk_figures(const ExtensionSearch& search, const std::vector<std::size_t>& subset) {
    int in_use = 0;
    for (const std::size_t i : subset) {
        const Building& building = search.scenario.buildings[static_cast<std::size_t>(search.additions[i])];
        in_use += strands_in_use(building, search.scenario.rules);
    }
    const StrandNeed need = trunk_need(in_use, search.scenario.rules, search.scenario.growth);
    return cable_figures(search.scenario, search.network.scale, need);
}

/// Whoever has a dark cable of its own by that, the others as they were.
std::vector<Source> over_dark_cables(const ExtensionSearch& search, const std::vector<Source>& dark,
                                     std::vector<Source> assigned) {
    for (const Source& source : dark) {
        for (std::size_t i = 0; i < assigned.size(); ++i) {
            if (!serves(search, source.cable, i) || assigned[i].cable >= 0) continue;
            assigned[i] = source;
            break;
        }
    }
    return assigned;
}

/// Each source alone, the cheapest of them for each addition, and that with one addition from elsewhere. None hangs on
/// another.
std::vector<Candidate> from_likely_sources(const ExtensionSearch& search, std::vector<Source> sources) {
    std::vector<Source> dark;
    std::copy_if(sources.begin(), sources.end(), std::back_inserter(dark),
                 [](const Source& source) { return source.cable >= 0; });
    const auto is_an_addition = [&](BuildingIndex building) {
        return std::find(search.additions.begin(), search.additions.end(), building) != search.additions.end();
    };
    std::erase_if(sources, [&](const Source& source) { return source.cable >= 0 || is_an_addition(source.building); });
    std::vector<Candidate> candidates;
    const std::size_t count = search.additions.size();
    for (const Source& source : sources)
        add_in_orders(search, over_dark_cables(search, dark, std::vector<Source>(count, source)), candidates);
    auto nearest = each_from_its_own(search, sources);
    if (!nearest) return candidates;
    nearest = over_dark_cables(search, dark, *std::move(nearest));
    add_in_orders(search, *nearest, candidates);
    for (std::size_t i = 0; i < count; ++i) {
        for (const Source& source : sources) {
            std::vector<Source> assigned = *nearest;
            if (assigned[i] == source) continue;
            assigned[i] = source;
            add_in_orders(search, assigned, candidates);
        }
    }
    return candidates;
}

}  // namespace

std::vector<Source> sources_of(const ExtensionSearch& search) {
    std::vector<Source> sources = {{Source::Kind::hub, -1}};
    for (std::size_t e = 0; e < search.built.enclosures.size(); ++e) {
        const Source source{Source::Kind::built_enclosure, static_cast<int>(e)};
        if (strands_left(search, source) > 0) sources.push_back(source);
    }
    return sources;
}

std::vector<Source> chain_ends_of(const ExtensionSearch& search) {
    std::vector<Source> ends;
    if (search.built.layout != LayoutKind::daisy_chain) return ends;
    for (const std::vector<BuildingIndex>& chain : search.built.chains) {
        if (!chain.empty() && static_cast<int>(chain.size()) < search.scenario.rules.hop_limit)
            ends.push_back({Source::Kind::building, -1, chain.back()});
    }
    if (ends.empty()) return ends;
    for (const BuildingIndex addition : search.additions) {
        if (search.additions.size() > 1) ends.push_back({Source::Kind::building, -1, addition});
    }
    return ends;
}

std::vector<Source> dark_cables_of(const ExtensionSearch& search) {
    std::vector<Source> dark;
    for (std::size_t c = 0; c < search.built.cables.size(); ++c) {
        const PlannedCable& cable = search.built.cables[c];
        Source source{Source::Kind::hub, -1, -1, static_cast<int>(c)};
        if (cable.building || cable.need.in_use > 0) continue;
        if (cable.role == CableRole::drop && cable.enclosure) {
            source.kind = Source::Kind::built_enclosure;
            source.enclosure = *cable.enclosure;
        } else if (cable.role == CableRole::hop && cable.from != search.scenario.hub.place) {
            const auto ends_there = [&](const std::vector<BuildingIndex>& chain) {
                return !chain.empty() &&
                       search.scenario.buildings[static_cast<std::size_t>(chain.back())].place == cable.from;
            };
            const auto chain = std::find_if(search.built.chains.begin(), search.built.chains.end(), ends_there);
            if (chain == search.built.chains.end() || search.built.layout != LayoutKind::daisy_chain) continue;
            source.kind = Source::Kind::building;
            source.building = chain->back();
        } else if (cable.role != CableRole::home_run) {
            continue;
        }
        for (std::size_t i = 0; i < search.additions.size(); ++i) {
            if (place_of(search, i) != cable.to || !serves(search, source.cable, i)) continue;
            dark.push_back(source);
            break;
        }
    }
    return dark;
}

std::vector<Candidate> from_sources(const ExtensionSearch& search, const std::vector<Source>& sources) {
    std::vector<Candidate> candidates;
    const std::size_t count = search.additions.size();
    if (!few_assignments(sources.size(), count)) return from_likely_sources(search, sources);
    std::vector<std::size_t> digits(count, 0);
    do {
        add_in_orders(search, sources_at(digits, sources), candidates);
    } while (count_on(digits, sources.size()));
    return candidates;
}

bool may_add_enclosure(const ExtensionSearch& search) {
    return static_cast<int>(search.built.enclosures.size()) < search.scenario.rules.most_enclosures;
}

std::vector<Candidate> through_new_enclosures(const ExtensionSearch& search, const std::vector<Source>& sources) {
    std::vector<Candidate> candidates;
    if (!may_add_enclosure(search)) return candidates;
    const std::vector<PlaceIndex> places = places_to_try(search);
    for (const auto& subset : subsets_of(search.additions.size())) {
        const auto trunk = trunk_figures(search, subset);
        if (!trunk) continue;
        const bool all = subset.size() == search.additions.size();
        for (const auto& of_others : sources_of_others(search, subset, sources)) {
            for (const PlaceIndex place : places) {
                auto routed = routed_through(search, {place, *trunk, subset}, of_others);
                if (!routed) continue;
                const std::string& id = search.scenario.places[static_cast<std::size_t>(place)].id;
                candidates.push_back(
                    {*std::move(routed),
                     (all ? "all through a new enclosure at " : "some through a new enclosure at ") + id});
            }
        }
    }
    return candidates;
}

}  // namespace spadework
