#include "layout/enclosure_places.hpp"

namespace spadework {

std::vector<PlaceIndex> enclosure_places(const Scenario& scenario, const ShortestWays& from_hub) {
    std::vector<PlaceIndex> places;
    for (std::size_t p = 0; p < scenario.places.size(); ++p) {
        if (scenario.places[p].enclosure_allowed && from_hub.length[p]) places.push_back(static_cast<PlaceIndex>(p));
    }
    return places;
}

}  // namespace spadework
