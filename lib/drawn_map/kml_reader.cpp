#include "drawn_map/kml_reader.hpp"

#include <pugixml.hpp>

#include "drawn_map/kml_geometry.hpp"
#include "drawn_map/plain_text.hpp"
#include "drawn_map/xml_tree.hpp"

namespace spadework::drawn_map {

namespace {

/// What a left-out element is counted as; "" where nothing of use is lost with it.
std::string_view left_out_as(std::string_view element) {
    struct Row {
        std::string_view element;
        std::string_view what;
    };
    static constexpr Row rows[] = {
        {"Style", "styles"},
        {"StyleMap", "styles"},
        {"styleUrl", "styles"},
        {"LookAt", "views"},
        {"Camera", "views"},
        {"AbstractView", "views"},
        {"Region", "views"},
        {"TimeStamp", "timestamps"},
        {"TimeSpan", "timestamps"},
        {"GroundOverlay", "pictures"},
        {"PhotoOverlay", "pictures"},
        {"ScreenOverlay", "pictures"},
        {"Tour", "tours"},
        {"NetworkLink", "links to other files"},
    };
    for (const Row& row : rows) {
        if (row.element == element) return row.what;
    }
    return {};
}

class KmlReader {
public:
    KmlReader(const KmlLinkTaker& take_link, MapBuilder& map) : take_link_(take_link), map_(map) {}

    void read(const pugi::xml_node& root) {
        if (local_name(root) == "kml") {
            for (const pugi::xml_node& child : root)
                read_feature(child, "", 0);
        } else {
            read_feature(root, "", 0);
        }
    }

private:
    /// `depth` counts the documents and folders around.
    void read_feature(const pugi::xml_node& element, const std::string& folder, int depth) {
        constexpr int deepest = 100;
        const std::string_view kind = local_name(element);
        if (kind == "Document" || kind == "Folder") {
            if (depth >= deepest) {
                map_.error(offset_of(element), "folders nested more than 100 deep");
                return;
            }
            read_container(element, folder, depth);
        } else if (kind == "Placemark") {
            read_placemark(element, folder);
        } else if (kind == "NetworkLink" && take_link_(address_of(element))) {
            return;
        } else if (const std::string_view what = left_out_as(kind); !what.empty()) {
            map_.leave_out(std::string(what));
        }
    }

    /// The outermost document is the file, and its name no folder.
    void read_container(const pugi::xml_node& element, const std::string& folder, int depth) {
        std::string within = folder;
        if (depth > 0 || local_name(element) == "Folder") {
            const std::string name = one_line(text_of(child_named(element, "name"))).text;
            if (!name.empty()) within += (within.empty() ? "" : "/") + name;
        }
        for (const pugi::xml_node& child : element)
            read_feature(child, within, depth + 1);
    }

    /// KML 2.0 says Url where later versions say Link.
    static std::string address_of(const pugi::xml_node& link) {
        pugi::xml_node target = child_named(link, "Link");
        if (!target) target = child_named(link, "Url");
        return std::string(trimmed(text_of(child_named(target, "href"))));
    }

    void read_placemark(const pugi::xml_node& placemark, const std::string& folder) {
        FeatureFacts facts;
        facts.offset = offset_of(placemark);
        facts.name = text_of(child_named(placemark, "name"));
        if (!folder.empty()) facts.tags.push_back({"folder", folder});
        for (const pugi::xml_node& child : placemark)
            read_fact(child, facts);
        facts.id = id_of(placemark, facts);
        bool drawn = false;
        for (const pugi::xml_node& child : placemark) {
            if (!is_kml_geometry(local_name(child))) continue;
            add_kml_geometry(child, facts, map_);
            drawn = true;
        }
        if (!drawn) map_.leave_out("features without a place");
    }

    /// What whoever drew it wrote as its id, before the id by which the file refers to itself.
    static std::string id_of(const pugi::xml_node& placemark, const FeatureFacts& facts) {
        for (const Tag& tag : facts.tags) {
            if ((tag.key == "@id" || tag.key == "id") && !tag.value.empty()) return tag.value;
        }
        return placemark.attribute("id").value();
    }

    void read_fact(const pugi::xml_node& child, FeatureFacts& facts) {
        const std::string_view kind = local_name(child);
        if (kind == "ExtendedData") {
            read_extended_data(child, facts);
        } else if (kind == "description" || kind == "address" || kind == "phoneNumber") {
            if (std::string text = text_of(child); !trimmed(text).empty())
                facts.tags.push_back({std::string(kind), std::move(text)});
        } else if (const std::string_view what = left_out_as(kind); !what.empty()) {
            map_.leave_out(std::string(what));
        }
    }

    /// Data with a name and a value, SchemaData with SimpleData, or elements of another namespace.
    static void read_extended_data(const pugi::xml_node& data, FeatureFacts& facts) {
        for (const pugi::xml_node& entry : data) {
            if (local_name(entry) == "Data") {
                facts.tags.push_back({entry.attribute("name").value(), text_of(child_named(entry, "value"))});
            } else if (local_name(entry) == "SchemaData") {
                for (const pugi::xml_node& simple : entry) {
                    if (local_name(simple) == "SimpleData")
                        facts.tags.push_back({simple.attribute("name").value(), text_of(simple)});
                }
            }
        }
        add_leaf_tags(data, {"Data", "SchemaData"}, facts.tags);
    }

    const KmlLinkTaker& take_link_;
    MapBuilder& map_;
};

}  // namespace

void read_kml(std::string_view text, const KmlLinkTaker& take_link, MapBuilder& map) {
    pugi::xml_document document;
    if (!parse_xml(text, document, map)) return;
    KmlReader(take_link, map).read(document.document_element());
}

}  // namespace spadework::drawn_map
