#include "graph/steiner_round.hpp"

#include <algorithm>
#include <optional>

namespace spadework::graph::steiner {

namespace {

/// A small generator whose numbers are the same everywhere.
class Dice {
public:
    Dice(int round, std::size_t stream)
        : state_(0x9e3779b97f4a7c15ULL * (1000 * static_cast<std::uint64_t>(round) + stream + 1)) {
        below(1);
    }
    std::uint64_t below(std::uint64_t count) {
        state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;
        return (state_ >> 33) % count;
    }

private:
    std::uint64_t state_;
};

std::vector<VertexId> some_terminals(const Network& network, std::size_t count, int round) {
    const std::vector<VertexId>& terminals = network.terminals();
    std::vector<VertexId> chosen;
    Dice dice(round, 500);
    for (std::size_t i = 0; i < std::min(count, terminals.size()); ++i) {
        const VertexId t = terminals[dice.below(terminals.size())];
        if (std::find(chosen.begin(), chosen.end(), t) == chosen.end()) chosen.push_back(t);
    }
    return chosen;
}

/// Costs of the edges that the ascent left nothing of, in one direction at least; the others barred.
std::vector<Cost> costs_of_used_up(const Network& network, const Ascent& ascent) {
    std::vector<Cost> lengths(network.half_count(), kFar);
    for (std::int32_t h = 0; h < network.half_count(); ++h) {
        if (ascent.rest[h] == 0 || ascent.rest[network.half(h).twin] == 0) lengths[h] = network.half(h).cost;
    }
    return lengths;
}

/// Costs raised by up to `most` of 256 parts.
std::vector<Cost> varied_costs(const Network& network, std::uint64_t most, Dice dice) {
    std::vector<Cost> lengths(network.half_count());
    for (std::int32_t h = 0; h < network.half_count(); ++h) {
        const Half& half = network.half(h);
        const auto parts = static_cast<Cost>(dice.below(most));
        lengths[h] =
            half.twin < h ? lengths[half.twin] : half.cost + half.cost / 256 * parts + half.cost % 256 * parts / 256;
    }
    return lengths;
}

std::vector<char> marks_of(const Network& network, const Tree& tree) {
    std::vector<char> marks(network.half_count(), 0);
    for (const std::int32_t h : tree.halves)
        marks[h] = marks[network.half(h).twin] = 1;
    return marks;
}

}  // namespace

Round work_round(const Network& network, const Tree& guide, int number, const RoundSize& size, WorkerTeam& team,
                 const std::function<bool(std::size_t worker)>& stop) {
    const std::vector<VertexId> roots = some_terminals(network, size.roots, number);
    const std::vector<char> marks = marks_of(network, guide);
    const std::size_t each = 1 + size.varied_trees;
    Round round;
    round.ascents.resize(roots.size());
    std::vector<std::optional<Tree>> trees(each * roots.size());
    team.run(roots.size(), 1, [&](std::size_t i, std::size_t worker) {
        const auto stop_here = [&] { return stop(worker); };
        AscentChoice choice;
        choice.root = roots[i];
        choice.stop = stop_here;
        if (i % 2 == 1 && !guide.halves.empty()) choice.guide = marks;
        round.ascents[i] = ascend(network, choice);
        for (std::size_t j = 0; j < each && !stop_here(); ++j) {
            trees[each * i + j] = joined_by_nearest(network, roots[i],
                                                    j == 0 ? costs_of_used_up(network, round.ascents[i])
                                                           : varied_costs(network, 64 * j, Dice(number, each * i + j)));
            if (trees[each * i + j]) exchange_paths(network, *trees[each * i + j], stop_here);
        }
    });
    for (std::size_t i = 0; i < trees.size(); ++i) {
        if (i % each == 0) round.first_tree_of.push_back(trees[i] ? static_cast<std::int32_t>(round.trees.size()) : -1);
        if (trees[i]) round.trees.push_back(std::move(*trees[i]));
    }
    return round;
}

}  // namespace spadework::graph::steiner
