#include "support/street_map.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <stdexcept>

namespace spadework::bench {

namespace {

constexpr int kAccessSegments = 4;     // From the hub to the first street.
constexpr int kSpurSegments = 3;       // One more piece of a side, side to yard, yard to building.
constexpr int kSecondWaySegments = 2;  // One more piece of another side, side to yard.
constexpr int kSecondWayPercent = 35;  // Buildings reached from two sides.
constexpr int kPiecesOfASide = 3;
constexpr int kMissingPercent = 12;  // Segments of sides and crossings that are not there.
constexpr int kMainStreetEvery = 7;  // Rows or columns of blocks between main roads.
constexpr int kBlocksAPatch = 14;
constexpr int kHandholePercent = 30;
constexpr std::array kPatchGrounds = {"verge", "paving", "paving", "asphalt path", "park", "verge"};

struct Block {
    int south_west = 0, south_east = 0, north_east = 0, north_west = 0;  ///< Places.
    const char* ground = "";
    int sides[2] = {-1, -1};  ///< Ways along the south and the north.
};

/// A side of a block, or a crossing from one to the next.
struct Way {
    int from = 0;
    int to = 0;
    const char* ground = "";
    int charge = 0;
    bool is_side = false;
    int pieces = 1;   ///< Segments it becomes; 0 when it is left out.
    int middle = -1;  ///< Segment in the middle, where a building's spur begins.
};

/// Which places hang together.
class Parts {
public:
    explicit Parts(std::size_t count) : above_(count) { std::iota(above_.begin(), above_.end(), 0); }
    /// False when they hung together before.
    bool join(int a, int b) {
        const int top_a = top(a), top_b = top(b);
        above_[top_b] = top_a;
        return top_a != top_b;
    }

private:
    int top(int of) {
        while (above_[of] != of)
            of = above_[of] = above_[above_[of]];
        return of;
    }
    std::vector<int> above_;
};

struct Grid {
    int columns = 2;
    int rows = 2;
    /// Pieces of the sides of all blocks, and two crossings between neighbours.
    [[nodiscard]] int segments() const {
        return 4 * kPiecesOfASide * columns * rows + 2 * (columns - 1) * rows + 2 * columns * (rows - 1);
    }
};

/// The smallest grid, about three blocks wide for two deep, with at least so many segments.
Grid grid_for(int segments) {
    Grid grid;
    while (grid.segments() < segments) {
        if (2 * grid.columns <= 3 * grid.rows) {
            ++grid.columns;
        } else {
            ++grid.rows;
        }
    }
    return grid;
}

/// Where blocks begin and end along one direction, in decimetres.
struct Spans {
    std::vector<std::int64_t> low, high;
};
bool main_road_behind(int block) {
    return block % kMainStreetEvery == kMainStreetEvery / 2;
}
Spans spans(Dice& dice, int blocks, std::int64_t shortest_dm, std::int64_t longest_dm) {
    Spans spans;
    std::int64_t at = 0;
    for (int i = 0; i < blocks; ++i) {
        const std::int64_t size = dice.between(shortest_dm, longest_dm);
        spans.low.push_back(at);
        spans.high.push_back(at + size);
        at += size + (main_road_behind(i) ? dice.between(180, 240) : dice.between(100, 150));
    }
    return spans;
}

class MapMaker {
public:
    MapMaker(const SiteSize& size, Dice& dice) : size_(size), dice_(dice) {}

    StreetMap make() {
        decide_spurs();
        lay_blocks();
        lay_crossings();
        choose_homes();
        drop_ways();
        lay_segments();
        for (int b = 0; b < size_.buildings; ++b)
            add_building(b);
        add_access_road();
        return std::move(map_);
    }

private:
    void decide_spurs() {
        street_segments_ = size_.segments - kAccessSegments;
        for (int b = 0; b < size_.buildings; ++b) {
            has_second_way_.push_back(dice_.chance(kSecondWayPercent));
            street_segments_ -= kSpurSegments + (has_second_way_.back() ? kSecondWaySegments : 0);
        }
        grid_ = grid_for(street_segments_ * 100 / (100 - kMissingPercent));
    }

    int add_place(MapPlaceKind kind, std::int64_t x_dm, std::int64_t y_dm) {
        map_.places.push_back({kind, x_dm, y_dm, 0});
        return static_cast<int>(map_.places.size()) - 1;
    }

    int add_segment(int from, int to, const char* ground, int charge = 0) {
        map_.segments.push_back({from, to, ground, charge});
        return static_cast<int>(map_.segments.size()) - 1;
    }

    int add_side(int from, int to, const char* ground) {
        ways_.push_back({from, to, ground, 0, true, kPiecesOfASide});
        return static_cast<int>(ways_.size()) - 1;
    }

    int add_corner(std::int64_t x_dm, std::int64_t y_dm) {
        const MapPlaceKind kind = dice_.chance(kHandholePercent) ? MapPlaceKind::handhole : MapPlaceKind::junction;
        x_dm += dice_.between(-30, 30);
        y_dm += dice_.between(-30, 30);
        const int corner = add_place(kind, x_dm, y_dm);
        if (kind == MapPlaceKind::handhole && dice_.chance(15)) map_.places.back().enclosure_extra = 260;
        return corner;
    }

    /// Each block takes the ground of the nearest of some points thrown on the map.
    const char* patch_ground(int column, int row) const {
        const auto distance = [&](const Patch& patch) {
            const std::int64_t dx = patch.column - 10 * column, dy = patch.row - 10 * row;
            return dx * dx + dy * dy;
        };
        const auto nearer = [&](const Patch& a, const Patch& b) { return distance(a) < distance(b); };
        return std::min_element(patches_.begin(), patches_.end(), nearer)->ground;
    }

    void lay_blocks() {
        for (int p = 0; p <= grid_.columns * grid_.rows / kBlocksAPatch; ++p) {
            patches_.push_back({dice_.between(0, 10 * grid_.columns), dice_.between(0, 10 * grid_.rows),
                                kPatchGrounds[static_cast<std::size_t>(dice_.between(0, kPatchGrounds.size() - 1))]});
        }
        const Spans across = spans(dice_, grid_.columns, 900, 1300), up = spans(dice_, grid_.rows, 650, 1000);
        for (int row = 0; row < grid_.rows; ++row) {
            for (int column = 0; column < grid_.columns; ++column) {
                const std::int64_t west = across.low[column], east = across.high[column];
                const std::int64_t south = up.low[row], north = up.high[row];
                Block block{add_corner(west, south), add_corner(east, south), add_corner(east, north),
                            add_corner(west, north), patch_ground(column, row)};
                block.sides[0] = add_side(block.south_west, block.south_east, block.ground);
                block.sides[1] = add_side(block.north_west, block.north_east, block.ground);
                add_side(block.south_west, block.north_west, block.ground);
                add_side(block.south_east, block.north_east, block.ground);
                blocks_.push_back(block);
            }
        }
    }

    void cross(int from, int to, bool main_road) {
        ways_.push_back({from, to, main_road ? "main road" : "street", main_road ? 380 : 0, false, 1});
    }

    void lay_crossings() {
        for (int row = 0; row < grid_.rows; ++row) {
            for (int column = 0; column < grid_.columns; ++column) {
                const int at = row * grid_.columns + column;
                if (column + 1 < grid_.columns) {
                    cross(blocks_[at].south_east, blocks_[at + 1].south_west, main_road_behind(column));
                    cross(blocks_[at].north_east, blocks_[at + 1].north_west, main_road_behind(column));
                }
                if (row + 1 < grid_.rows) {
                    const Block& above = blocks_[at + grid_.columns];
                    cross(blocks_[at].north_west, above.south_west, main_road_behind(row));
                    cross(blocks_[at].north_east, above.south_east, main_road_behind(row));
                }
            }
        }
    }

    /// Blocks for the buildings: all different where there are enough.
    void choose_homes() {
        std::vector<int> order(blocks_.size());
        std::iota(order.begin(), order.end(), 0);
        dice_.shuffle(order);
        for (int b = 0; b < size_.buildings; ++b)
            homes_.push_back(order[static_cast<std::size_t>(b) % order.size()]);
    }

    /// Leaves out ways until the count of segments is about right; what is left hangs together, and blocks with
    /// buildings keep the sides that buildings are reached from.
    void drop_ways() {
        std::vector<char> needed(ways_.size(), 0);
        Parts parts(map_.places.size());
        for (const int home : homes_) {
            for (const int side : blocks_[home].sides) {
                parts.join(ways_[side].from, ways_[side].to);
                needed[side] = 1;
            }
        }
        std::vector<int> order(ways_.size());
        std::iota(order.begin(), order.end(), 0);
        dice_.shuffle(order);
        int count = 0;
        for (const int w : order) {
            if (parts.join(ways_[w].from, ways_[w].to)) needed[w] = 1;
            count += ways_[w].pieces;
        }
        for (const int w : order) {
            if (needed[w] || count <= street_segments_) continue;
            count -= ways_[w].pieces;
            ways_[w].pieces = 0;
        }
        even_out(order, street_segments_ - count);
    }

    /// Makes the count right by more or fewer pieces of some sides.
    void even_out(const std::vector<int>& order, int missing) {
        for (std::size_t i = 0; missing != 0; i = (i + 1) % order.size()) {
            Way& way = ways_[order[i]];
            if (!way.is_side || way.pieces == 0 || (missing < 0 && way.pieces == 1)) continue;
            way.pieces += missing > 0 ? 1 : -1;
            missing += missing > 0 ? -1 : 1;
        }
    }

    /// Turns each way that is left into its pieces, of uneven length.
    void lay_segments() {
        for (Way& way : ways_) {
            const MapPlace from = map_.places[way.from], to = map_.places[way.to];
            int last = way.from;
            for (int piece = 1; piece <= way.pieces; ++piece) {
                int next = way.to;
                if (piece < way.pieces) {
                    const std::int64_t share = 100 * piece / way.pieces + dice_.between(-8, 8);
                    next = add_place(MapPlaceKind::junction, from.x_dm + (to.x_dm - from.x_dm) * share / 100,
                                     from.y_dm + (to.y_dm - from.y_dm) * share / 100);
                }
                const int segment = add_segment(last, next, way.ground, way.charge);
                if (2 * piece <= way.pieces + 1) way.middle = segment;
                last = next;
            }
        }
    }

    /// A new place on a side of a block, which becomes one segment more.
    int door_on(int way) {
        const int segment = ways_[way].middle;
        const MapSegment side = map_.segments[segment];
        const MapPlace from = map_.places[side.from], to = map_.places[side.to];
        const std::int64_t share = dice_.between(30, 70);
        const int door = add_place(MapPlaceKind::junction, from.x_dm + (to.x_dm - from.x_dm) * share / 100,
                                   from.y_dm + (to.y_dm - from.y_dm) * share / 100);
        map_.segments[segment].to = door;
        add_segment(door, side.to, side.ground, side.crossing_charge);
        return door;
    }

    void add_building(int number) {
        const Block& block = blocks_[homes_[number]];
        const int side = dice_.chance(50) ? 1 : 0;
        const MapPlace corner = map_.places[block.south_west], opposite = map_.places[block.north_east];
        const std::int64_t x = corner.x_dm + (opposite.x_dm - corner.x_dm) * dice_.between(30, 70) / 100;
        const std::int64_t y = corner.y_dm + (opposite.y_dm - corner.y_dm) * dice_.between(35, 65) / 100;
        const int building = add_place(MapPlaceKind::building, x, y);
        const int door = door_on(block.sides[side]);
        const MapPlace at = map_.places[door];
        const int yard =
            add_place(MapPlaceKind::junction, at.x_dm + (x - at.x_dm) * 6 / 10, at.y_dm + (y - at.y_dm) * 6 / 10);
        add_segment(door, yard, "yard");
        add_segment(yard, building, "yard");
        if (has_second_way_[number]) add_segment(door_on(block.sides[1 - side]), yard, "yard");
        map_.building_places.push_back(building);
    }

    void add_access_road() {
        const Block& gate = blocks_[(grid_.rows / 2) * grid_.columns];
        const MapPlace end = map_.places[gate.south_west];
        const int first = add_place(MapPlaceKind::junction, end.x_dm - 300, end.y_dm);
        const int second = add_place(MapPlaceKind::junction, end.x_dm - 2100, end.y_dm + 120);
        map_.hub_place = add_place(MapPlaceKind::hub, end.x_dm - 4300, end.y_dm - 80);
        add_segment(map_.hub_place, second, "verge");
        add_segment(second, first, "verge");
        add_segment(first, gate.south_west, "verge");
        add_segment(first, gate.north_west, "verge");
    }

    struct Patch {
        std::int64_t column = 0;  ///< In tenths of a block.
        std::int64_t row = 0;
        const char* ground = "";
    };

    const SiteSize size_;
    Dice& dice_;
    StreetMap map_;
    Grid grid_;
    int street_segments_ = 0;  ///< Before sides are split at buildings' doors.
    std::vector<char> has_second_way_;
    std::vector<Patch> patches_;
    std::vector<Block> blocks_;
    std::vector<Way> ways_;
    std::vector<int> homes_;
};

}  // namespace

int least_segments(int buildings) {
    // Twice what the spurs take leaves streets enough between them.
    return 2 * (kSpurSegments + kSecondWaySegments) * buildings + 40;
}

StreetMap street_map(const SiteSize& size, Dice& dice) {
    if (size.buildings < 1 || size.segments < least_segments(size.buildings)) {
        throw std::invalid_argument("a map of " + std::to_string(size.buildings) + " buildings needs at least " +
                                    std::to_string(least_segments(std::max(1, size.buildings))) + " segments");
    }
    return MapMaker(size, dice).make();
}

}  // namespace spadework::bench
