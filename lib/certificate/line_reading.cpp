#include <algorithm>

#include <fmt/format.h>

#include "certificate/reader.hpp"

namespace spadework::certificate {

namespace {

/// One line; its name is what its number and area make it.
open_ground::StraightLine read_line(const JsonValue& value, const Scenario& scenario, Problems& problems) {
    const Fields fields(value, {"segment", "from", "to", "like"}, problems);
    open_ground::StraightLine line;
    line.from = index_of_sorted(fields["from"], scenario.places, "a place", problems);
    line.to = index_of_sorted(fields["to"], scenario.places, "a place", problems);
    line.like = index_of_sorted(fields["like"], scenario.segments, "a segment", problems);
    if (line.from == line.to) problems.add(fields["to"], in_words(fields["to"]), "a place other than `from`");
    if (!scenario.segments[static_cast<std::size_t>(line.like)].area) {
        problems.add(fields["like"], in_words(fields["like"]), "the id of a segment over open ground");
    }
    return line;
}

}  // namespace

std::vector<open_ground::StraightLine> read_straight_lines(const JsonValue& value, const Scenario& scenario,
                                                           Problems& problems) {
    std::vector<open_ground::StraightLine> lines;
    for (const JsonValue& item : items(value, problems)) {
        if (problems.too_many()) break;
        lines.push_back(read_line(item, scenario, problems));
    }
    if (!problems.none()) return lines;
    const Scenario with_lines = open_ground::with_straight_lines(scenario, lines);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const JsonValue& named = Fields(value.items[i], {"segment", "from", "to", "like"}, problems)["segment"];
        const std::string& id = with_lines.open_ground.straight[i].id;
        if (text(named, problems) != id) problems.add(named, in_words(named), "'" + id + "', by its place in the list");
    }
    return lines;
}

}  // namespace spadework::certificate
