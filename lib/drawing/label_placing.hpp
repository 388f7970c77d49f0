#pragma once

// Where the labels of a map go, so that no label lies on another, on a symbol or under a line that leads to a label.

#include <optional>
#include <string>
#include <vector>

#include "drawing/drawn_text.hpp"
#include "drawing/map_frame.hpp"

namespace spadework::drawing {

/// What to do with a label that finds no room.
enum class WithoutRoom {
    number_it,  ///< A number takes its place, and a list beside the map says what it stands for.
    drop_it,    ///< It is left out: worth showing, but nothing is lost without it.
};

struct LabelWish {
    Point at;             ///< Middle of what the label speaks of.
    double reach = 0;     ///< Half the size of its symbol.
    std::string text;     ///< Drawn text, one line.
    std::string in_full;  ///< What the list says of a number; the text itself where empty.
    Lettering lettering{12, false};
    WithoutRoom without_room = WithoutRoom::number_it;
    bool keep_off_lines = false;  ///< Better dropped than on a line.
    int rank = 1;                 ///< Labels of a lower rank choose their place first.
};

struct PlacedLabel {
    bool placed = false;
    int number = 0;    ///< 0 where the text itself is shown; otherwise from 1, in the order of the wishes.
    std::string text;  ///< What is shown.
    Rectangle box;     ///< Holds the text.
    Point baseline;    ///< Where the text starts.
    std::optional<std::pair<Point, Point>> leader;  ///< A line from what it speaks of to the box.
};

struct MapClutter {
    std::vector<Rectangle> symbols;         ///< Labels keep off these.
    std::vector<std::vector<Point>> lines;  ///< Labels keep off these where they can.
};

/// One place for each wish, in their order. Labels lie within `room`. Beside their symbol first; then at a distance
/// with a leader; then as a number in the same two ways. Where more than one in four of many would stand elsewhere than
/// beside their symbol, or one would be missing, all but those of rank 0 are numbered. A label that finds no room even
/// as a number is not placed, but numbered all the same. Rules after Wagner, Wolff, Kapoor and Strijk, "Three rules
/// suffice for good label placement" (Algorithmica 30, 2001): the label with the fewest places left goes first, where
/// it takes the fewest from others.
std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, const MapClutter& clutter,
                                      const Rectangle& room);

}  // namespace spadework::drawing
