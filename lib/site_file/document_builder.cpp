#include "site_file/document_builder.hpp"

#include <algorithm>

namespace spadework::site_file {

namespace {

/// Most values that references to earlier ones ("*name") may add.
constexpr std::size_t most_copied_nodes = 100'000;

}  // namespace

bool DocumentBuilder::scalar(int line, int column, std::string text, bool in_quotes) {
    return append({NodeKind::scalar, in_quotes, line, column, no_node, no_node, std::move(text)});
}

bool DocumentBuilder::null(int line, int column) {
    return append({NodeKind::null, false, line, column, no_node, no_node, {}});
}

bool DocumentBuilder::start(NodeKind kind, int line, int column) {
    const NodeId node = next_id();
    if (!append({kind, false, line, column, no_node, no_node, {}})) return false;
    if (static_cast<int>(open_.size()) >= deepest_nesting) {
        return fail(line, column, "values nested more than " + std::to_string(deepest_nesting) + " deep",
                    "at most " + std::to_string(deepest_nesting) + " levels");
    }
    open_.push_back({node, no_node});
    return true;
}

void DocumentBuilder::end() {
    if (!open_.empty()) open_.pop_back();
}

bool DocumentBuilder::is_open(NodeId node) const {
    return std::any_of(open_.begin(), open_.end(), [node](const Open& o) { return o.node == node; });
}

bool DocumentBuilder::copy(NodeId original, int line, int column) {
    struct Task {
        NodeId node;
        bool leave;
    };
    std::vector<Task> tasks = {{original, false}};
    while (!tasks.empty()) {
        const Task task = tasks.back();
        tasks.pop_back();
        if (task.leave) {
            end();
            continue;
        }
        if (++copied_ > most_copied_nodes) {
            return fail(line, column, "references to earlier values that grow without end",
                        "at most " + std::to_string(most_copied_nodes) + " values repeated by '*name'");
        }
        const Node node = document_.at(task.node);
        if (node.kind == NodeKind::scalar || node.kind == NodeKind::null) {
            if (!append({node.kind, node.quoted, line, column, no_node, no_node, node.text})) return false;
            continue;
        }
        if (!start(node.kind, line, column)) return false;
        tasks.push_back({no_node, true});
        const std::vector<NodeId> children = document_.children(task.node);
        for (auto child = children.rbegin(); child != children.rend(); ++child)
            tasks.push_back({*child, false});
    }
    return true;
}

bool DocumentBuilder::append(Node node) {
    const NodeId id = next_id();
    if (document_.nodes.size() >= most_nodes) {
        return fail(node.line, node.column, "more than " + std::to_string(most_nodes) + " values in one file",
                    "a smaller file");
    }
    if (open_.empty()) {
        document_.root = id;
    } else {
        Open& parent = open_.back();
        auto& link = parent.last_child == no_node ? document_.nodes[static_cast<std::size_t>(parent.node)].first_child
                                                  : document_.nodes[static_cast<std::size_t>(parent.last_child)].next;
        link = id;
        parent.last_child = id;
    }
    document_.nodes.push_back(std::move(node));
    return true;
}

bool DocumentBuilder::fail(int line, int column, std::string found, std::string wanted) {
    problem_ = {{document_.file, line, column}, Severity::error, std::move(found), std::move(wanted), {}};
    return false;
}

}  // namespace spadework::site_file
