#include "world/support/every_extension.hpp"

#include <algorithm>
#include <functional>
#include <map>
#include <set>

namespace spadework::own {

namespace {

using Passed = std::pair<int, int>;  ///< Segment and way.

struct Path {
    std::vector<Passed> steps;
    Run run;
};

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
    int trunk = -1;    ///< Of the built plan's feeds: number of the trunk that its strands are of.
    bool cut = false;  ///< At a cut of that trunk.
};

class Search {
public:
    Search(const Scenario& site, const Plan& built) : site_(site), built_(built) {
        note_ways();
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
        serve(0, 0, 0);
        const bool may_add = static_cast<int>(built_.enclosures.size()) < site_.rules.most_enclosures;
        if (links == Interrupting::allowed && may_add) try_cuts();
        if (static_cast<int>(built_.enclosures.size()) < site_.rules.most_enclosures) try_new_enclosures();
        return total();
    }

private:
    const CableProduct& product(const PlannedCable& cable) const {
        return site_.catalogue.cables[static_cast<std::size_t>(cable.product)];
    }

    void note_ways() {
        for (int s = 0; s < static_cast<int>(site_.segments.size()); ++s) {
            const auto choices = ways(site_, s);
            for (int w = 0; w < static_cast<int>(choices.size()); ++w)
                ways_[{s, w}] = {choices[static_cast<std::size_t>(w)], 0};
        }
        std::set<Passed> in_use;
        for (const PlannedCable& cable : built_.cables) {
            for (const Step& step : cable.steps) {
                OwnWay& way = ways_.at({step.segment, step.way}).first;
                if (way.room >= 0) way.room -= 1;
                in_use.insert({step.segment, step.way});
            }
        }
        for (const Passed& step : in_use) {
            OwnWay& way = ways_.at(step).first;
            const bool dug = way.method->kind != MethodKind::existing_duct && way.method->kind != MethodKind::pole_line;
            if (!dug) way.opening = 0;
        }
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

    std::vector<Path> paths_between(PlaceIndex from, PlaceIndex to) const {
        std::vector<Path> found;
        std::vector<bool> visited(site_.places.size(), false);
        const std::function<void(PlaceIndex, const Path&)> walk = [&](PlaceIndex at, const Path& path) {
            if (at == to) {
                found.push_back(path);
                return;
            }
            visited[static_cast<std::size_t>(at)] = true;
            for (const auto& [step, way] : ways_) {
                const Segment& segment = site_.segments[static_cast<std::size_t>(step.first)];
                if ((segment.from != at && segment.to != at) || way.first.room == 0) continue;
                const PlaceIndex next = segment.from == at ? segment.to : segment.from;
                if (visited[static_cast<std::size_t>(next)]) continue;
                Path longer = path;
                longer.steps.push_back(step);
                longer.run.add(segment, *way.first.method);
                const bool handhole = site_.places[static_cast<std::size_t>(next)].kind == PlaceKind::handhole;
                longer.run.handholes += handhole && next != to ? 1 : 0;
                walk(next, longer);
            }
            visited[static_cast<std::size_t>(at)] = false;
        };
        walk(from, {});
        return found;
    }

    /// Lays a cable; what it opens is paid now. False where a duct is over its room.
    bool lay(const Path& path) {
        bool fits = true;
        for (const Passed& step : path.steps) {
            auto& [way, cables] = ways_.at(step);
            if (++cables == 1) paid_ += way.opening;
            fits = fits && (way.room < 0 || cables <= way.room);
        }
        return fits;
    }
    void take_out(const Path& path) {
        for (const Passed& step : path.steps) {
            auto& [way, cables] = ways_.at(step);
            if (--cables == 0) paid_ -= way.opening;
        }
    }

    /// Every source of the next addition; those in `through_new` come from the last feed.
    void serve(std::size_t next, unsigned through_new, Cents cost) {
        if (best_ && cost + paid_ >= *best_) return;
        if (next == additions_.size()) {
            const Cents whole = cost + paid_ + lit_cost();
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
        const int need = strands + site_.rules.spare.drop_spare_least;
        for (const Path& path : paths_between(feed.place, building.place)) {
            const auto own = cable(site_, need, strands, path.run);
            const auto light = own ? lights(feed, building, path, need, strands) : std::nullopt;
            if (!light) continue;
            if (lay(path)) serve(next + 1, through_new, cost + *own + *light);
            take_out(path);
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
            const auto one = link(site_, demand.rate, length, feed.hub ? 2 : 3, splices);
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
            if (feed.hub || feed.is_new || lit_in(feed.trunk) == 0) continue;
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

    static Cents for_time(UnitPrice price, std::int64_t seconds) {
        return (price.thousandths() * seconds * 2 + 3'600'000) / 7'200'000;
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
            if (feeds_[f].hub) continue;
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
        for (const Path& path : paths_between(site_.hub.place, place)) {
            const auto trunk = cable(site_, strands, in_use, path.run);
            if (!trunk) continue;
            Feed feed;
            feed.place = place;
            feed.is_new = true;
            feed.glass = glass(site_, strands, in_use, path.run);
            feed.splices =
                joints(site_, strands, in_use, path.run) + (site_.rules.termination == Termination::spliced ? 2 : 0);
            feeds_.push_back(feed);
            if (lay(path)) serve(0, through_new, *trunk + box);
            take_out(path);
            feeds_.pop_back();
        }
    }

    std::optional<Cents> total() const {
        if (!best_) return std::nullopt;
        Cents direct = *best_ + site_.labour.mobilisation.minor();
        int ports = 0;
        BitRate rate;
        for (const std::size_t b : additions_) {
            const Building& building = site_.buildings[b];
            const auto gear = building_gear(site_, building, links_of(building), fastest(building));
            if (!gear) return std::nullopt;
            direct += *gear;
            ports += links_of(building);
            rate = std::max(rate, fastest(building));
        }
        Scenario left = site_;
        for (const Pieces& pieces : built_.hub_gear)
            left.hub.free_optic_ports +=
                pieces.count * site_.catalogue.hub_gear[static_cast<std::size_t>(pieces.product)].optic_ports;
        left.hub.free_optic_ports -= static_cast<int>(built_.links.size());
        const auto hub = hub_gear(left, ports, rate);
        if (!hub) return std::nullopt;
        return quoted(site_, direct + *hub);
    }

    const Scenario& site_;
    const Plan& built_;
    std::vector<std::size_t> additions_;
    std::map<Passed, std::pair<OwnWay, int>> ways_;
    std::vector<Feed> feeds_;
    Cents paid_ = 0;
    std::optional<Cents> best_;
};

}  // namespace

std::optional<Cents> best_extension(const Scenario& site, const Plan& built, Interrupting links) {
    return Search(site, built).run(links);
}

}  // namespace spadework::own
