#include "drawn_map/geojson_reader.hpp"

#include "drawn_map/geojson_geometry.hpp"
#include "drawn_map/json_tree.hpp"
#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

/// White space, and the record separator of RFC 8142.
constexpr std::string_view between_texts = " \t\r\n\x1E";

class GeoJsonReader {
public:
    GeoJsonReader(std::string_view text, MapBuilder& map) : text_(text), map_(map) {}

    void read() {
        std::size_t at = text_.find_first_not_of(between_texts);
        if (at == std::string_view::npos) map_.error(0, "an empty file", "GeoJSON (RFC 7946)");
        while (at != std::string_view::npos) {
            const JsonParse parse = parse_json(
                text_, at, "features", [this](const JsonTree& tree, JsonNode feature) { read_feature(tree, feature); });
            if (!parse.problem.empty()) {
                map_.error(parse.problem_at, "text that is not JSON: " + one_line(parse.problem).text);
                return;
            }
            read_root(parse.tree);
            at = text_.find_first_not_of(between_texts, parse.end);
            if (at != std::string_view::npos && text_[at] != '{') {
                map_.error(at, "text behind the end of the JSON value", "one value, or a sequence of objects");
                return;
            }
        }
    }

private:
    void read_root(const JsonTree& tree) {
        constexpr JsonNode root = 0;
        const JsonNode type_node = tree.find(root, "type");
        const std::string& type = tree.text(type_node);
        declare_system(tree, tree.find(root, "crs"));
        if (type == "FeatureCollection") {
            const JsonNode list = tree.find(root, "features");
            if (list == no_json_node || tree.kind(list) != JsonKind::list) {
                map_.error(tree.begin(list == no_json_node ? root : list),
                           "a FeatureCollection without a list of features", "\"features\": […]");
            }
        } else if (type == "Feature") {
            read_feature(tree, root);
        } else if (is_geometry_type(type)) {
            FeatureFacts facts;
            facts.offset = tree.begin(root);
            add_geometry(tree, root, facts, map_);
        } else {
            map_.error(tree.begin(type_node == no_json_node ? root : type_node),
                       type_node == no_json_node ? "JSON that is not GeoJSON: it has no type"
                                                 : "JSON that is not GeoJSON: type " + shown_value(tree, type_node),
                       "a FeatureCollection, a Feature or a geometry (RFC 7946)");
        }
    }

    /// The member "crs" of the format of 2008; RFC 7946 section 4 knows longitude and latitude only.
    void declare_system(const JsonTree& tree, JsonNode crs) {
        if (crs == no_json_node || tree.kind(crs) == JsonKind::null) return;
        const JsonNode properties = tree.find(crs, "properties");
        std::string name = tree.text(tree.find(properties, "name"));
        if (const JsonNode code = tree.find(properties, "code"); name.empty() && code != no_json_node) {
            name = "EPSG:" + std::string(tree.source(code));
        }
        map_.declare_system(name.empty() ? "a system without a name" : name, tree.begin(crs));
    }

    void read_feature(const JsonTree& tree, JsonNode feature) {
        if (tree.text(tree.find(feature, "type")) != "Feature") {
            map_.error(tree.begin(feature), "an entry of the features that is not a Feature",
                       "{\"type\": \"Feature\", …}");
            return;
        }
        const JsonNode geometry = tree.find(feature, "geometry");
        const FeatureFacts facts = facts_of(tree, feature);
        if (geometry == no_json_node) {
            map_.error(tree.begin(feature), "a feature without a geometry", "\"geometry\": an object or null");
        } else if (tree.kind(geometry) == JsonKind::null) {
            map_.leave_out("features without a place");
        } else {
            add_geometry(tree, geometry, facts, map_);
        }
    }

    FeatureFacts facts_of(const JsonTree& tree, JsonNode feature) {
        FeatureFacts facts;
        facts.offset = tree.begin(feature);
        if (const JsonNode id = tree.find(feature, "id"); id != no_json_node) {
            if (tree.kind(id) == JsonKind::text || tree.kind(id) == JsonKind::number) {
                facts.id = words(tree, id);
            } else {
                map_.error(tree.begin(id), "an id that is not a text or a number",
                           "one of these (RFC 7946 section 3.2)");
            }
        }
        const JsonNode properties = tree.find(feature, "properties");
        if (properties == no_json_node || tree.kind(properties) == JsonKind::null) return facts;
        if (tree.kind(properties) != JsonKind::object) {
            map_.error(tree.begin(properties), "properties that are not an object", "an object or null");
            return facts;
        }
        for (JsonNode member = tree.first_child(properties); member != no_json_node; member = tree.next(member)) {
            if (tree.kind(member) != JsonKind::null) facts.tags.push_back({tree.key(member), words(tree, member)});
        }
        return facts;
    }

    /// A text as it reads, anything else as it is written.
    static std::string words(const JsonTree& tree, JsonNode node) {
        if (tree.kind(node) == JsonKind::text) return tree.text(node);
        return std::string(tree.source(node));
    }

    std::string_view text_;
    MapBuilder& map_;
};

}  // namespace

void read_geojson(std::string_view text, MapBuilder& map) {
    GeoJsonReader(text, map).read();
}

}  // namespace spadework::drawn_map
