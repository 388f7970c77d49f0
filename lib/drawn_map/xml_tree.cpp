#include "drawn_map/xml_tree.hpp"

#include <algorithm>
#include <pugixml.hpp>

#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

bool holds_elements(const pugi::xml_node& element) {
    return std::ranges::any_of(element, [](const pugi::xml_node& child) { return child.type() == pugi::node_element; });
}

}  // namespace

bool parse_xml(std::string_view text, pugi::xml_document& document, MapBuilder& map) {
    // Line ends stay as they are, so that offsets within a text are those in the file.
    constexpr unsigned options = pugi::parse_default & ~pugi::parse_eol;
    const pugi::xml_parse_result result = document.load_buffer(text.data(), text.size(), options, pugi::encoding_utf8);
    if (!result) {
        map.error(static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, result.offset)),
                  "text that is not XML: " + small_letters(std::string_view(result.description()).substr(0, 1)) +
                      (result.description() + 1));
        return false;
    }
    return true;
}

std::string_view local_name(const pugi::xml_node& node) {
    const std::string_view name = node.name();
    const std::size_t prefix = name.find(':');
    return prefix == std::string_view::npos ? name : name.substr(prefix + 1);
}

std::size_t offset_of(const pugi::xml_node& node) {
    const auto offset = static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, node.offset_debug()));
    return node.type() == pugi::node_element && offset > 0 ? offset - 1 : offset;
}

std::string text_of(const pugi::xml_node& element) {
    std::string text;
    for (const pugi::xml_node& child : element) {
        if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) text += child.value();
    }
    return text;
}

pugi::xml_node child_named(const pugi::xml_node& element, std::string_view name) {
    for (const pugi::xml_node& child : element) {
        if (child.type() == pugi::node_element && local_name(child) == name) return child;
    }
    return {};
}

void add_leaf_tags(const pugi::xml_node& element, const std::vector<std::string_view>& apart, std::vector<Tag>& tags) {
    for (const pugi::xml_node& child : element) {
        if (child.type() != pugi::node_element || std::ranges::find(apart, local_name(child)) != apart.end()) continue;
        if (holds_elements(child)) continue;
        const std::string text = text_of(child);
        if (!trimmed(text).empty()) tags.push_back({std::string(local_name(child)), text});
    }
}

}  // namespace spadework::drawn_map
