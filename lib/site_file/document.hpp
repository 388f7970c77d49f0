#pragma once

// A YAML or JSON text as a tree of nodes with positions. Nodes lie in one list and point at each other by number, so
// that neither building nor dropping a deep tree recurses.

#include <cstdint>
#include <string>
#include <vector>

#include "diagnostics/diagnostic.hpp"

namespace spadework::site_file {

using NodeId = std::int32_t;
inline constexpr NodeId no_node = -1;

enum class NodeKind : std::uint8_t { null, scalar, sequence, mapping };

/// One value. The children of a mapping are its keys and values in turn.
struct Node {
    NodeKind kind = NodeKind::null;
    bool quoted = false;  ///< A scalar in quotes or in a block: text, never a number.
    int line = 0;
    int column = 0;  ///< In bytes, from 1.
    NodeId first_child = no_node;
    NodeId next = no_node;
    std::string text;  ///< Of a scalar.
};

enum class Syntax { yaml, json };

/// A parsed file. `root` is no_node when it held nothing.
struct Document {
    std::string file;  ///< As reported.
    std::string path;  ///< Relative to the folder of the main site file; empty for that file itself.
    Syntax syntax = Syntax::yaml;
    std::vector<Node> nodes;
    NodeId root = no_node;

    [[nodiscard]] const Node& at(NodeId node) const { return nodes[static_cast<std::size_t>(node)]; }
    [[nodiscard]] SourcePosition position(NodeId node) const;
    /// Items of a sequence, or keys and values in turn of a mapping; nothing for other nodes.
    [[nodiscard]] std::vector<NodeId> children(NodeId node) const;
    /// Value of a key in a mapping, or no_node. The first one where a key is repeated.
    [[nodiscard]] NodeId find(NodeId mapping, std::string_view key) const;
};

/// "a mapping", "a list", "nothing" or "'text'", for messages. Long texts are cut short, control characters shown as ?.
std::string description(const Node& node);

/// Text in single quotes for a message, at most 60 bytes of it, without control characters.
std::string quoted(std::string_view text);

}  // namespace spadework::site_file
