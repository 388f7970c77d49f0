#include "world/support/every_trench_set.hpp"

#include <algorithm>
#include <functional>
#include <limits>

namespace spadework::own {

namespace {

constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max() / 4;

struct Edge {
    int a = 0;
    int b = 0;
    std::int64_t millimetres = 0;
    Cents opening = 0;
};

/// Prices of cables by what they hold and how long they run, looked up often.
class CablePrices {
public:
    explicit CablePrices(const Scenario& site) : site_(site), method_(ways(site, 0).front().method) {}

    struct Priced {
        std::optional<Cents> cost;
        std::int64_t glass = 0;
        int splices = 0;
    };
    const Priced& of(int strands, int in_use, std::int64_t millimetres) {
        const auto [entry, fresh] = known_.try_emplace({strands, in_use, millimetres});
        if (fresh) entry->second = priced(strands, in_use, millimetres);
        return entry->second;
    }

private:
    Priced priced(int strands, int in_use, std::int64_t millimetres) const {
        Run run;
        Segment stretch;
        stretch.length = Length::from_millimetres(millimetres);
        run.add(stretch, *method_);
        const bool spliced = site_.rules.termination == Termination::spliced;
        return {cable(site_, strands, in_use, run), glass(site_, strands, in_use, run),
                joints(site_, strands, in_use, run) + (spliced ? 2 : 0)};
    }

    const Scenario& site_;
    const OpeningMethod* method_;
    std::map<std::tuple<int, int, std::int64_t>, Priced> known_;
};

class Search {
public:
    explicit Search(const Scenario& site) : site_(site), cables_(site) {
        for (int s = 0; s < static_cast<int>(site.segments.size()); ++s) {
            for (const OwnWay& way : ways(site, s)) {
                const Segment& segment = site.segments[static_cast<std::size_t>(s)];
                edges_.push_back({segment.from, segment.to, segment.length.millimetres(), way.opening});
            }
        }
        for (const Building& building : site.buildings) {
            most_links_ = std::max(most_links_, links_of(building));
            fastest_ = std::max(fastest_, fastest(building));
        }
    }

    std::map<LayoutKind, std::optional<Cents>> run() {
        for (const LayoutKind kind : {LayoutKind::home_runs, LayoutKind::trunk_one, LayoutKind::trunk,
                                      LayoutKind::mixed, LayoutKind::daisy_chain}) {
            best_[kind] = std::nullopt;
        }
        for (unsigned open = 0; open < 1U << edges_.size(); ++open) {
            measure(open);
            try_chains();
            try_enclosures();
        }
        std::map<LayoutKind, std::optional<Cents>> totals;
        for (const auto& [kind, direct] : best_) {
            totals[kind] =
                direct ? std::optional(quoted(site_, *direct + site_.labour.mobilisation.minor())) : std::nullopt;
        }
        return totals;
    }

private:
    std::size_t building_count() const { return site_.buildings.size(); }
    const Building& building(std::size_t b) const { return site_.buildings[b]; }

    void measure(unsigned open) {
        const std::size_t n = site_.places.size();
        distance_.assign(n, std::vector<std::int64_t>(n, unreached));
        for (std::size_t p = 0; p < n; ++p)
            distance_[p][p] = 0;
        opening_ = 0;
        for (std::size_t e = 0; e < edges_.size(); ++e) {
            if ((open >> e & 1U) == 0) continue;
            const Edge& edge = edges_[e];
            opening_ += edge.opening;
            auto& there = distance_[static_cast<std::size_t>(edge.a)][static_cast<std::size_t>(edge.b)];
            there = std::min(there, edge.millimetres);
            distance_[static_cast<std::size_t>(edge.b)][static_cast<std::size_t>(edge.a)] = there;
        }
        for (std::size_t via = 0; via < n; ++via) {
            for (std::size_t a = 0; a < n; ++a) {
                for (std::size_t b = 0; b < n; ++b)
                    distance_[a][b] = std::min(distance_[a][b], distance_[a][via] + distance_[via][b]);
            }
        }
    }

    std::int64_t between(PlaceIndex a, PlaceIndex b) const {
        return distance_[static_cast<std::size_t>(a)][static_cast<std::size_t>(b)];
    }

    void keep(LayoutKind kind, Cents direct) {
        auto& best = best_[kind];
        if (!best || direct < *best) best = direct;
    }

    /// A building's own cable, links and gear, from a place with so much cable before it.
    std::optional<Cents> service(std::size_t b, PlaceIndex from, const CablePrices::Priced* before) {
        const std::int64_t length = between(from, building(b).place);
        if (length >= unreached) return std::nullopt;
        const int in_use = strands_of(site_, links_of(building(b)));
        const auto& own = cables_.of(in_use + site_.rules.spare.drop_spare_least, in_use, length);
        if (!own.cost) return std::nullopt;
        const std::int64_t glass = own.glass + (before == nullptr ? 0 : before->glass);
        const int splices = own.splices + (before == nullptr ? 0 : before->splices);
        Cents cost = *own.cost;
        for (const LinkDemand& demand : building(b).links) {
            const auto one = link(site_, demand.rate, glass, before == nullptr ? 2 : 3, splices);
            if (!one) return std::nullopt;
            cost += *one * demand.count;
        }
        const auto gear = building_gear(site_, building(b), links_of(building(b)), fastest(building(b)));
        if (!gear) return std::nullopt;
        return cost + *gear;
    }

    /// Home runs, and every set of enclosures with every way of sharing the buildings out among them and the hub.
    void try_enclosures() {
        std::vector<PlaceIndex> allowed;
        for (std::size_t p = 0; p < site_.places.size(); ++p) {
            if (site_.places[p].enclosure_allowed) allowed.push_back(static_cast<PlaceIndex>(p));
        }
        std::vector<PlaceIndex> chosen;
        const std::function<void(std::size_t)> choose = [&](std::size_t next) {
            std::vector<int> served_by(building_count(), -1);
            share_out(chosen, served_by, 0);
            if (static_cast<int>(chosen.size()) == site_.rules.most_enclosures) return;
            for (std::size_t p = next; p < allowed.size(); ++p) {
                chosen.push_back(allowed[p]);
                choose(p + 1);
                chosen.pop_back();
            }
        };
        choose(0);
    }

    void share_out(const std::vector<PlaceIndex>& chosen, std::vector<int>& served_by, std::size_t b) {
        if (b == building_count()) return price_sharing(chosen, served_by);
        for (int by = -1; by < static_cast<int>(chosen.size()); ++by) {
            served_by[b] = by;
            share_out(chosen, served_by, b + 1);
        }
    }

    void price_sharing(const std::vector<PlaceIndex>& chosen, const std::vector<int>& served_by) {
        Cents cost = opening_;
        int hub_ports = 0;
        std::vector<const CablePrices::Priced*> trunks;
        for (std::size_t e = 0; e < chosen.size(); ++e) {
            int links = 0;
            for (std::size_t b = 0; b < building_count(); ++b)
                links += served_by[b] == static_cast<int>(e) ? links_of(building(b)) : 0;
            if (links == 0) return;
            const std::int64_t length = between(site_.hub.place, chosen[e]);
            if (length >= unreached) return;
            const int in_use = strands_of(site_, links);
            const int strands = trunk_strands(site_, in_use);
            trunks.push_back(&cables_.of(strands, in_use, length));
            const auto box = enclosures(site_, strands);
            if (!trunks.back()->cost || !box) return;
            cost +=
                *trunks.back()->cost + *box + site_.places[static_cast<std::size_t>(chosen[e])].enclosure_extra.minor();
        }
        bool any_direct = false;
        for (std::size_t b = 0; b < building_count(); ++b) {
            const int by = served_by[b];
            any_direct = any_direct || by < 0;
            const auto own =
                by < 0 ? service(b, site_.hub.place, nullptr)
                       : service(b, chosen[static_cast<std::size_t>(by)], trunks[static_cast<std::size_t>(by)]);
            if (!own) return;
            cost += *own;
            hub_ports += links_of(building(b));
        }
        const auto hub = hub_gear(site_, hub_ports, fastest_);
        if (!hub) return;
        cost += *hub;
        if (site_.rules.most_enclosures > 0) keep(LayoutKind::mixed, cost);
        if (chosen.empty()) return keep(LayoutKind::home_runs, cost);
        if (any_direct) return;
        keep(LayoutKind::trunk, cost);
        if (chosen.size() == 1) keep(LayoutKind::trunk_one, cost);
    }

    /// Every way of hanging the buildings into chains: the next building continues the last chain or begins a new one.
    void try_chains() {
        std::vector<bool> hung(building_count(), false);
        hang(hung, -1, 0, 0, opening_);
    }

    /// Gear of a building in a chain that ends there or passes on.
    std::optional<Cents> station(int b, bool passes) {
        return building_gear(site_, building(static_cast<std::size_t>(b)), passes ? 2 * most_links_ : most_links_,
                             fastest_);
    }

    void hang(std::vector<bool>& hung, int last, int in_chain, int chains, Cents cost) {
        if (std::find(hung.begin(), hung.end(), false) == hung.end()) {
            const auto end = station(last, false);
            const auto hub = hub_gear(site_, chains * most_links_, fastest_);
            if (end && hub) keep(LayoutKind::daisy_chain, cost + *end + *hub);
            return;
        }
        for (int b = 0; b < static_cast<int>(building_count()); ++b) {
            if (hung[static_cast<std::size_t>(b)]) continue;
            for (const bool fresh : {true, false}) {
                if (!fresh && (last < 0 || in_chain >= site_.rules.hop_limit)) continue;
                const auto before = last < 0 ? std::optional<Cents>(0) : station(last, !fresh);
                const auto hop = hop_to(static_cast<std::size_t>(b),
                                        fresh ? site_.hub.place : building(static_cast<std::size_t>(last)).place);
                if (!before || !hop) continue;
                hung[static_cast<std::size_t>(b)] = true;
                hang(hung, b, fresh ? 1 : in_chain + 1, chains + (fresh ? 1 : 0), cost + *before + *hop);
                hung[static_cast<std::size_t>(b)] = false;
            }
        }
    }

    std::optional<Cents> hop_to(std::size_t b, PlaceIndex from) {
        const std::int64_t length = between(from, building(b).place);
        if (length >= unreached) return std::nullopt;
        const int in_use = strands_of(site_, most_links_);
        const auto& own = cables_.of(in_use + site_.rules.spare.drop_spare_least, in_use, length);
        const auto one = link(site_, fastest_, own.glass, 2, own.splices);
        if (!own.cost || !one) return std::nullopt;
        return *own.cost + *one * most_links_;
    }

    const Scenario& site_;
    CablePrices cables_;
    std::vector<Edge> edges_;
    int most_links_ = 1;
    BitRate fastest_;
    std::vector<std::vector<std::int64_t>> distance_;
    Cents opening_ = 0;
    std::map<LayoutKind, std::optional<Cents>> best_;
};

}  // namespace

std::map<LayoutKind, std::optional<Cents>> optima_over_trench_sets(const Scenario& site) {
    return Search(site).run();
}

}  // namespace spadework::own
