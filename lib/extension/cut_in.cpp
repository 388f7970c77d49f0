#include "extension/cut_in.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

#include "extension/candidates.hpp"
#include "rates/cable_rates.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// Cuts at which other sources are tried for some of the additions, the most promising first.
constexpr std::size_t most_cuts_in_mixes = 8;

int strands_of(const ExtensionSearch& search, BuildingIndex addition) {
    return strands_in_use(search.scenario.buildings[static_cast<std::size_t>(addition)], search.scenario.rules);
}

/// Everything that is looked at anew for one cut.
class CutSearch {
public:
    CutSearch(const ExtensionSearch& search, const ExtensionTask& task, const TrunkCut& cut)
        : made_(make_cut(search.scenario, search.built, cut)),
          works_(works_with(search, made_)),
          search_{search.scenario, made_.plan, works_, search.additions, search.network, search.figures},
          task_{search.scenario, made_.plan, works_, search.additions, task.hub, &made_} {}
    CutSearch(const CutSearch&) = delete;
    CutSearch& operator=(const CutSearch&) = delete;

    [[nodiscard]] const MadeCut& made() const { return made_; }

    /// The cheapest with every addition from the cut, or with some at least.
    std::optional<PricedWay> cheapest(bool all) const {
        const Source here{Source::Kind::built_enclosure, made_.enclosure};
        std::optional<PricedWay> best;
        std::vector<Source> sources = all ? std::vector{here} : sources_of(search_);
        const std::vector<Source> dark = dark_cables_of(search_);
        if (!all) sources.insert(sources.end(), dark.begin(), dark.end());
        for (const Candidate& candidate : from_sources(search_, sources)) {
            const auto& additions = candidate.routed.additions;
            const bool uses_cut = std::any_of(additions.begin(), additions.end(),
                                              [&](const RoutedAddition& one) { return one.source == here; });
            if (!uses_cut) continue;
            Pricing pricing = priced(task_, candidate.routed);
            if (!pricing.way || (best && best->total <= pricing.way->total)) continue;
            if (!check_way(search_.scenario, *pricing.way).empty()) continue;
            best = std::move(pricing.way);
        }
        return best;
    }

private:
    /// The cut changes no way and no port, so that only strands and adapters are counted anew.
    static BuiltWorks works_with(const ExtensionSearch& search, const MadeCut& made) {
        BuiltWorks works = search.works;
        const BuiltWorks counted = works_of(search.scenario, made.plan, BitRate());
        works.dark_strands = counted.dark_strands;
        works.free_adapters = counted.free_adapters;
        return works;
    }

    MadeCut made_;
    BuiltWorks works_;
    ExtensionSearch search_;
    ExtensionTask task_;
};

Interruption interruption_of(const ExtensionSearch& search, const MadeCut& made) {
    const auto& cables = made.plan.cables;
    Interruption down;
    down.cut_near = cables[static_cast<std::size_t>(made.near)].id;
    down.cut_far = cables[static_cast<std::size_t>(made.far)].id;
    const PlaceIndex at = cables[static_cast<std::size_t>(made.near)].to;
    down.what =
        "a new enclosure cut into " + down.cut_far + " at " + search.scenario.places[static_cast<std::size_t>(at)].id;
    down.links = made.links;
    int strands = 0;
    for (const int l : made.links)
        strands += made.plan.links[static_cast<std::size_t>(l)].strands;
    down.outage = time_to_splice(search.scenario, made) + test_work(strands, search.scenario.labour).time;
    return down;
}

/// Keeps the cheaper, ties to the one there was.
void keep_cheaper(const ExtensionSearch& search, std::optional<PricedWay> way, const MadeCut& made,
                  const std::vector<KeptStrand>& strands, std::optional<PricedWay>& best) {
    if (!way || (best && best->total <= way->total)) return;
    best = std::move(way);
    best->interruption = interruption_of(search, made);
    for (RoutedAddition& addition : best->routed.additions) {
        if (addition.source == Source{Source::Kind::built_enclosure, made.enclosure})
            addition.source = {Source::Kind::new_enclosure, 0};
    }
    best->kept = renamed_by_cut(strands, best->interruption->cut_near, best->interruption->cut_far);
}

}  // namespace

std::optional<PricedWay> cheapest_cut_in(const ExtensionSearch& search, const ExtensionTask& task,
                                         const std::vector<KeptStrand>& strands) {
    std::optional<PricedWay> best;
    const bool splicing = search.scenario.catalogue.splicing.time_per_splice > WorkTime();
    if (!may_add_enclosure(search) || !splicing) return best;
    int all = 0;
    int least = 0;
    for (const BuildingIndex addition : search.additions) {
        const int wanted = strands_of(search, addition);
        all += wanted;
        least = least == 0 ? wanted : std::min(least, wanted);
    }
    std::vector<std::tuple<bool, Money, std::size_t>> promising;  // none from it alone, total, number
    const std::vector<TrunkCut> cuts = possible_cuts(search.scenario, search.built);
    for (std::size_t i = 0; i < cuts.size(); ++i) {
        const int dark = search.works.dark_strands[static_cast<std::size_t>(cuts[i].cable)];
        if (dark < least) continue;
        std::optional<PricedWay> way;
        if (dark >= all) {
            const CutSearch at_cut(search, task, cuts[i]);
            way = at_cut.cheapest(true);
            promising.emplace_back(!way, way ? way->total : Money(), i);
            keep_cheaper(search, std::move(way), at_cut.made(), strands, best);
        } else {
            promising.emplace_back(true, Money(), i);
        }
    }
    if (search.additions.size() < 2) return best;
    std::sort(promising.begin(), promising.end());
    if (promising.size() > most_cuts_in_mixes) promising.resize(most_cuts_in_mixes);
    for (const auto& [none, total, i] : promising) {
        const CutSearch at_cut(search, task, cuts[i]);
        keep_cheaper(search, at_cut.cheapest(false), at_cut.made(), strands, best);
    }
    return best;
}

}  // namespace spadework
