#include "site_file/document.hpp"

namespace spadework::site_file {

namespace {

bool continues_character(char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

}  // namespace

SourcePosition Document::position(NodeId node) const {
    if (node == no_node) return {file, 0, 0};
    return {file, at(node).line, at(node).column};
}

std::vector<NodeId> Document::children(NodeId node) const {
    std::vector<NodeId> found;
    if (node == no_node) return found;
    for (NodeId child = at(node).first_child; child != no_node; child = at(child).next)
        found.push_back(child);
    return found;
}

NodeId Document::find(NodeId mapping, std::string_view key) const {
    if (mapping == no_node || at(mapping).kind != NodeKind::mapping) return no_node;
    for (NodeId child = at(mapping).first_child; child != no_node;) {
        const NodeId value = at(child).next;
        if (value == no_node) break;
        if (at(child).kind == NodeKind::scalar && at(child).text == key) return value;
        child = at(value).next;
    }
    return no_node;
}

std::string quoted(std::string_view text) {
    constexpr std::size_t longest = 60;
    std::size_t length = text.size();
    if (length > longest) {
        length = longest;
        while (length > 0 && continues_character(text[length]))
            --length;
    }
    std::string shown = "'";
    for (std::size_t i = 0; i < length; ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        const bool is_late_control =
            byte == 0xC2 && i + 1 < length && static_cast<unsigned char>(text[i + 1]) < 0xA0;  // U+0080 to U+009F
        if (is_late_control) ++i;
        shown += byte < 0x20 || byte == 0x7F || is_late_control ? '?' : text[i];
    }
    if (length < text.size()) shown += "…";
    return shown + "'";
}

std::string description(const Node& node) {
    switch (node.kind) {
        case NodeKind::null:
            return "nothing";
        case NodeKind::sequence:
            return "a list";
        case NodeKind::mapping:
            return "a mapping";
        case NodeKind::scalar:
            break;
    }
    return quoted(node.text);
}

}  // namespace spadework::site_file
