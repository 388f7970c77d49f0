#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "geometry/box_tree.hpp"
#include "geometry/plane_geometry.hpp"

namespace spadework {

/// The stretch found nearest to an outline, and where the two come nearest.
struct NearestStretch {
    std::size_t stretch = 0;
    Nearest nearest;  ///< Its first point lies on the stretch, its second on the outline.
};

/// Finds the stretch nearest to an outline on a plane. Equal distances go to the lower stretch, then to its earlier
/// point.
class StretchSearch {
public:
    explicit StretchSearch(std::vector<Stretch> stretches) : stretches_(std::move(stretches)), tree_(stretches_) {}

    /// Nearest of those that `may_use(number)` takes, to the sides of an outline; nothing where none is left.
    template <typename MayUse>
    [[nodiscard]] std::optional<NearestStretch> nearest(const std::vector<Stretch>& sides, MayUse may_use) const;
    [[nodiscard]] std::optional<NearestStretch> nearest(const std::vector<Stretch>& sides) const {
        return nearest(sides, [](std::size_t) { return true; });
    }

    [[nodiscard]] const std::vector<Stretch>& stretches() const { return stretches_; }
    [[nodiscard]] const BoxTree& tree() const { return tree_; }

private:
    std::vector<Stretch> stretches_;
    BoxTree tree_;
};

/// Puts the nearest point of the stretch to the sides into `best` if it is nearer than what stands there.
void improve_nearest(std::optional<NearestStretch>& best, std::size_t number, const Stretch& stretch,
                     const std::vector<Stretch>& sides);

/// Rectangle around all the sides; there must be one.
Box box_around(const std::vector<Stretch>& sides);

template <typename MayUse>
std::optional<NearestStretch> StretchSearch::nearest(const std::vector<Stretch>& sides, MayUse may_use) const {
    if (stretches_.empty() || sides.empty()) return std::nullopt;
    std::optional<NearestStretch> best;
    const auto farthest = [&best] { return best ? best->nearest.metres : std::numeric_limits<double>::infinity(); };
    tree_.visit_near(box_around(sides), [&](std::int32_t number) {
        if (number < 0) return farthest();
        const auto stretch = static_cast<std::size_t>(number);
        if (may_use(stretch)) improve_nearest(best, stretch, stretches_[stretch], sides);
        return farthest();
    });
    return best;
}

}  // namespace spadework
