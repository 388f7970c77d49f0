#pragma once

// What the readers of XML formats share.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "drawn_map/map_builder.hpp"

namespace pugi {
class xml_document;
class xml_node;
}  // namespace pugi

namespace spadework::drawn_map {

/// Parses a text as XML. Entities that a document declares are not expanded. Tells whether it could be read.
bool parse_xml(std::string_view text, pugi::xml_document& document, MapBuilder& map);

/// Name without its namespace prefix.
std::string_view local_name(const pugi::xml_node& node);

/// Offset of the '<' of an element, or of the first byte of a piece of text.
std::size_t offset_of(const pugi::xml_node& node);

/// Everything written directly inside an element, CDATA sections included.
std::string text_of(const pugi::xml_node& element);

/// First child element of that local name; null where there is none.
pugi::xml_node child_named(const pugi::xml_node& element, std::string_view name);

/// Adds a tag for each element below that holds text and no elements: its local name and its text. The names in
/// `apart` are passed over.
void add_leaf_tags(const pugi::xml_node& element, const std::vector<std::string_view>& apart, std::vector<Tag>& tags);

}  // namespace spadework::drawn_map
