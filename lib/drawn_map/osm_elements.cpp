#include "drawn_map/osm_elements.hpp"

#include <algorithm>
#include <charconv>
#include <pugixml.hpp>

#include <fmt/format.h>

#include "drawn_map/plain_text.hpp"
#include "drawn_map/xml_tree.hpp"

namespace spadework::drawn_map {

namespace {

/// Most members that OpenStreetMap takes in a relation.
constexpr std::size_t most_members = 32'000;

std::optional<std::int64_t> whole_number(std::string_view text) {
    std::int64_t number = 0;
    const auto [end, problem] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (problem != std::errc() || end != text.data() + text.size()) return std::nullopt;
    return number;
}

class ElementReader {
public:
    explicit ElementReader(MapBuilder& map) : map_(map) {}

    OsmElements read(const pugi::xml_node& root) {
        for (const pugi::xml_node& child : root) {
            const std::string_view kind = child.name();
            if (kind != "node" && kind != "way" && kind != "relation") continue;
            if (is_deleted(child)) {
                map_.leave_out("deleted elements");
                continue;
            }
            if (child.attribute("timestamp")) map_.leave_out("timestamps");
            const auto id = id_of(child, "id");
            if (!id) continue;
            if (kind == "node") {
                read_node(child, *id);
            } else if (kind == "way") {
                read_way(child, *id);
            } else {
                read_relation(child, *id);
            }
        }
        return std::move(elements_);
    }

private:
    /// By the database, or by an editor that has not yet sent its changes.
    static bool is_deleted(const pugi::xml_node& element) {
        return std::string_view(element.attribute("visible").value()) == "false" ||
               std::string_view(element.attribute("action").value()) == "delete";
    }

    std::optional<std::int64_t> id_of(const pugi::xml_node& element, const char* name) {
        const pugi::xml_attribute attribute = element.attribute(name);
        const auto id = whole_number(attribute.value());
        if (!id) {
            map_.error(offset_of(element),
                       attribute ? fmt::format("{} with {} {}", element.name(), name, shown(attribute.value()))
                                 : fmt::format("{} without {}", element.name(), name),
                       "a whole number");
        }
        return id;
    }

    FeatureFacts facts_of(const pugi::xml_node& element, std::int64_t id) {
        FeatureFacts facts;
        facts.offset = offset_of(element);
        facts.id = fmt::format("{}/{}", element.name(), id);
        for (const pugi::xml_node& tag : element.children("tag"))
            facts.tags.push_back({tag.attribute("k").value(), tag.attribute("v").value()});
        return facts;
    }

    std::optional<Position> position_of(const pugi::xml_node& element) {
        const auto longitude = decimal_number(element.attribute("lon").value());
        const auto latitude = decimal_number(element.attribute("lat").value());
        if (!longitude || !latitude) return std::nullopt;
        const Position at{*longitude, *latitude};
        map_.see(at, offset_of(element));
        return at;
    }

    void read_node(const pugi::xml_node& element, std::int64_t id) {
        const auto at = position_of(element);
        if (!at) {
            map_.error(offset_of(element),
                       fmt::format("node/{} with lat {} and lon {}", id, shown(element.attribute("lat").value()),
                                   shown(element.attribute("lon").value())),
                       "decimal degrees");
            return;
        }
        if (!elements_.nodes.try_emplace(id, *at).second) return map_.leave_out("repeated elements");
        if (element.child("tag")) map_.add_point(facts_of(element, id), *at);
    }

    /// Some exports write the place of a node beside each reference to it.
    void read_way(const pugi::xml_node& element, std::int64_t id) {
        OsmWay way{id, {}, facts_of(element, id)};
        for (const pugi::xml_node& node : element.children("nd")) {
            const auto reference = id_of(node, "ref");
            if (!reference) continue;
            way.nodes.push_back(*reference);
            if (!node.attribute("lat")) continue;
            if (const auto at = position_of(node)) elements_.nodes.try_emplace(*reference, *at);
        }
        elements_.ways.push_back(std::move(way));
    }

    void read_relation(const pugi::xml_node& element, std::int64_t id) {
        OsmMultipolygon relation{{}, facts_of(element, id)};
        const auto type = std::ranges::find(relation.facts.tags, "type", &Tag::key);
        if (type == relation.facts.tags.end() || type->value != "multipolygon")
            return map_.leave_out("relations that draw nothing");
        relation.facts.tags.erase(type);
        for (const pugi::xml_node& member : element.children("member")) {
            if (std::string_view(member.attribute("type").value()) != "way") continue;
            const bool inner = std::string_view(member.attribute("role").value()) == "inner";
            if (const auto way = id_of(member, "ref")) relation.ways.push_back({*way, inner});
        }
        if (relation.ways.size() > most_members) {
            map_.error(relation.facts.offset, fmt::format("relation/{} of {} ways", id, relation.ways.size()),
                       fmt::format("at most {}", most_members));
            return;
        }
        elements_.multipolygons.push_back(std::move(relation));
    }

    MapBuilder& map_;
    OsmElements elements_;
};

}  // namespace

OsmElements osm_elements(const pugi::xml_node& root, MapBuilder& map) {
    return ElementReader(map).read(root);
}

}  // namespace spadework::drawn_map
