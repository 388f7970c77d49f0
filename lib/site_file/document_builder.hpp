#pragma once

#include <string>
#include <vector>

#include "site_file/document.hpp"

namespace spadework::site_file {

/// Most levels of nesting a file may have. The format itself needs 8.
inline constexpr int deepest_nesting = 64;
/// Most values a file may hold.
inline constexpr std::size_t most_nodes = 6'000'000;

/// Puts a document together from the events of a parser. Every method returns false, and keeps the reason in problem(),
/// once a limit is passed; the parser should then stop.
class DocumentBuilder {
public:
    explicit DocumentBuilder(Document& document) : document_(document) {}

    bool scalar(int line, int column, std::string text, bool in_quotes);
    bool null(int line, int column);
    bool start(NodeKind kind, int line, int column);
    void end();
    /// Hangs a copy of an earlier node, with everything below it, under the current one.
    bool copy(NodeId original, int line, int column);

    [[nodiscard]] const Diagnostic& problem() const { return problem_; }
    /// The node that the next event will make.
    [[nodiscard]] NodeId next_id() const { return static_cast<NodeId>(document_.nodes.size()); }
    /// The node is still open: it holds the current one.
    [[nodiscard]] bool is_open(NodeId node) const;

private:
    struct Open {
        NodeId node;
        NodeId last_child;
    };

    bool append(Node node);
    bool fail(int line, int column, std::string found, std::string wanted);

    Document& document_;
    std::vector<Open> open_;
    std::size_t copied_ = 0;
    Diagnostic problem_;
};

}  // namespace spadework::site_file
