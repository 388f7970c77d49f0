#include "drawing/map_labels.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace spadework::drawing {

namespace {

constexpr const char* index_heading = "Numbers on the map";
constexpr double row_step = 17;
constexpr double number_room = 30;
constexpr double widest_entry = 330;

struct Entry {
    std::string number;
    std::string text;
};

std::vector<Entry> entries_of(const std::vector<LabelWish>& wishes, const std::vector<PlacedLabel>& labels) {
    std::vector<Entry> entries;
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (labels[i].number == 0) continue;
        const std::string missing = labels[i].placed ? "" : " *";
        const std::string& text = wishes[i].in_full.empty() ? wishes[i].text : wishes[i].in_full;
        entries.push_back({std::to_string(labels[i].number), text + missing});
    }
    return entries;
}

}  // namespace

void write_labels(SvgWriter& svg, const Ids& ids, const std::vector<LabelWish>& wishes,
                  const std::vector<PlacedLabel>& labels) {
    svg.open("g", {{"id", ids.id("labels")}});
    for (const PlacedLabel& label : labels) {
        if (!label.placed || !label.leader) continue;
        write_line(svg, label.leader->first.x, label.leader->first.y, label.leader->second.x, label.leader->second.y,
                   colour::quiet, 0.8);
    }
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (!labels[i].placed) continue;
        const Rectangle& box = labels[i].box;
        svg.leaf("rect", {{"x", box.left},
                          {"y", box.top},
                          {"width", box.width()},
                          {"height", box.height()},
                          {"fill", colour::paper},
                          {"fill-opacity", 0.85}});
        write_text(svg, labels[i].baseline.x, labels[i].baseline.y, labels[i].text, {wishes[i].lettering});
    }
    svg.close();
}

bool any_numbered(const std::vector<PlacedLabel>& labels) {
    return std::any_of(labels.begin(), labels.end(), [](const PlacedLabel& label) { return label.number != 0; });
}

double write_index(SvgWriter& svg, const Ids& ids, double left, double right, double y,
                   const std::vector<LabelWish>& wishes, const std::vector<PlacedLabel>& labels) {
    const std::vector<Entry> entries = entries_of(wishes, labels);
    if (entries.empty()) return y;
    double widest = 0;
    for (const Entry& entry : entries)
        widest = std::max(widest, width_of(entry.text, {small_size}));
    const double column = std::min({number_room + widest + 14, widest_entry, right - left});
    const auto columns = static_cast<std::size_t>(std::max(1.0, std::floor((right - left) / column)));
    const std::size_t rows = (entries.size() + columns - 1) / columns;
    svg.open("g", {{"id", ids.id("index")}});
    write_text(svg, left, y + text_size, index_heading, {{text_size, true}});
    const double top = y + text_size + 20;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const double x = left + static_cast<double>(i / rows) * column;
        const double baseline = top + static_cast<double>(i % rows) * row_step;
        write_text(svg, x + number_room - 8, baseline, entries[i].number,
                   {{small_size, true}, colour::ink, Anchor::end});
        write_text(svg, x + number_room, baseline, shortened(entries[i].text, column - number_room - 10, {small_size}),
                   {{small_size}});
    }
    double below = top + static_cast<double>(rows) * row_step;
    if (std::any_of(labels.begin(), labels.end(), [](const auto& l) { return l.number > 0 && !l.placed; })) {
        write_text(svg, left, below, "* no room for it on the map at this size", {{small_size}, colour::quiet});
        below += row_step;
    }
    svg.close();
    return below;
}

}  // namespace spadework::drawing
