#include <sstream>
#include <utility>

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include "site_file/document_builder.hpp"
#include "site_file/parsing.hpp"

namespace spadework::site_file {

namespace {

/// Thrown out of the parser to stop it; the problem has been noted.
struct Stop {};

int from_one(int zero_based) {
    return zero_based + 1;
}

/// Turns the events of yaml-cpp into a document. Stops at the first thing that the format does not take, so that the
/// parser, which recurses for every level, never goes deeper than the builder allows.
class EventReader final : public YAML::EventHandler {
public:
    EventReader(Document& document, Diagnostics& diagnostics)
        : document_(document), diagnostics_(diagnostics), builder_(document) {}

    void OnDocumentStart(const YAML::Mark& mark) override {
        if (documents_++ > 0) refuse(mark, "a second document", "one document in the file");
    }
    void OnDocumentEnd() override {}

    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        remember(anchor);
        check(builder_.null(from_one(mark.line), from_one(mark.column)));
    }

    void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        const auto index = static_cast<std::size_t>(anchor);
        if (index >= anchored_.size() || anchored_[index] == no_node || builder_.is_open(anchored_[index])) {
            refuse(mark, "a reference ('*name') to a value that is not complete", "a value that stands earlier");
        }
        check(builder_.copy(anchored_[index], from_one(mark.line), from_one(mark.column)));
    }

    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override {
        refuse_tag(mark, tag);
        remember(anchor);
        check(builder_.scalar(from_one(mark.line), from_one(mark.column), value, tag == "!"));
    }

    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value /*style*/) override {
        open(NodeKind::sequence, mark, tag, anchor);
    }
    void OnSequenceEnd() override { builder_.end(); }

    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value /*style*/) override {
        open(NodeKind::mapping, mark, tag, anchor);
    }
    void OnMapEnd() override { builder_.end(); }

private:
    void open(NodeKind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor) {
        refuse_tag(mark, tag);
        remember(anchor);
        check(builder_.start(kind, from_one(mark.line), from_one(mark.column)));
    }

    void remember(YAML::anchor_t anchor) {
        const auto index = static_cast<std::size_t>(anchor);
        if (index == 0) return;
        if (anchored_.size() <= index) anchored_.resize(index + 1, no_node);
        anchored_[index] = builder_.next_id();
    }

    void refuse_tag(const YAML::Mark& mark, const std::string& tag) {
        if (!tag.empty() && tag != "?" && tag != "!") refuse(mark, "tag " + quoted(tag), "a value without a tag");
    }

    [[noreturn]] void refuse(const YAML::Mark& mark, std::string found, std::string wanted) {
        diagnostics_.push_back({{document_.file, from_one(mark.line), from_one(mark.column)},
                                Severity::error,
                                std::move(found),
                                std::move(wanted),
                                {}});
        throw Stop{};
    }

    void check(bool taken) {
        if (taken) return;
        diagnostics_.push_back(builder_.problem());
        throw Stop{};
    }

    Document& document_;
    Diagnostics& diagnostics_;
    DocumentBuilder builder_;
    std::vector<NodeId> anchored_;
    int documents_ = 0;
};

}  // namespace

std::optional<Document> parse_yaml(const SourceText& source, Diagnostics& diagnostics) {
    Document document;
    document.file = source.file;
    document.syntax = Syntax::yaml;
    EventReader reader(document, diagnostics);
    try {
        std::istringstream stream(source.text);
        YAML::Parser parser(stream);
        while (parser.HandleNextDocument(reader)) {
        }
    } catch (const Stop&) {
        return std::nullopt;
    } catch (const YAML::Exception& error) {
        diagnostics.push_back({{source.file, from_one(error.mark.line), from_one(error.mark.column)},
                               Severity::error,
                               "text that is not YAML: " + error.msg,
                               {},
                               {}});
        return std::nullopt;
    }
    if (document.root == no_node || document.at(document.root).kind == NodeKind::null) {
        diagnostics.push_back({{source.file, 1, 1}, Severity::error, "a file with nothing in it", "YAML", {}});
        return std::nullopt;
    }
    return document;
}

}  // namespace spadework::site_file
