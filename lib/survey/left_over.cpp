#include "survey/left_over.hpp"

#include <algorithm>
#include <limits>
#include <set>
#include <tuple>

#include "geometry/nearest_stretch.hpp"

namespace spadework::survey {

namespace {

std::size_t as_index(int number) {
    return static_cast<std::size_t>(number);
}

StretchSearch search_in_part(const LineNetwork& network, const Parts& parts, int part, const LocalPlane& plane) {
    std::vector<Stretch> stretches;
    for (const Edge& edge : edges_of(network)) {
        if (parts.of_chain[as_index(edge.chain)] == part) stretches.push_back(network.on_plane(edge, plane));
    }
    return StretchSearch(std::move(stretches));
}

}  // namespace

std::vector<LeftOverPart> left_over_parts(const LineNetwork& network, const std::vector<Way>& ways, const Parts& parts,
                                          int hub_part, const LocalPlane& plane) {
    const StretchSearch search = search_in_part(network, parts, hub_part, plane);
    std::vector<LeftOverPart> left_over(parts.metres.size());
    std::vector<std::set<int>> ways_of_part(parts.metres.size());
    for (std::size_t part = 0; part < parts.metres.size(); ++part) {
        left_over[part].metres = parts.metres[part];
        left_over[part].metres_away = std::numeric_limits<double>::infinity();
    }
    for (const Edge& edge : edges_of(network)) {
        const int part = parts.of_chain[as_index(edge.chain)];
        if (part < 0 || part == hub_part) continue;
        LeftOverPart& whole = left_over[as_index(part)];
        const int way = network.chains[as_index(edge.chain)].way;
        ways_of_part[as_index(part)].insert(way);
        const auto nearest = search.nearest({network.on_plane(edge, plane)});
        if (!nearest || nearest->nearest.metres >= whole.metres_away) continue;
        whole.metres_away = nearest->nearest.metres;
        whole.way = ways[as_index(way)].id;
        whole.at = rounded_degrees(plane.from_plane(nearest->nearest.on_second));
    }
    for (std::size_t part = 0; part < left_over.size(); ++part)
        left_over[part].lines = static_cast<int>(ways_of_part[part].size());
    left_over.erase(left_over.begin() + hub_part);
    std::sort(left_over.begin(), left_over.end(), [](const LeftOverPart& a, const LeftOverPart& b) {
        return std::tie(b.metres, a.way) < std::tie(a.metres, b.way);
    });
    return left_over;
}

}  // namespace spadework::survey
