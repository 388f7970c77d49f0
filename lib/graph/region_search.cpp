#include "graph/region_search.hpp"

#include <algorithm>
#include <array>

#include "graph/cheapest_way.hpp"
#include "graph/key_path_exchange.hpp"
#include "graph/key_path_search.hpp"

namespace spadework::graph {

namespace {

constexpr std::size_t kMostBelow = 400;  ///< Larger parts are left to the search over all key paths.
constexpr double kWorthIt = 1e-9;

/// Whole numbers without rhyme; the same seed gives the same ones. Steele, Lea, Flood, "Fast splittable pseudorandom
/// number generators" (2014).
class Dice {
public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}
    std::uint64_t roll() {
        state_ += 0x9E3779B97F4A7C15ULL;
        return mixed(state_);
    }
    std::size_t below(std::size_t end) { return roll() % end; }
    static std::uint64_t mixed(std::uint64_t z) {
        z = (z ^ (z >> 30U)) * 0xBF58476D1CE4E5B9ULL;
        z = (z ^ (z >> 27U)) * 0x94D049BB133111EBULL;
        return z ^ (z >> 31U);
    }

private:
    std::uint64_t state_;
};

class RegionSearch {
public:
    RegionSearch(const SearchNetwork& network, const RegionGuide& guide, const TreeFound& from, std::uint64_t seed)
        : network_(network),
          guide_(guide),
          dice_(seed),
          tree_(network, from.tree),
          exchange_(network, guide.to_root, tree_),
          way_(network, guide.to_root),
          tried_in_(network.vertex_count, 0) {}

    void try_region() {
        choose_region();
        double gain = 0.0;
        tree_.remember();
        active_.clear();
        for (const std::int32_t d : region_)
            gain += take_out(d);
        for (const std::int32_t d : region_)
            gain -= put_in(d);
        gain += exchange_around();
        if (gain <= kWorthIt * scale_) tree_.take_back();
    }

    [[nodiscard]] RouteTree take() const { return tree_.plain(); }

private:
    void choose_region() {
        static constexpr std::array<double, 3> kDiscounts{0.0, 0.5, 0.9};
        const std::vector<std::int32_t>& around = guide_.neighbours[dice_.below(guide_.neighbours.size())];
        const std::size_t size = std::min(around.size(), 2 + dice_.below(around.size()));
        region_.assign(around.begin(), around.begin() + static_cast<std::ptrdiff_t>(size));
        for (std::size_t i = region_.size(); i > 1; --i)
            std::swap(region_[i - 1], region_[dice_.below(i)]);
        discount_ = kDiscounts[dice_.below(kDiscounts.size())];
        noise_ = dice_.below(2) == 0 ? 0.0 : 0.3;
        noise_seed_ = dice_.roll();
    }

    /// Returns what the demand no longer pays, and the openings saved.
    double take_out(std::int32_t demand) {
        const double paid = charge(network_.rate[demand], tree_.at(network_.demand_at[demand]).from_root);
        scale_ = 1.0 + paid;
        return paid + tree_.take_out(demand);
    }

    /// Returns what the demand pays now, new openings included.
    double put_in(std::int32_t demand) {
        const VertexId at = network_.demand_at[demand];
        way_.find(
            at, network_.rate[demand], [this](VertexId v) { return tree_.holds(v); },
            [this](VertexId v) { return tree_.at(v).from_root; }, [this](EdgeId e, VertexId) { return disturbed(e); });
        tree_.put_in(demand, way_.way(), way_.edges());
        active_.push_back(at);
        active_.push_back(way_.way().front());
        double cost = charge(network_.rate[demand], tree_.at(at).from_root);
        for (const EdgeId e : way_.edges())
            cost += network_.opening[e];
        return cost;
    }

    [[nodiscard]] double disturbed(EdgeId e) const {
        const double share = 1.0 - discount_ * std::min(guide_.edge_use[e], 1.0);
        if (noise_ == 0.0) return network_.opening[e] * share;
        const auto random = static_cast<double>(Dice::mixed(noise_seed_ + static_cast<std::uint64_t>(e)) >> 11U);
        return network_.opening[e] * share * (1.0 - noise_ * random * 0x1p-53);
    }

    /// Exchanges the next two key paths above each place where routes were put back, each path once.
    double exchange_around() {
        double gain = 0.0;
        ++round_;
        for (VertexId v : active_) {
            for (int climbed = 0; climbed < 2 && tree_.holds(v); ++climbed) {
                while (v != tree_.root() && !tree_.is_key(v))
                    v = tree_.parent(v);
                if (v == tree_.root() || tried_in_[v] == round_) break;
                tried_in_[v] = round_;
                const VertexId above = tree_.parent(v);
                gain += exchange_.exchange_above(v, kMostBelow);
                v = above;
            }
        }
        return gain;
    }

    const SearchNetwork& network_;
    const RegionGuide& guide_;
    Dice dice_;
    LiveTree tree_;
    KeyPathExchange exchange_;
    CheapestWay way_;
    std::vector<std::int32_t> region_;
    std::vector<VertexId> active_;         ///< Where routes were put back.
    std::vector<std::uint32_t> tried_in_;  ///< For each vertex the last try in which its key path was looked at.
    std::uint32_t round_ = 0;
    double discount_ = 0.0;
    double noise_ = 0.0;
    std::uint64_t noise_seed_ = 0;
    double scale_ = 1.0;
};

}  // namespace

Neighbours nearest_demands(const SearchNetwork& network, std::size_t most) {
    std::vector<std::vector<std::int32_t>> demands_at(network.vertex_count);
    for (std::size_t d = 0; d < network.demand_at.size(); ++d)
        demands_at[network.demand_at[d]].push_back(static_cast<std::int32_t>(d));
    std::vector<double> label(network.vertex_count, -1.0);
    LabelHeap<double> queue(network.vertex_count);
    std::vector<VertexId> met;
    Neighbours neighbours;
    for (const VertexId start : network.demand_at) {
        std::vector<std::int32_t>& near = neighbours.emplace_back();
        label[start] = 0.0;
        met.assign(1, start);
        for (queue.push_or_lower(start, 0.0); !queue.empty() && near.size() < most;) {
            const VertexId here = queue.pop();
            near.insert(near.end(), demands_at[here].begin(), demands_at[here].end());
            for (const Step& step : network.steps.from(here)) {
                const double along = label[here] + network.opening[step.edge];
                if (label[step.to] >= 0.0 && along >= label[step.to]) continue;
                if (label[step.to] < 0.0) met.push_back(step.to);
                label[step.to] = along;
                queue.push_or_lower(step.to, along);
            }
        }
        queue.clear();
        for (const VertexId v : met)
            label[v] = -1.0;
    }
    return neighbours;
}

TreeFound with_regions_rebuilt(const SearchNetwork& network, const RegionGuide& guide, const TreeFound& from,
                               std::size_t tries, std::uint64_t seed) {
    RegionSearch search(network, guide, from, seed);
    for (std::size_t i = 0; i < tries; ++i)
        search.try_region();
    RouteTree tree = search.take();
    exchange_key_paths(network, guide.to_root, tree);
    const double root_part = from.cost - from.tree.cost(network, network.opening);
    const double cost = root_part + tree.cost(network, network.opening);
    if (cost >= from.cost) return from;
    return {std::move(tree), cost};
}

}  // namespace spadework::graph
