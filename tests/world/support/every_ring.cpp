#include "world/support/every_ring.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <map>
#include <set>

namespace spadework::own {

namespace {

struct Passed {
    int segment = 0;
    int way = 0;
    friend auto operator<=>(const Passed&, const Passed&) = default;
};

/// A simple way between two places with what its cable and links cost.
struct OwnPath {
    std::vector<Passed> passed;
    Cents cost = 0;
};

class Search {
public:
    explicit Search(const Scenario& site) : site_(site) {
        for (const Building& building : site.buildings) {
            links_ = std::max(links_, links_of(building));
            rate_ = std::max(rate_, fastest(building));
        }
        for (int s = -1; s < static_cast<int>(site.segments.size()); ++s)
            joined_[s] = joined_without(s);
    }

    std::optional<Cents> run() {
        Cents gear = site_.labour.mobilisation.minor();
        for (const Building& building : site_.buildings) {
            const auto own = building_gear(site_, building, 2 * links_, rate_);
            if (!own) return std::nullopt;
            gear += *own;
        }
        cost_ = gear;
        std::vector<bool> visited(site_.buildings.size(), false);
        begin_ring(visited, 0);
        return best_ ? std::optional(quoted(site_, *best_)) : std::nullopt;
    }

private:
    std::set<PlaceIndex> joined_without(int segment) const {
        std::set<PlaceIndex> joined = {site_.hub.place};
        for (bool again = true; again;) {
            again = false;
            for (int s = 0; s < static_cast<int>(site_.segments.size()); ++s) {
                const Segment& at = site_.segments[static_cast<std::size_t>(s)];
                if (s == segment || ways(site_, s).empty() || joined.contains(at.from) == joined.contains(at.to))
                    continue;
                joined.insert({at.from, at.to});
                again = true;
            }
        }
        return joined;
    }

    const std::vector<OwnPath>& paths(PlaceIndex from, PlaceIndex to) {
        const auto [entry, fresh] = paths_.try_emplace({from, to});
        if (!fresh) return entry->second;
        std::vector<Passed> passed;
        std::set<PlaceIndex> places = {from};
        walk(from, to, passed, places, entry->second);
        return entry->second;
    }

    void walk(PlaceIndex at, PlaceIndex to, std::vector<Passed>& passed, std::set<PlaceIndex>& places,
              std::vector<OwnPath>& found) {
        if (at == to) {
            if (const auto cost = price(passed)) found.push_back({passed, *cost});
            return;
        }
        for (int s = 0; s < static_cast<int>(site_.segments.size()); ++s) {
            const Segment& segment = site_.segments[static_cast<std::size_t>(s)];
            if (segment.from != at && segment.to != at) continue;
            const PlaceIndex next = segment.from == at ? segment.to : segment.from;
            if (!places.insert(next).second) continue;
            for (int w = 0; w < static_cast<int>(ways(site_, s).size()); ++w) {
                passed.push_back({s, w});
                walk(next, to, passed, places, found);
                passed.pop_back();
            }
            places.erase(next);
        }
    }

    /// The cable and its links.
    std::optional<Cents> price(const std::vector<Passed>& passed) const {
        Run run;
        for (const Passed& step : passed) {
            run.add(site_.segments[static_cast<std::size_t>(step.segment)],
                    *ways(site_, step.segment)[static_cast<std::size_t>(step.way)].method);
        }
        const int in_use = strands_of(site_, links_);
        const int strands = in_use + site_.rules.spare.drop_spare_least;
        const auto own = cable(site_, strands, in_use, run);
        const int splices =
            joints(site_, strands, in_use, run) + (site_.rules.termination == Termination::spliced ? 2 : 0);
        const auto one = link(site_, rate_, glass(site_, strands, in_use, run), 2, splices);
        if (!own || !one) return std::nullopt;
        return *own + *one * links_;
    }

    /// Lays each way from one place to another that the ring may take, goes on, and takes it up again.
    void lay(PlaceIndex from, PlaceIndex to, const std::function<void()>& then) {
        for (const OwnPath& path : paths(from, to)) {
            if (!ring_may_take(path)) continue;
            const Cents before = cost_;
            cost_ += path.cost;
            for (const Passed& step : path.passed) {
                if (uses_[step]++ > 0) continue;
                cost_ += ways(site_, step.segment)[static_cast<std::size_t>(step.way)].opening;
            }
            ring_.push_back(&path);
            if (!best_ || cost_ < *best_) then();
            ring_.pop_back();
            for (const Passed& step : path.passed)
                --uses_[step];
            cost_ = before;
        }
    }

    /// A segment passed before may be passed again only when all buildings since then are lost without it anyhow.
    bool ring_may_take(const OwnPath& path) const {
        for (const Passed& step : path.passed) {
            for (std::size_t hop = 0; hop < ring_.size(); ++hop) {
                const auto& before = ring_[hop]->passed;
                if (std::none_of(before.begin(), before.end(),
                                 [&](const Passed& p) { return p.segment == step.segment; })) {
                    continue;
                }
                for (std::size_t b = hop; b < visited_.size(); ++b) {
                    if (joined_.at(step.segment).contains(visited_[b])) return false;
                }
            }
        }
        return true;
    }

    void begin_ring(std::vector<bool>& visited, int rings) {
        if (std::find(visited.begin(), visited.end(), false) == visited.end()) {
            const auto hub = hub_gear(site_, 2 * rings * links_, rate_);
            if (hub && (!best_ || cost_ + *hub < *best_)) best_ = cost_ + *hub;
            return;
        }
        go_on(visited, site_.hub.place, rings);
    }

    void go_on(std::vector<bool>& visited, PlaceIndex at, int rings) {
        if (!visited_.empty()) {
            lay(at, site_.hub.place, [&] {
                std::vector<const OwnPath*> ring;
                std::vector<PlaceIndex> places;
                ring.swap(ring_);
                places.swap(visited_);
                begin_ring(visited, rings + 1);
                ring.swap(ring_);
                places.swap(visited_);
            });
        }
        if (static_cast<int>(visited_.size()) == site_.rules.hop_limit) return;
        for (std::size_t b = 0; b < visited.size(); ++b) {
            if (visited[b]) continue;
            const PlaceIndex to = site_.buildings[b].place;
            visited[b] = true;
            lay(at, to, [&] {
                visited_.push_back(to);
                go_on(visited, to, rings);
                visited_.pop_back();
            });
            visited[b] = false;
        }
    }

    const Scenario& site_;
    int links_ = 1;
    BitRate rate_;
    std::map<int, std::set<PlaceIndex>> joined_;  ///< By segment: places joined to the hub without it.
    std::map<std::pair<PlaceIndex, PlaceIndex>, std::vector<OwnPath>> paths_;
    std::map<Passed, int> uses_;
    std::vector<const OwnPath*> ring_;  ///< Of the ring at hand, in order.
    std::vector<PlaceIndex> visited_;   ///< Likewise.
    Cents cost_ = 0;
    std::optional<Cents> best_;
};

}  // namespace

std::optional<Cents> optimum_of_rings(const Scenario& site) {
    return Search(site).run();
}

}  // namespace spadework::own
