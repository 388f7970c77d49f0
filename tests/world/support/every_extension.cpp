#include "world/support/every_extension.hpp"

#include <algorithm>
#include <set>

#include "world/support/every_insertion.hpp"
#include "world/support/own_paths.hpp"

namespace spadework::own {

namespace {

/// One place to be served from. Strands are those that are dark; -1 for no limit.
struct Feed {
    PlaceIndex place = 0;
    bool hub = false;
    bool is_new = false;
    int dark = -1;
    int lit = 0;
    std::int64_t glass = 0;  ///< Of its trunk.
    int splices = 0;
    int adapters = 0;  ///< Free beyond those plugged.
    int spare = 0;     ///< Plugged and dark: by policy, and for growth.
    int headroom = 0;
    int trunk = -1;     ///< Of the built plan's feeds: number of the trunk that its strands are of.
    bool cut = false;   ///< At a cut of that trunk.
    int building = -1;  ///< At the end of a chain, or at an addition for another to hang on; else -1.
};

class Search {
public:
    Search(const Scenario& site, const Plan& built) : site_(site), built_(built), paths_(site, built) {
        note_feeds();
        std::set<BuildingIndex> served;
        for (const PlannedLink& link : built.links)
            served.insert(link.building);
        for (std::size_t b = 0; b < site.buildings.size(); ++b) {
            if (!served.contains(static_cast<BuildingIndex>(b))) additions_.push_back(b);
        }
    }

    std::optional<Cents> run(Interrupting links) {
        if (additions_.empty()) return 0;
        links_ = links;
        note_chain_ends();
        serve(0, 0, 0);
        if (links == Interrupting::allowed && additions_.size() == 1) note_insertion();
        const bool may_add = static_cast<int>(built_.enclosures.size()) < site_.rules.most_enclosures;
        if (links == Interrupting::allowed && may_add) try_cuts();
        if (static_cast<int>(built_.enclosures.size()) < site_.rules.most_enclosures) try_new_enclosures();
        return total();
    }

private:
    const CableProduct& product(const PlannedCable& cable) const {
        return site_.catalogue.cables[static_cast<std::size_t>(cable.product)];
    }

    void note_feeds() {
        Feed hub;
        hub.place = site_.hub.place;
        hub.hub = true;
        feeds_.push_back(hub);
        for (const PlannedEnclosure& enclosure : built_.enclosures) {
            const PlannedCable& trunk = built_.cables[static_cast<std::size_t>(enclosure.trunks.front())];
            Feed feed;
            feed.place = enclosure.place;
            feed.trunk = enclosure.trunks.front();
            feed.dark = product(trunk).strands - trunk.need.in_use;
            const bool factory = site_.rules.termination == Termination::factory;
            feed.glass = (factory ? trunk.lengths.ordered : trunk.lengths.with_slack).millimetres();
            feed.splices = trunk.lengths.joints + (site_.rules.termination == Termination::spliced ? 2 : 0);
            feed.spare = trunk.need.spare;
            feed.headroom = trunk.need.headroom;
            for (const Pieces& pieces : enclosure.products)
                feed.adapters +=
                    pieces.count * site_.catalogue.enclosures[static_cast<std::size_t>(pieces.product)].adapters;
            feed.adapters -= trunk.need.total();
            feeds_.push_back(feed);
        }
    }

    /// Every source of the next addition; those in `through_new` come from the last feed.
    void serve(std::size_t next, unsigned through_new, Cents cost) {
        if (best_ && cost + paths_.paid() >= *best_) return;
        if (next == additions_.size()) {
            const auto gear = gear_cost();
            if (!gear) return;
            const Cents whole = cost + paths_.paid() + lit_cost() + *gear;
            if (!best_ || whole < *best_) best_ = whole;
            return;
        }
        const bool wants_new = (through_new >> next & 1U) != 0;
        for (Feed& feed : feeds_) {
            if (feed.is_new == wants_new) serve_from(feed, next, through_new, cost);
        }
    }

    void serve_from(Feed& feed, std::size_t next, unsigned through_new, Cents cost) {
        const Building& building = site_.buildings[additions_[next]];
        const int strands = strands_of(site_, links_of(building));
        if (feed.dark >= 0 && lit_in(feed.trunk) + strands > feed.dark) return;
        feed.lit += strands;
        from_[next] = {feed.building};
        const int need = strands + site_.rules.spare.drop_spare_least;
        for (const Path& path : paths_.between(feed.place, building.place)) {
            const auto own = cable(site_, need, strands, path.run);
            const auto light = own ? lights(feed, building, path, need, strands) : std::nullopt;
            if (!light) continue;
            if (paths_.lay(path)) serve(next + 1, through_new, cost + *own + *light);
            paths_.take_out(path);
        }
        feed.lit -= strands;
    }

    std::optional<Cents> lights(const Feed& feed, const Building& building, const Path& path, int need,
                                int strands) const {
        const std::int64_t length = glass(site_, need, strands, path.run) + feed.glass;
        const int splices = joints(site_, need, strands, path.run) + feed.splices +
                            (site_.rules.termination == Termination::spliced ? 2 : 0);
        Cents cost = 0;
        for (const LinkDemand& demand : building.links) {
            const auto one = link(site_, demand.rate, length, feed.hub || feed.building >= 0 ? 2 : 3, splices);
            if (!one) return std::nullopt;
            cost += *one * demand.count;
        }
        return cost;
    }

    /// Work on built trunks' strands that begin to carry light, and boxes for adapters that are lacking.
    Cents lit_cost() const {
        Cents cost = 0;
        for (const Feed& feed : feeds_) {
            if (feed.cut) cost += cost_at_cut(feed);
            if (feed.hub || feed.is_new || feed.building >= 0 || lit_in(feed.trunk) == 0) continue;
            if (feed.lit > 0) cost += work_on_strands(feed.lit);
            const int left = feed.dark - lit_in(feed.trunk);
            const int spare = std::min(feed.spare, left);
            const int headroom = std::min(std::max(0, feed.headroom - lit_in(feed.trunk)), left - spare);
            const int more = feed.lit + spare + headroom - feed.spare - feed.headroom;
            if (more > feed.adapters) cost += *enclosures(site_, more - feed.adapters);
        }
        return cost;
    }

    /// Strands that are lit in a built trunk, at its end and at a cut.
    int lit_in(int trunk) const {
        int lit = 0;
        for (const Feed& feed : feeds_)
            lit += feed.trunk == trunk ? feed.lit : 0;
        return lit;
    }

    Cents pigtails(int count) const {
        return (site_.catalogue.splicing.pigtail_price.thousandths() * count * 2 + 1000) / 2000;
    }

    Cents work_on_strands(int strands, int ends = 2) const {
        const SplicingPrices& splicing = site_.catalogue.splicing;
        if (site_.rules.termination == Termination::factory)
            return for_time(site_.labour.installer_rate, ends * site_.labour.plug_time.seconds() * strands);
        const std::int64_t end = splicing.set_up_time.seconds() + splicing.time_per_splice.seconds() * strands;
        return pigtails(ends * strands) + for_time(splicing.rate_per_hour, ends * end);
    }

    /// The box and what the place costs, every strand spliced, pigtails, the ends at the hub, and testing again.
    Cents cost_at_cut(const Feed& feed) const {
        const PlannedCable& trunk = built_.cables[static_cast<std::size_t>(feed.trunk)];
        const SplicingPrices& splicing = site_.catalogue.splicing;
        Cents cost =
            *enclosures(site_, feed.lit) + site_.places[static_cast<std::size_t>(feed.place)].enclosure_extra.minor() +
            for_time(splicing.rate_per_hour,
                     splicing.set_up_time.seconds() + splicing.time_per_splice.seconds() * product(trunk).strands) +
            pigtails(feed.lit) + work_on_strands(feed.lit, 1);
        for (const PlannedLink& link : built_.links) {
            if (std::count(link.cables.begin(), link.cables.end(), feed.trunk) > 0)
                cost += for_time(site_.labour.installer_rate, site_.labour.test_time.seconds() * link.strands);
        }
        return cost;
    }

    /// Every place that a trunk passes, for every set of additions.
    void try_cuts() {
        if (site_.catalogue.splicing.time_per_splice == WorkTime()) return;
        for (std::size_t f = 0, built = feeds_.size(); f < built; ++f) {
            if (feeds_[f].hub || feeds_[f].building >= 0) continue;
            const Feed whole = feeds_[f];
            const PlannedCable& trunk = built_.cables[static_cast<std::size_t>(whole.trunk)];
            PlaceIndex at = trunk.from;
            std::int64_t walked = 0;
            for (const Step& step : trunk.steps) {
                const Segment& segment = site_.segments[static_cast<std::size_t>(step.segment)];
                at = segment.from == at ? segment.to : segment.from;
                walked += segment.length.millimetres();
                const Place& place = site_.places[static_cast<std::size_t>(at)];
                if (at == trunk.to || !place.enclosure_allowed || has_enclosure(at)) continue;
                try_cut(whole, at, walked);
            }
        }
    }

    void try_cut(const Feed& whole, PlaceIndex at, std::int64_t walked) {
        const PlannedCable& trunk = built_.cables[static_cast<std::size_t>(whole.trunk)];
        Feed feed;
        feed.place = at;
        feed.is_new = feed.cut = true;
        feed.trunk = whole.trunk;
        feed.dark = whole.dark;
        feed.glass = whole.glass * walked / trunk.lengths.route.millimetres();
        feed.splices = 1 + (site_.rules.termination == Termination::spliced ? 1 : 0);
        for (unsigned through_new = 1; through_new < 1U << additions_.size(); ++through_new) {
            feeds_.push_back(feed);
            serve(0, through_new, 0);
            feeds_.pop_back();
        }
    }

    void try_new_enclosures() {
        for (unsigned through_new = 1; through_new < 1U << additions_.size(); ++through_new) {
            int in_use = 0;
            for (std::size_t i = 0; i < additions_.size(); ++i) {
                if ((through_new >> i & 1U) != 0) in_use += strands_of(site_, links_of(site_.buildings[additions_[i]]));
            }
            const int strands = trunk_strands(site_, in_use);
            const auto box = enclosures(site_, strands);
            if (!box) continue;
            for (std::size_t p = 0; p < site_.places.size(); ++p) {
                const auto place = static_cast<PlaceIndex>(p);
                if (site_.places[p].enclosure_allowed && !has_enclosure(place))
                    try_new_enclosure(place, through_new, in_use, *box + site_.places[p].enclosure_extra.minor());
            }
        }
    }

    bool has_enclosure(PlaceIndex place) const {
        return std::any_of(built_.enclosures.begin(), built_.enclosures.end(),
                           [place](const PlannedEnclosure& enclosure) { return enclosure.place == place; });
    }

    void try_new_enclosure(PlaceIndex place, unsigned through_new, int in_use, Cents box) {
        const int strands = trunk_strands(site_, in_use);
        for (const Path& path : paths_.between(site_.hub.place, place)) {
            const auto trunk = cable(site_, strands, in_use, path.run);
            if (!trunk) continue;
            Feed feed;
            feed.place = place;
            feed.is_new = true;
            feed.glass = glass(site_, strands, in_use, path.run);
            feed.splices =
                joints(site_, strands, in_use, path.run) + (site_.rules.termination == Termination::spliced ? 2 : 0);
            feeds_.push_back(feed);
            if (paths_.lay(path)) serve(0, through_new, *trunk + box);
            paths_.take_out(path);
            feeds_.pop_back();
        }
    }

    std::optional<Cents> total() const {
        if (!best_) return std::nullopt;
        return quoted(site_, *best_ + site_.labour.mobilisation.minor());
    }

    /// Where an addition's cable comes from, for the gear at its ends.
    struct From {
        int building = -1;  ///< That it hangs on; -1 from the hub or an enclosure.
    };

    void note_chain_ends() {
        from_.resize(additions_.size());
        if (built_.layout != LayoutKind::daisy_chain) return;
        const auto note = [&](BuildingIndex building) {
            Feed feed;
            feed.place = site_.buildings[static_cast<std::size_t>(building)].place;
            feed.building = building;
            feeds_.push_back(feed);
        };
        for (const auto& chain : built_.chains)
            note(chain.back());
        for (const std::size_t addition : additions_)
            note(static_cast<BuildingIndex>(addition));
    }

    /// How many buildings a chain has up to the one that an addition hangs on; nothing where that is no chain of the
    /// built plan's.
    std::optional<int> chain_up_to(int building, int steps = 0) const {
        if (steps > static_cast<int>(additions_.size())) return std::nullopt;
        for (const auto& chain : built_.chains) {
            if (chain.back() == building) return static_cast<int>(chain.size());
        }
        for (std::size_t i = 0; i < additions_.size(); ++i) {
            if (static_cast<int>(additions_[i]) != building || from_[i].building < 0) continue;
            const auto before = chain_up_to(from_[i].building, steps + 1);
            return before ? std::optional(*before + 1) : std::nullopt;
        }
        return std::nullopt;
    }

    /// Ports and the fastest rate of what hangs on a building.
    std::pair<int, BitRate> hanging_on(int building) const {
        std::pair<int, BitRate> sum{0, BitRate()};
        for (std::size_t i = 0; i < additions_.size(); ++i) {
            if (from_[i].building != building) continue;
            sum.first += links_of(site_.buildings[additions_[i]]);
            sum.second = std::max(sum.second, fastest(site_.buildings[additions_[i]]));
        }
        return sum;
    }

    /// Gear of the additions, at the hub, and larger gear at the ends of chains; nothing where there is none or the
    /// chains do not hold.
    std::optional<Cents> gear_cost() const {
        Cents cost = 0;
        int hub_ports = 0;
        BitRate rate;
        std::set<int> parents;
        for (std::size_t i = 0; i < additions_.size(); ++i) {
            const Building& building = site_.buildings[additions_[i]];
            rate = std::max(rate, fastest(building));
            hub_ports += from_[i].building < 0 ? links_of(building) : 0;
            const auto [ports, behind] = hanging_on(static_cast<int>(additions_[i]));
            const auto gear =
                building_gear(site_, building, links_of(building) + ports, std::max(fastest(building), behind));
            if (!gear) return std::nullopt;
            cost += *gear;
            if (from_[i].building < 0) continue;
            const auto before = chain_up_to(from_[i].building);
            if (!before || *before >= site_.rules.hop_limit) return std::nullopt;
            if (!parents.insert(from_[i].building).second) return std::nullopt;
        }
        for (const int parent : parents) {
            const auto more = cost_at_parent(parent);
            if (!more) return std::nullopt;
            cost += *more;
        }
        Scenario left = site_;
        for (const Pieces& pieces : built_.hub_gear)
            left.hub.free_optic_ports +=
                pieces.count * site_.catalogue.hub_gear[static_cast<std::size_t>(pieces.product)].optic_ports;
        left.hub.free_optic_ports -= built_.hub_ports;
        const auto hub = hub_ports == 0 ? std::optional<Cents>(0) : hub_gear(left, hub_ports, rate);
        if (!hub) return std::nullopt;
        return cost + *hub;
    }

    /// Nothing to pay where a built building has the ports; larger gear, and its links tested again, where links may be
    /// interrupted.
    std::optional<Cents> cost_at_parent(int parent) const {
        const auto gear = std::find_if(built_.building_gear.begin(), built_.building_gear.end(),
                                       [&](const PlannedGear& one) { return one.building == parent; });
        if (gear == built_.building_gear.end()) return 0;
        auto [ports, rate] = hanging_on(parent);
        Cents again = 0;
        for (const PlannedLink& link : built_.links) {
            if (link.building != parent && link.from != parent) continue;
            ++ports;
            rate = std::max(rate, link.rate);
            again += for_time(site_.labour.installer_rate, site_.labour.test_time.seconds() * link.strands);
        }
        const auto& product = site_.catalogue.building_gear[static_cast<std::size_t>(gear->pieces.product)];
        if (product.optic_ports >= ports && product.fastest_rate >= rate) return 0;
        if (links_ == Interrupting::no) return std::nullopt;
        const auto larger = building_gear(site_, site_.buildings[static_cast<std::size_t>(parent)], ports, rate);
        if (!larger) return std::nullopt;
        return *larger + again;
    }

    void note_insertion() {
        const auto inserted = best_insertion(site_, built_, site_.buildings[additions_.front()]);
        if (inserted && (!best_ || *inserted < *best_)) best_ = inserted;
    }

    const Scenario& site_;
    const Plan& built_;
    std::vector<std::size_t> additions_;
    OwnPaths paths_;
    std::vector<Feed> feeds_;
    std::optional<Cents> best_;
    std::vector<From> from_;  ///< Of each addition.
    Interrupting links_ = Interrupting::no;
};

}  // namespace

std::optional<Cents> best_extension(const Scenario& site, const Plan& built, Interrupting links) {
    return Search(site, built).run(links);
}

}  // namespace spadework::own
