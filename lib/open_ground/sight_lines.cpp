#include "open_ground/sight_lines.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>

namespace spadework::open_ground {

namespace {

constexpr std::size_t most_looked_at = 60;  ///< Of the nearest gates and corners.
constexpr int most_in_sight = 12;           ///< Lines from one gate to others, and as many again to corners.
constexpr int most_on_the_way = 6;          ///< Lines from one gate to cuts along segments.
constexpr std::size_t few_terminals = 40;
/// Borders that bend less than this, as the sine of the angle, have no corner.
constexpr double least_bend = 0.02;

double turn(const Position& origin, const Position& a, const Position& b) {
    return (a.x - origin.x) * (b.y - origin.y) - (a.y - origin.y) * (b.x - origin.x);
}

double metres(const Position& a, const Position& b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

/// A corner of a border, with its neighbours.
struct Bend {
    Position before;
    Position at;
    Position after;
};

/// Something that sight lines run between.
struct Node {
    PlaceIndex place = 0;
    Position at;
    bool on_the_way = false;
    bool terminal = false;
    std::optional<Bend> bend;
};

bool runs_left_about(const std::vector<Position>& ring) {
    double twice = 0;
    for (std::size_t i = 0; i < ring.size(); ++i)
        twice += turn(ring.front(), ring[i], ring[(i + 1) % ring.size()]);
    return twice > 0;
}

/// Corners that a taut string may bend around: those that stick out of a ring that is kept out of, and those that stick
/// into a ring that is kept inside of.
void collect_bends(const std::vector<Position>& ring, bool kept_out, std::vector<Bend>& bends) {
    const double outward = runs_left_about(ring) == kept_out ? 1 : -1;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Bend bend{ring[(i + ring.size() - 1) % ring.size()], ring[i], ring[(i + 1) % ring.size()]};
        const double sides = metres(bend.before, bend.at) * metres(bend.at, bend.after);
        if (outward * turn(bend.before, bend.at, bend.after) > least_bend * sides) bends.push_back(bend);
    }
}

std::vector<Bend> bends_of(const MapSheet& sheet) {
    std::vector<Bend> bends;
    for (std::size_t i = 0; i < sheet.scenario().areas.size(); ++i) {
        const AreaUse use = sheet.scenario().areas[i].use;
        if (use == AreaUse::overlay) continue;
        const auto& rings = sheet.ground().rings(static_cast<int>(i));
        for (std::size_t ring = 0; ring < rings.size(); ++ring)
            collect_bends(rings[ring], (use == AreaUse::obstacle) == (ring == 0), bends);
    }
    return bends;
}

/// Whether a line from a point to a corner passes it without running into the border there.
bool touches(const Position& from, const Node& node) {
    if (!node.bend) return true;
    const double before = turn(from, node.at, node.bend->before);
    const double after = turn(from, node.at, node.bend->after);
    const double sure = 1e-9 * metres(from, node.at);
    return !(before > sure && after < -sure) && !(before < -sure && after > sure);
}

class SightLines {
public:
    SightLines(MapSheet& sheet, const std::vector<Gate>& gates, Lattice& lattice) : sheet_(sheet), lattice_(lattice) {
        for (const Gate& gate : gates)
            nodes_.push_back({gate.place, sheet.at(gate.place), gate.on_the_way, gate.terminal, {}});
        add_corners();
    }

    void run() {
        look_around_terminals();
        for (std::size_t i = 0; i < nodes_.size(); ++i) {
            if (!nodes_[i].on_the_way) look_around(i);
        }
        for (const Node& node : nodes_)
            lattice_.join(node.place);
    }

private:
    void add_corners() {
        const std::size_t gates = nodes_.size();
        for (const Bend& bend : bends_of(sheet_)) {
            const Zone zone = sheet_.ground().zone_at(bend.at);
            if (!zone.may_be_dug()) continue;
            const auto is_there = [&bend](const Node& node) { return metres(node.at, bend.at) < least_piece_metres; };
            if (std::any_of(nodes_.begin(), nodes_.end(), is_there)) continue;
            const std::string& area = sheet_.scenario().areas[static_cast<std::size_t>(zone.open)].id;
            const PlaceIndex place =
                sheet_.add_place(fmt::format("{} corner {}", area, nodes_.size() - gates + 1), bend.at);
            nodes_.push_back({place, bend.at, false, false, bend});
        }
    }

    void look_around_terminals() {
        std::vector<std::size_t> terminals;
        for (std::size_t i = 0; i < nodes_.size(); ++i) {
            if (nodes_[i].terminal) terminals.push_back(i);
        }
        if (terminals.size() > few_terminals) return;
        for (std::size_t a = 0; a < terminals.size(); ++a) {
            for (std::size_t b = a + 1; b < terminals.size(); ++b)
                sheet_.add_line(nodes_[terminals[a]].place, nodes_[terminals[b]].place);
        }
    }

    /// Numbers of the nearest nodes, nearest first.
    [[nodiscard]] std::vector<std::size_t> nearest_to(std::size_t node) const {
        std::vector<std::pair<double, std::size_t>> by_distance;
        for (std::size_t i = 0; i < nodes_.size(); ++i) {
            if (i != node) by_distance.emplace_back(metres(nodes_[node].at, nodes_[i].at), i);
        }
        const std::size_t count = std::min(most_looked_at, by_distance.size());
        std::partial_sort(by_distance.begin(), by_distance.begin() + static_cast<std::ptrdiff_t>(count),
                          by_distance.end());
        std::vector<std::size_t> nearest;
        for (std::size_t i = 0; i < count; ++i)
            nearest.push_back(by_distance[i].second);
        return nearest;
    }

    void look_around(std::size_t node) {
        const Node& from = nodes_[node];
        int gates = most_in_sight;
        int corners = most_in_sight;
        int on_the_way = most_on_the_way;
        for (const std::size_t other : nearest_to(node)) {
            const Node& to = nodes_[other];
            int& left = to.bend ? corners : to.on_the_way ? on_the_way : gates;
            if (left == 0 || !touches(from.at, to) || !touches(to.at, from)) continue;
            if (sheet_.add_line(from.place, to.place)) --left;
        }
    }

    MapSheet& sheet_;
    Lattice& lattice_;
    std::vector<Node> nodes_;
};

}  // namespace

void add_sight_lines(MapSheet& sheet, const std::vector<Gate>& gates, Lattice& lattice) {
    SightLines(sheet, gates, lattice).run();
}

}  // namespace spadework::open_ground
