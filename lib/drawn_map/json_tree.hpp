#pragma once

// A JSON value as a flat tree that knows where each part stands in the text, made by a strict parser. One value of a
// large text at a time: the items of one named list are handed out as they end and forgotten.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::drawn_map {

enum class JsonKind : std::uint8_t { null, boolean, number, text, list, object };

/// Index of a node in its tree.
using JsonNode = std::uint32_t;
inline constexpr JsonNode no_json_node = static_cast<JsonNode>(-1);

class JsonTree {
public:
    [[nodiscard]] JsonKind kind(JsonNode node) const { return nodes_[node].kind; }
    /// First byte of the value in the text, and the one behind its last.
    [[nodiscard]] std::size_t begin(JsonNode node) const { return nodes_[node].begin; }
    [[nodiscard]] std::size_t end(JsonNode node) const { return nodes_[node].end; }
    /// The value as it is written.
    [[nodiscard]] std::string_view source(JsonNode node) const {
        return source_.substr(begin(node), end(node) - begin(node));
    }
    /// Of a number; 1 or 0 of a boolean.
    [[nodiscard]] double number(JsonNode node) const { return nodes_[node].number; }
    /// Of a text; "" of anything else and of no_json_node.
    [[nodiscard]] const std::string& text(JsonNode node) const;
    /// Name of a member within its object.
    [[nodiscard]] const std::string& key(JsonNode node) const;
    /// Items of a list or values of an object, one by one; no_json_node behind the last.
    [[nodiscard]] JsonNode first_child(JsonNode node) const;
    [[nodiscard]] JsonNode next(JsonNode node) const { return nodes_[node].next; }
    /// The member of an object, the last one where it is there more than once; no_json_node where there is none.
    [[nodiscard]] JsonNode find(JsonNode object, std::string_view key) const;

private:
    friend class JsonTreeMaker;
    struct Node {
        double number = 0;
        std::uint32_t begin = 0;
        std::uint32_t end = 0;
        JsonNode next = no_json_node;
        JsonNode first_child = no_json_node;  ///< Of a text: its index in texts_.
        std::int32_t key = -1;                ///< Index into texts_.
        JsonKind kind = JsonKind::null;
    };
    std::string_view source_;
    std::vector<Node> nodes_;
    std::vector<std::string> texts_;
};

/// A value for messages, in quotes and shortened.
std::string shown_value(const JsonTree& tree, JsonNode node);

/// Takes an item of the list while it is read; its tree lives for the call only.
using JsonItemTaker = std::function<void(const JsonTree&, JsonNode)>;

/// What became of a parse.
struct JsonParse {
    JsonTree tree;               ///< The value; node 0 is the root. The list handed out is empty in it.
    std::size_t end = 0;         ///< One behind the last byte of the value, or where the parser stopped.
    std::string problem;         ///< Why it stopped; empty where all is well.
    std::size_t problem_at = 0;  ///< Offset of it.
};

/// Parses one JSON value (RFC 8259) that starts at `from`, and stops behind it. Items of the list that is member
/// `list_name` of the root object go to `take_item`. Nesting deeper than 100 is refused, and more
/// than 12 million values in one tree. The text is below 4 GiB.
JsonParse parse_json(std::string_view text, std::size_t from, std::string_view list_name,
                     const JsonItemTaker& take_item);

}  // namespace spadework::drawn_map
