#pragma once

#include <cstdint>
#include <vector>

#include "geometry/plane_geometry.hpp"

namespace spadework {

/// A rectangle on a plane, in metres.
struct Box {
    double left = 0;
    double low = 0;
    double right = 0;
    double high = 0;
};

Box box_around(const Stretch& stretch);
Box box_around(const Box& a, const Box& b);
/// Distance between two rectangles; 0 where they touch or overlap.
double metres_apart(const Box& a, const Box& b);

/// A balanced tree of rectangles over stretches: each node halves its stretches at the middle of the longer side of its
/// rectangle. Built once, in n log n steps.
class BoxTree {
public:
    explicit BoxTree(const std::vector<Stretch>& stretches);

    /// Calls `visit(number)` for stretches in the order of how near their nodes are to `target`, leaving out those
    /// whose rectangle is farther than `visit` last returned. `visit` returns the distance beyond which nothing
    /// matters.
    template <typename Visit>
    void visit_near(const Box& target, Visit visit) const;

private:
    struct Node {
        Box box;
        std::int32_t first = 0;  ///< In order_.
        std::int32_t last = 0;   ///< One behind.
        std::int32_t left = -1;  ///< The children stand side by side; -1 in a leaf.
    };
    std::vector<std::int32_t> order_;
    std::vector<Box> boxes_;  ///< By number of the stretch.
    std::vector<Node> nodes_;
};

template <typename Visit>
void BoxTree::visit_near(const Box& target, Visit visit) const {
    if (nodes_.empty()) return;
    double limit = visit(-1);
    std::vector<std::int32_t> waiting = {0};
    while (!waiting.empty()) {
        const Node& node = nodes_[static_cast<std::size_t>(waiting.back())];
        waiting.pop_back();
        if (metres_apart(node.box, target) > limit) continue;
        if (node.left < 0) {
            for (std::int32_t i = node.first; i < node.last; ++i) {
                const std::int32_t stretch = order_[static_cast<std::size_t>(i)];
                if (metres_apart(boxes_[static_cast<std::size_t>(stretch)], target) <= limit) limit = visit(stretch);
            }
            continue;
        }
        const double to_left = metres_apart(nodes_[static_cast<std::size_t>(node.left)].box, target);
        const double to_right = metres_apart(nodes_[static_cast<std::size_t>(node.left) + 1].box, target);
        // The nearer child is taken first, off the back.
        const std::int32_t nearer = to_left <= to_right ? node.left : node.left + 1;
        waiting.push_back(nearer == node.left ? node.left + 1 : node.left);
        waiting.push_back(nearer);
    }
}

}  // namespace spadework
