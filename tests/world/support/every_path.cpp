#include "world/support/every_path.hpp"

#include <algorithm>

#include "world/support/own_paths.hpp"

namespace spadework::own {

namespace {

/// A path with what its cable costs and does to the light.
struct Laid {
    const Path* path = nullptr;
    Cents cost = 0;
    std::int64_t glass = 0;
    int splices = 0;
};

std::vector<Laid> laid_along(const Scenario& site, const std::vector<Path>& paths, int strands, int in_use) {
    std::vector<Laid> all;
    for (const Path& path : paths) {
        const auto cost = cable(site, strands, in_use, path.run);
        if (!cost) continue;
        const bool spliced = site.rules.termination == Termination::spliced;
        all.push_back({&path, *cost, glass(site, strands, in_use, path.run),
                       joints(site, strands, in_use, path.run) + (spliced ? 2 : 0)});
    }
    std::sort(all.begin(), all.end(), [](const Laid& a, const Laid& b) { return a.cost < b.cost; });
    return all;
}

class Search {
public:
    explicit Search(const Scenario& site) : site_(site), ground_(site, {}) {}

    std::optional<Cents> home_runs() {
        serve_from(site_.hub.place, nullptr, 0);
        return total();
    }

    std::optional<Cents> trunk() {
        int in_use = 0;
        for (const Building& building : site_.buildings)
            in_use += strands_of(site_, links_of(building));
        const int strands = trunk_strands(site_, in_use);
        const auto box = enclosures(site_, strands);
        if (!box) return std::nullopt;
        for (std::size_t p = 0; p < site_.places.size(); ++p) {
            if (!site_.places[p].enclosure_allowed) continue;
            const auto place = static_cast<PlaceIndex>(p);
            const auto paths = ground_.between(site_.hub.place, place);
            for (const Laid& laid : laid_along(site_, paths, strands, in_use)) {
                if (ground_.lay(*laid.path)) {
                    serve_from(place, &laid, laid.cost + *box + site_.places[p].enclosure_extra.minor());
                }
                ground_.take_out(*laid.path);
            }
        }
        return total();
    }

private:
    void serve_from(PlaceIndex from, const Laid* trunk, Cents cost) {
        std::vector<std::vector<Path>> paths;
        std::vector<std::vector<Laid>> choices;
        for (const Building& building : site_.buildings) {
            const int in_use = strands_of(site_, links_of(building));
            paths.push_back(ground_.between(from, building.place));
            choices.push_back(laid_along(site_, paths.back(), in_use + site_.rules.spare.drop_spare_least, in_use));
        }
        serve(choices, trunk, 0, cost);
    }

    void serve(const std::vector<std::vector<Laid>>& choices, const Laid* trunk, std::size_t b, Cents cost) {
        if (best_ && cost + ground_.paid() >= *best_) return;
        if (b == choices.size()) {
            best_ = cost + ground_.paid();
            return;
        }
        for (const Laid& own : choices[b]) {
            const auto light = links(b, own, trunk);
            if (!light) continue;
            if (ground_.lay(*own.path)) serve(choices, trunk, b + 1, cost + own.cost + *light);
            ground_.take_out(*own.path);
        }
    }

    std::optional<Cents> links(std::size_t b, const Laid& own, const Laid* trunk) const {
        Cents cost = 0;
        for (const LinkDemand& demand : site_.buildings[b].links) {
            const auto one = trunk == nullptr
                                 ? link(site_, demand.rate, own.glass, 2, own.splices)
                                 : link(site_, demand.rate, own.glass + trunk->glass, 3, own.splices + trunk->splices);
            if (!one) return std::nullopt;
            cost += *one * demand.count;
        }
        return cost;
    }

    std::optional<Cents> total() const {
        if (!best_) return std::nullopt;
        Cents direct = *best_ + site_.labour.mobilisation.minor();
        int ports = 0;
        BitRate rate;
        for (const Building& building : site_.buildings) {
            const auto gear = building_gear(site_, building, links_of(building), fastest(building));
            if (!gear) return std::nullopt;
            direct += *gear;
            ports += links_of(building);
            rate = std::max(rate, fastest(building));
        }
        const auto hub = hub_gear(site_, ports, rate);
        if (!hub) return std::nullopt;
        return quoted(site_, direct + *hub);
    }

    const Scenario& site_;
    OwnPaths ground_;  ///< Nothing is built yet.
    std::optional<Cents> best_;
};

}  // namespace

std::optional<Cents> best_home_runs_over_paths(const Scenario& site) {
    return Search(site).home_runs();
}

std::optional<Cents> best_trunk_with_one_enclosure_over_paths(const Scenario& site) {
    return Search(site).trunk();
}

}  // namespace spadework::own
