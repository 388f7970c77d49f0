#include "geometry/nearest_stretch.hpp"

#include <tuple>

namespace spadework {

void improve_nearest(std::optional<NearestStretch>& best, std::size_t number, const Stretch& stretch,
                     const std::vector<Stretch>& sides) {
    for (const Stretch& side : sides) {
        const Nearest found = nearest_points(stretch, side);
        const bool is_nearer = !best || std::tie(found.metres, number, found.share) <
                                            std::tie(best->nearest.metres, best->stretch, best->nearest.share);
        if (is_nearer) best = NearestStretch{number, found};
    }
}

Box box_around(const std::vector<Stretch>& sides) {
    Box box = box_around(sides.front());
    for (const Stretch& side : sides)
        box = box_around(box, box_around(side));
    return box;
}

}  // namespace spadework
