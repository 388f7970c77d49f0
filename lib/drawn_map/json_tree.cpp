#include "drawn_map/json_tree.hpp"

#include <algorithm>

#include <nlohmann/json.hpp>

#include "diagnostics/counting_iterator.hpp"
#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

/// What the parser says is wrong, without the codes and places that it puts around it.
std::string reason_of(const std::string& said) {
    const std::size_t detail = said.rfind(" - ");
    const std::size_t code = said.find("] ");
    if (detail != std::string::npos) return said.substr(detail + 3);
    return code != std::string::npos ? said.substr(code + 2) : said;
}

}  // namespace

const std::string& JsonTree::text(JsonNode node) const {
    static const std::string none;
    return node == no_json_node || kind(node) != JsonKind::text ? none : texts_[nodes_[node].first_child];
}

const std::string& JsonTree::key(JsonNode node) const {
    static const std::string none;
    return nodes_[node].key < 0 ? none : texts_[static_cast<std::size_t>(nodes_[node].key)];
}

JsonNode JsonTree::first_child(JsonNode node) const {
    return node == no_json_node || kind(node) == JsonKind::text ? no_json_node : nodes_[node].first_child;
}

JsonNode JsonTree::find(JsonNode object, std::string_view name) const {
    if (object == no_json_node || kind(object) != JsonKind::object) return no_json_node;
    JsonNode found = no_json_node;
    for (JsonNode member = first_child(object); member != no_json_node; member = next(member)) {
        if (key(member) == name) found = member;
    }
    return found;
}

std::string shown_value(const JsonTree& tree, JsonNode node) {
    return shown(tree.kind(node) == JsonKind::text ? std::string_view(tree.text(node)) : tree.source(node));
}

/// Takes the events of the parser, which gives no positions: each value starts at the first byte after the last one
/// that is neither white space nor a separator.
class JsonTreeMaker {
public:
    JsonTreeMaker(std::string_view text, std::size_t from, std::string_view list_name, const JsonItemTaker& take_item)
        : text_(text), list_name_(list_name), take_item_(take_item), read_(from), done_(from) {}

    JsonParse parse() {
        const char* begin = text_.data();
        tree().source_ = text_;
        constexpr bool to_the_end = false;
        nlohmann::json::sax_parse(CountingIterator(begin + read_, read_), CountingIterator(begin + text_.size(), read_),
                                  this, nlohmann::json::input_format_t::json, to_the_end);
        result_.end = std::min(read_, text_.size());
        return std::move(result_);
    }

    bool null() { return leaf(JsonKind::null, 0); }
    bool boolean(bool value) { return leaf(JsonKind::boolean, value ? 1 : 0); }
    bool number_integer(std::int64_t value) { return leaf(JsonKind::number, static_cast<double>(value)); }
    bool number_unsigned(std::uint64_t value) { return leaf(JsonKind::number, static_cast<double>(value)); }
    bool number_float(double value, const std::string& /*text*/) { return leaf(JsonKind::number, value); }
    bool binary(std::vector<std::uint8_t>& /*value*/) { return false; }
    bool start_object(std::size_t /*size*/) { return open(JsonKind::object); }
    bool start_array(std::size_t /*size*/) { return open(JsonKind::list); }
    bool end_object() { return close(); }
    bool end_array() { return close(); }

    bool string(std::string& value) {
        if (!has_room()) return false;
        const JsonNode node = add(JsonKind::text);
        tree().nodes_[node].first_child = static_cast<JsonNode>(keep(value));
        return end_of(node);
    }

    bool key(std::string& name) {
        key_is_list_ = open_.size() == 1 && name == list_name_;
        key_ = keep(name);
        done_ = read_;
        return true;
    }

    bool parse_error(std::size_t /*byte*/, const std::string& /*token*/, const nlohmann::json::exception& error) {
        return stop(std::min(read_ > 0 ? read_ - 1 : 0, text_.size()), reason_of(error.what()));
    }

private:
    JsonTree& tree() { return result_.tree; }

    bool stop(std::size_t offset, std::string problem) {
        result_.problem = std::move(problem);
        result_.problem_at = offset;
        return false;
    }

    std::int32_t keep(std::string& text) {
        tree().texts_.push_back(std::move(text));
        return static_cast<std::int32_t>(tree().texts_.size() - 1);
    }

    /// There is room for one more value.
    bool has_room() {
        constexpr std::size_t most_values = 12'000'000;
        if (tree().nodes_.size() < most_values) return true;
        return stop(done_, "more than 12 million values in one");
    }

    JsonNode add(JsonKind kind) {
        std::size_t start = done_;
        while (start < text_.size() && std::string_view(" \t\r\n,:").find(text_[start]) != std::string_view::npos)
            ++start;
        const auto node = static_cast<JsonNode>(tree().nodes_.size());
        tree().nodes_.push_back({.begin = static_cast<std::uint32_t>(start), .key = key_, .kind = kind});
        key_ = -1;
        if (open_.empty()) return node;
        Open& parent = open_.back();
        (parent.last_child == no_json_node ? tree().nodes_[parent.node].first_child
                                           : tree().nodes_[parent.last_child].next) = node;
        parent.last_child = node;
        return node;
    }

    bool leaf(JsonKind kind, double number) {
        if (!has_room()) return false;
        const JsonNode node = add(kind);
        tree().nodes_[node].number = number;
        return end_of(node);
    }

    bool open(JsonKind kind) {
        constexpr std::size_t deepest = 100;
        if (!has_room()) return false;
        const bool is_list = kind == JsonKind::list && key_is_list_;
        key_is_list_ = false;
        const JsonNode node = add(kind);
        if (open_.size() >= deepest) return stop(tree().nodes_[node].begin, "values nested more than 100 deep");
        open_.push_back({node, no_json_node});
        if (is_list) {
            handing_out_ = open_.size();
            texts_before_item_ = tree().texts_.size();
        }
        done_ = read_;
        return true;
    }

    bool close() {
        const JsonNode node = open_.back().node;
        if (handing_out_ == open_.size()) handing_out_ = 0;
        open_.pop_back();
        return end_of(node);
    }

    bool end_of(JsonNode node) {
        key_is_list_ = false;
        // A number is known to have ended only when the byte behind it was read.
        done_ = tree().kind(node) == JsonKind::number ? read_ - 1 : read_;
        tree().nodes_[node].end = static_cast<std::uint32_t>(done_);
        if (handing_out_ > 0 && handing_out_ == open_.size()) {
            take_item_(tree(), node);
            forget_from(node);
        }
        return true;
    }

    /// Forgets an item of the list that is handed out.
    void forget_from(JsonNode node) {
        const auto texts = static_cast<std::size_t>(texts_before_item_);
        tree().nodes_.resize(node);
        tree().texts_.resize(std::min(texts, tree().texts_.size()));
        tree().nodes_[open_.back().node].first_child = no_json_node;
        open_.back().last_child = no_json_node;
    }

    struct Open {
        JsonNode node;
        JsonNode last_child;
    };
    std::string_view text_;
    std::string_view list_name_;
    const JsonItemTaker& take_item_;
    std::size_t read_;
    std::size_t done_;
    JsonParse result_;
    std::vector<Open> open_;
    std::size_t handing_out_ = 0;  ///< Depth of the list whose items are handed out; 0 outside.
    std::size_t texts_before_item_ = 0;
    std::int32_t key_ = -1;
    bool key_is_list_ = false;
};

JsonParse parse_json(std::string_view text, std::size_t from, std::string_view list_name,
                     const JsonItemTaker& take_item) {
    return JsonTreeMaker(text, from, list_name, take_item).parse();
}

}  // namespace spadework::drawn_map
