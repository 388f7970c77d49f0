#include "world/support/every_insertion.hpp"

#include <algorithm>
#include <set>
#include <vector>

#include "world/support/own_paths.hpp"

namespace spadework::own {

namespace {

class Search {
public:
    Search(const Scenario& site, const Plan& built, const Building& added)
        : site_(site), built_(built), added_(added), paths_(site, built) {}

    /// The addition before each building of each chain, with every path of both cables.
    std::optional<Cents> run() {
        for (const auto& chain : built_.chains) {
            if (static_cast<int>(chain.size()) >= site_.rules.hop_limit) continue;
            for (std::size_t at = 0; at < chain.size(); ++at) {
                const PlaceIndex before =
                    at == 0 ? site_.hub.place : site_.buildings[static_cast<std::size_t>(chain[at - 1])].place;
                insert_before(before, chain, at);
            }
        }
        return best_;
    }

private:
    /// Segments of each hop of a ring, the closing one last.
    std::vector<std::set<int>> hops_of(const std::vector<BuildingIndex>& chain) const {
        std::vector<std::set<int>> hops;
        const auto add = [&](BuildingIndex building, CableRole role) {
            hops.emplace_back();
            for (const PlannedCable& cable : built_.cables) {
                if (cable.building != building || cable.role != role) continue;
                for (const Step& step : cable.steps)
                    hops.back().insert(step.segment);
            }
        };
        for (const BuildingIndex building : chain)
            add(building, CableRole::hop);
        add(chain.back(), CableRole::closing);
        return hops;
    }

    /// Positions of a ring's buildings between the first and the last hop that a cut breaks.
    static std::set<int> lost(const std::vector<std::set<int>>& hops, int segment) {
        std::set<int> between;
        int first = -1;
        for (int h = 0; h < static_cast<int>(hops.size()); ++h) {
            if (!hops[static_cast<std::size_t>(h)].contains(segment)) continue;
            if (first < 0) first = h;
            for (int b = first; b < h; ++b)
                between.insert(b);
        }
        return between;
    }

    /// Whether no cut takes down a building of a ring that it did not take down before.
    bool stands_cuts(const std::vector<BuildingIndex>& chain, std::size_t at, const Path& in, const Path& out) const {
        if (built_.layout != LayoutKind::ring) return true;
        const std::vector<std::set<int>> before = hops_of(chain);
        std::vector<std::set<int>> after = before;
        after[at].clear();
        for (const Passed& step : out.steps)
            after[at].insert(step.first);
        std::set<int> first;
        for (const Passed& step : in.steps)
            first.insert(step.first);
        after.insert(after.begin() + static_cast<std::ptrdiff_t>(at), first);
        for (int segment = 0; segment < static_cast<int>(site_.segments.size()); ++segment) {
            const std::set<int> was = lost(before, segment);
            for (const int position : lost(after, segment)) {
                if (position == static_cast<int>(at)) continue;
                if (!was.contains(position - (position > static_cast<int>(at) ? 1 : 0))) return false;
            }
        }
        return true;
    }

    void insert_before(PlaceIndex before, const std::vector<BuildingIndex>& chain, std::size_t at) {
        const BuildingIndex behind = chain[at];
        int links = 0;
        BitRate rate;
        Cents again = 0;
        for (const PlannedLink& link : built_.links) {
            const bool hop = built_.cables[static_cast<std::size_t>(link.cables.front())].role == CableRole::hop;
            if (link.building != behind || !hop) continue;
            ++links;
            rate = std::max(rate, link.rate);
            again += for_time(site_.labour.installer_rate, site_.labour.test_time.seconds() * link.strands);
        }
        const auto gear = building_gear(site_, added_, 2 * links, rate);
        if (links_of(added_) > links || fastest(added_) > rate || !gear) return;
        const int strands = strands_of(site_, links);
        const int need = strands + site_.rules.spare.drop_spare_least;
        const PlaceIndex end = site_.buildings[static_cast<std::size_t>(behind)].place;
        for (const Path& in : paths_.between(before, added_.place)) {
            const auto first = cable(site_, need, strands, in.run);
            const int spliced = site_.rules.termination == Termination::spliced ? 2 : 0;
            const auto light = link(site_, rate, glass(site_, need, strands, in.run), 2,
                                    joints(site_, need, strands, in.run) + spliced);
            if (!first || !light) continue;
            const bool in_fits = paths_.lay(in);
            for (const Path& out : paths_.between(added_.place, end)) {
                const auto second = cable(site_, need, strands, out.run);
                const bool fits = paths_.lay(out) && in_fits;
                const Cents whole = paths_.paid() + *gear + *first + second.value_or(0) + *light * links + again;
                if (fits && second && (!best_ || whole < *best_) && stands_cuts(chain, at, in, out)) best_ = whole;
                paths_.take_out(out);
            }
            paths_.take_out(in);
        }
    }

    const Scenario& site_;
    const Plan& built_;
    const Building& added_;
    OwnPaths paths_;
    std::optional<Cents> best_;
};

}  // namespace

std::optional<Cents> best_insertion(const Scenario& site, const Plan& built, const Building& added) {
    return Search(site, built, added).run();
}

}  // namespace spadework::own
