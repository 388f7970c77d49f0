#include <nlohmann/json.hpp>

#include "diagnostics/counting_iterator.hpp"
#include "site_file/document_builder.hpp"
#include "site_file/parsing.hpp"

namespace spadework::site_file {

namespace {

/// Takes the events of the JSON parser. The parser gives no positions: each value starts at the first byte after the
/// last one that is neither white space nor a separator.
class EventReader {
public:
    EventReader(const SourceText& source, Document& document, const std::size_t& read)
        : source_(source), builder_(document), read_(read) {}

    bool null() {
        return at_start([this] { return builder_.null(line_, column_); });
    }
    bool boolean(bool value) { return plain(value ? "true" : "false"); }
    bool number_integer(std::int64_t value) { return plain(std::to_string(value)); }
    bool number_unsigned(std::uint64_t value) { return plain(std::to_string(value)); }
    bool number_float(double /*value*/, const std::string& text) { return plain(text); }
    bool string(std::string& text) { return in_quotes(text); }
    bool key(std::string& text) { return in_quotes(text); }
    bool binary(std::vector<std::uint8_t>& /*value*/) { return false; }
    bool start_object(std::size_t /*size*/) { return open(NodeKind::mapping); }
    bool start_array(std::size_t /*size*/) { return open(NodeKind::sequence); }
    bool end_object() { return close(); }
    bool end_array() { return close(); }

    bool parse_error(std::size_t /*byte*/, const std::string& /*token*/, const nlohmann::json::exception& error) {
        advance_to(std::min(read_ > 0 ? read_ - 1 : 0, source_.text.size()));
        const std::string said = error.what();
        const std::size_t detail = said.rfind(" - ");
        const std::size_t code = said.find("] ");
        const std::size_t from = detail != std::string::npos ? detail + 3 : code != std::string::npos ? code + 2 : 0;
        syntax_error_ = said.substr(from);
        return false;
    }

    /// Why the parser stopped.
    [[nodiscard]] Diagnostic problem() const {
        if (!builder_.problem().found.empty()) return builder_.problem();
        const std::string reason = syntax_error_.empty() ? "" : ": " + syntax_error_;
        return {{source_.file, line_, column_}, Severity::error, "text that is not JSON" + reason, {}, {}};
    }

private:
    bool plain(std::string text) {
        return at_start([&] { return builder_.scalar(line_, column_, std::move(text), false); });
    }
    bool in_quotes(const std::string& text) {
        return at_start([&] { return builder_.scalar(line_, column_, text, true); });
    }
    bool open(NodeKind kind) {
        return at_start([&] { return builder_.start(kind, line_, column_); });
    }
    bool close() {
        builder_.end();
        advance_to(read_);
        return true;
    }

    template <typename Event>
    bool at_start(Event event) {
        std::size_t start = offset_;
        while (start < source_.text.size() && std::string_view(" \t\r\n,:]}").find(source_.text[start]) != npos)
            ++start;
        advance_to(start);
        const bool taken = event();
        advance_to(read_);
        return taken;
    }

    /// Moves line and column on to a byte; never back.
    void advance_to(std::size_t offset) {
        for (; offset_ < offset; ++offset_) {
            ++column_;
            if (source_.text[offset_] == '\n') {
                ++line_;
                column_ = 1;
            }
        }
    }

    static constexpr auto npos = std::string_view::npos;

    const SourceText& source_;
    DocumentBuilder builder_;
    const std::size_t& read_;
    std::size_t offset_ = 0;
    int line_ = 1;
    int column_ = 1;
    std::string syntax_error_;
};

}  // namespace

std::optional<Document> parse_json(const SourceText& source, Diagnostics& diagnostics) {
    Document document;
    document.file = source.file;
    document.syntax = Syntax::json;
    std::size_t read = 0;
    EventReader reader(source, document, read);
    const char* begin = source.text.data();
    if (!nlohmann::json::sax_parse(CountingIterator(begin, read), CountingIterator(begin + source.text.size(), read),
                                   &reader)) {
        diagnostics.push_back(reader.problem());
        return std::nullopt;
    }
    return document;
}

}  // namespace spadework::site_file
