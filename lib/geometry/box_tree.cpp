#include "geometry/box_tree.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <tuple>

namespace spadework {

Box box_around(const Stretch& stretch) {
    return {std::min(stretch.from.x, stretch.to.x), std::min(stretch.from.y, stretch.to.y),
            std::max(stretch.from.x, stretch.to.x), std::max(stretch.from.y, stretch.to.y)};
}

Box box_around(const Box& a, const Box& b) {
    return {std::min(a.left, b.left), std::min(a.low, b.low), std::max(a.right, b.right), std::max(a.high, b.high)};
}

double metres_apart(const Box& a, const Box& b) {
    const double east = std::max({a.left - b.right, b.left - a.right, 0.0});
    const double north = std::max({a.low - b.high, b.low - a.high, 0.0});
    return std::hypot(east, north);
}

BoxTree::BoxTree(const std::vector<Stretch>& stretches) : order_(stretches.size()) {
    if (stretches.empty()) return;
    constexpr std::int32_t most_in_leaf = 8;
    std::iota(order_.begin(), order_.end(), 0);
    for (const Stretch& stretch : stretches)
        boxes_.push_back(box_around(stretch));
    nodes_.push_back({{}, 0, static_cast<std::int32_t>(order_.size()), -1});
    for (std::size_t number = 0; number < nodes_.size(); ++number) {
        Node node = nodes_[number];
        const auto first = order_.begin() + node.first;
        const auto last = order_.begin() + node.last;
        const auto box_of = [this](std::int32_t stretch) { return boxes_[static_cast<std::size_t>(stretch)]; };
        node.box = box_of(*first);
        for (auto it = first; it != last; ++it)
            node.box = box_around(node.box, box_of(*it));
        if (node.last - node.first > most_in_leaf) {
            const bool wide = node.box.right - node.box.left > node.box.high - node.box.low;
            const auto key = [&](std::int32_t stretch) {
                const Box box = box_of(stretch);
                return std::make_tuple(wide ? box.left + box.right : box.low + box.high, stretch);
            };
            const std::int32_t middle = node.first + (node.last - node.first) / 2;
            std::nth_element(first, order_.begin() + middle, last,
                             [&](std::int32_t a, std::int32_t b) { return key(a) < key(b); });
            node.left = static_cast<std::int32_t>(nodes_.size());
            nodes_.push_back({{}, node.first, middle, -1});
            nodes_.push_back({{}, middle, node.last, -1});
        }
        nodes_[number] = node;
    }
}

}  // namespace spadework
