#include "drawing/segment_labels.hpp"

#include <cmath>

#include <fmt/format.h>

#include "drawing/figures.hpp"

namespace spadework::drawing {

namespace {

double length_of(const std::vector<Point>& line) {
    double length = 0;
    for (std::size_t i = 0; i + 1 < line.size(); ++i)
        length += std::hypot(line[i + 1].x - line[i].x, line[i + 1].y - line[i].y);
    return length;
}

Point middle_of(const std::vector<Point>& line) {
    double left = length_of(line) / 2;
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
        const double length = std::hypot(line[i + 1].x - line[i].x, line[i + 1].y - line[i].y);
        if (left <= length && length > 0) {
            const double share = left / length;
            return {line[i].x + share * (line[i + 1].x - line[i].x), line[i].y + share * (line[i + 1].y - line[i].y)};
        }
        left -= length;
    }
    return line.front();
}

}  // namespace

std::vector<LabelWish> segment_wishes(const Scenario& scenario, const std::vector<DrawnTrench>& trenches) {
    constexpr double beside_trench = 4;
    std::vector<LabelWish> wishes;
    for (const DrawnTrench& trench : trenches) {
        if (trench.line.empty()) continue;
        LabelWish wish;
        wish.text = length_in_words(scenario.segments[static_cast<std::size_t>(trench.step.segment)].length, scenario);
        if (trench.cables > 1) wish.text += fmt::format(", {} cables", trench.cables);
        wish.at = middle_of(trench.line);
        wish.reach = beside_trench;
        wish.without_room = WithoutRoom::drop_it;
        wish.keep_off_lines = true;
        wish.rank = 3;
        if (length_of(trench.line) > 0.75 * width_of(wish.text, wish.lettering)) wishes.push_back(wish);
    }
    return wishes;
}

}  // namespace spadework::drawing
