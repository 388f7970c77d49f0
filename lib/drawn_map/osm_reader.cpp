#include "drawn_map/osm_reader.hpp"

#include <algorithm>
#include <pugixml.hpp>
#include <unordered_map>
#include <unordered_set>

#include <fmt/format.h>

#include "drawn_map/osm_area_rule.hpp"
#include "drawn_map/osm_elements.hpp"
#include "drawn_map/plain_text.hpp"
#include "drawn_map/xml_tree.hpp"

namespace spadework::drawn_map {

namespace {

using Line = std::vector<Position>;

/// Tells once of many things of a kind: the first of them, and how many more there are.
struct Told {
    int count = 0;
    std::size_t offset = 0;
    std::string first;

    void add(const FeatureFacts& facts) {
        if (count++ > 0) return;
        offset = facts.offset;
        first = facts.id;
    }
    [[nodiscard]] std::string who() const {
        return count == 1 ? first : fmt::format("{} and {} more", first, count - 1);
    }
};

class OsmReader {
public:
    OsmReader(OsmElements elements, MapBuilder& map) : elements_(std::move(elements)), map_(map) {
        for (std::size_t i = 0; i < elements_.ways.size(); ++i)
            way_of_id_.try_emplace(elements_.ways[i].id, i);
    }

    void read() {
        for (const OsmMultipolygon& relation : elements_.multipolygons)
            find_ways_drawn_by(relation);
        for (const OsmWay& way : elements_.ways)
            add_way(way);
        for (OsmMultipolygon& relation : elements_.multipolygons)
            add_multipolygon(relation);
        if (cut_.count > 0) {
            map_.warning(cut_.offset,
                         cut_.who() + ": nodes that the file does not have; lines are cut there, and areas left out",
                         "a map with all nodes of its ways");
        }
        if (open_.count > 0) {
            map_.warning(open_.offset,
                         open_.who() + ": ways that make no closed ring; what they would enclose is left out",
                         "a map with all ways of its multipolygons");
        }
    }

private:
    const OsmWay* way(std::int64_t id) const {
        const auto found = way_of_id_.find(id);
        return found == way_of_id_.end() ? nullptr : &elements_.ways[found->second];
    }

    /// Ways that say nothing of their own: a relation draws them, and they are no features beside it.
    void find_ways_drawn_by(const OsmMultipolygon& relation) {
        for (const OsmMember& member : relation.ways) {
            const OsmWay* part = way(member.way);
            if (part == nullptr) continue;
            const auto& tags = part->facts.tags;
            const bool said_by_relation = std::ranges::all_of(tags, [&](const Tag& tag) {
                return tag.key == "source" || tag.key == "created_by" ||
                       std::ranges::find(relation.facts.tags, tag) != relation.facts.tags.end();
            });
            if (said_by_relation || (!member.inner && tags_from(relation) == part)) drawn_by_relation_.insert(part->id);
        }
    }

    /// The older way of drawing multipolygons: their tags stand on the one outer way. Null for others.
    const OsmWay* tags_from(const OsmMultipolygon& relation) const {
        if (!relation.facts.tags.empty()) return nullptr;
        const auto is_outer = [](const OsmMember& member) { return !member.inner; };
        const auto outer = std::ranges::find_if(relation.ways, is_outer);
        if (outer == relation.ways.end() || std::ranges::count_if(relation.ways, is_outer) != 1) return nullptr;
        return way(outer->way);
    }

    void add_way(const OsmWay& way) {
        if (drawn_by_relation_.contains(way.id)) return;
        const bool closed = way.nodes.size() > 3 && way.nodes.front() == way.nodes.back();
        std::vector<Line> runs = runs_of(way.nodes);
        const bool cut = runs.size() != 1 || runs.front().size() != way.nodes.size();
        if (cut && !way.nodes.empty()) cut_.add(way.facts);
        if (closed && closed_way_is_area(way.facts.tags)) {
            if (cut) return map_.leave_out("areas with missing nodes");
            return map_.add_area(way.facts, std::move(runs));
        }
        if (runs.empty()) map_.leave_out("features without a place");
        for (const Line& run : runs)
            map_.add_line(way.facts, run);
    }

    /// Pieces of a way between nodes that the file does not have.
    [[nodiscard]] std::vector<Line> runs_of(const NodeIds& nodes) const {
        std::vector<Line> runs;
        bool in_run = false;
        for (const std::int64_t id : nodes) {
            const auto found = elements_.nodes.find(id);
            if (found == elements_.nodes.end()) {
                in_run = false;
                continue;
            }
            if (!in_run) runs.emplace_back();
            in_run = true;
            runs.back().push_back(found->second);
        }
        return runs;
    }

    void add_multipolygon(OsmMultipolygon& relation) {
        if (const OsmWay* older = tags_from(relation)) {
            relation.facts.tags = older->facts.tags;
        }
        bool whole = true;
        std::vector<Line> outer = rings_of(relation, false, whole);
        std::vector<Line> inner = rings_of(relation, true, whole);
        if (!whole) open_.add(relation.facts);
        auto [areas, strays] = assign_holes(std::move(outer), std::move(inner));
        map_.leave_out("holes outside their area", strays);
        if (areas.empty()) map_.leave_out("areas with missing ways");
        for (auto& rings : areas)
            map_.add_area(relation.facts, std::move(rings));
    }

    /// Closed rings of the outer or inner members; `whole` becomes false where some are not there or do not close.
    std::vector<Line> rings_of(const OsmMultipolygon& relation, bool inner, bool& whole) {
        std::vector<NodeIds> ways;
        for (const OsmMember& member : relation.ways) {
            if (member.inner != inner) continue;
            const OsmWay* part = way(member.way);
            if (part == nullptr) {
                whole = false;
            } else {
                ways.push_back(part->nodes);
            }
        }
        const JoinedWays joined = join_ways(ways);
        whole = whole && joined.open.empty();
        std::vector<Line> rings;
        for (const NodeIds& ring : joined.rings) {
            std::vector<Line> runs = runs_of(ring);
            if (runs.size() == 1 && runs.front().size() == ring.size()) {
                rings.push_back(std::move(runs.front()));
            } else {
                whole = false;
            }
        }
        return rings;
    }

    OsmElements elements_;
    MapBuilder& map_;
    std::unordered_map<std::int64_t, std::size_t> way_of_id_;  ///< Only looked up, never walked.
    std::unordered_set<std::int64_t> drawn_by_relation_;       ///< Only looked up, never walked.
    Told cut_;
    Told open_;
};

}  // namespace

void read_osm_xml(std::string_view text, MapBuilder& map) {
    OsmElements elements;
    {
        pugi::xml_document document;
        if (!parse_xml(text, document, map)) return;
        const pugi::xml_node root = document.document_element();
        if (std::string_view(root.name()) != "osm") {
            map.error(offset_of(root), "first element " + shown(root.name()), "osm");
            return;
        }
        elements = osm_elements(root, map);
    }  // The XML is given back before the map is made of it.
    OsmReader(std::move(elements), map).read();
}

}  // namespace spadework::drawn_map
