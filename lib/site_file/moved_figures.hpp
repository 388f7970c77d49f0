#pragma once

// What ranges of a map move where the map is worked out of what the file says: lines of a GeoJSON map are cut into
// segments, areas cut segments and make grounds dearer. Found by comparing the site with one read with a range at
// another value: everything such a range may move is linear in it.

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "scenario/scenario.hpp"

namespace spadework::site_file {

class MovedFigures {
public:
    /// Learns what range number `range` moves: `moved` is the site with it at `value`, `site` with all at their likely
    /// values. False where more than figures differ: the range changes the map itself.
    [[nodiscard]] bool learn(std::size_t range, double likely, const Scenario& site, double value,
                             const Scenario& moved);

    [[nodiscard]] bool empty() const { return figures_.empty(); }
    /// Whether ground prices are among them.
    [[nodiscard]] bool move_grounds() const;

    /// Sets them, one number a range; in lengths to the millimetre, in prices to a thousandth of a minor unit. Grounds
    /// must stand as the file has them but for these figures.
    void set(std::span<const double> numbers, Scenario& scenario) const;

    /// Whether the numbers leave every figure at something that may be: lengths above 0, amounts not below.
    [[nodiscard]] bool may_be(std::span<const double> numbers) const;

private:
    enum class Kind { length, charge, enclosure, material };
    struct Move {
        std::size_t range = 0;
        double likely = 0;
        double slope = 0;  ///< Of the figure, in its own smallest unit, for 1 of the range in the units of the file.
    };
    /// A figure of the site: its segment or place by id, its ground by number.
    struct Figure {
        Kind kind = Kind::length;
        std::string id;
        std::size_t number = 0;  ///< Of the charge; of the ground.
        std::int64_t likely = 0;
        std::vector<Move> moves;
        [[nodiscard]] std::int64_t more_at(std::span<const double> numbers) const;
    };
    struct Difference {
        Kind kind = Kind::length;
        std::string id;
        std::size_t number = 0;
        std::int64_t before = 0;
        std::int64_t after = 0;
    };
    static bool same_map(const Scenario& a, const Scenario& b);
    static std::vector<Difference> differences(const Scenario& before, const Scenario& after);
    Figure& figure_of(const Difference& difference);

    std::vector<Figure> figures_;
};

}  // namespace spadework::site_file
