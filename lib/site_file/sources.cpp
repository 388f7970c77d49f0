#include "site_file/sources.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "site_file/parsing.hpp"

namespace spadework::site_file {

void Fnv1a64::add(std::string_view bytes) {
    constexpr std::uint64_t prime = 0x100000001b3U;
    for (const char byte : bytes) {
        hash_ ^= static_cast<unsigned char>(byte);
        hash_ *= prime;
    }
}

std::string Fnv1a64::hex() const {
    return fmt::format("{:016x}", hash_);
}

std::string beside(std::string_view file, std::string_view path) {
    const std::size_t slash = file.rfind('/');
    if (slash == std::string_view::npos) return std::string(path);
    return std::string(file.substr(0, slash + 1)) + std::string(path);
}

const Document* Sources::parse(const SourceText& source, std::string path, Syntax syntax, Reading& reading) {
    digest_.add(source.text);
    Diagnostics problems;
    std::optional<Document> document;
    if (is_readable(source, problems)) {
        document = syntax == Syntax::yaml ? parse_yaml(source, problems) : parse_json(source, problems);
    }
    for (Diagnostic& problem : problems)
        reading.diagnostics.push_back(std::move(problem));
    if (!document) return nullptr;
    document->path = std::move(path);
    return &documents_.emplace_back(std::move(*document));
}

const Document* Sources::open_main(Reading& reading) {
    return parse(main_, "", Syntax::yaml, reading);
}

const Document* Sources::open(const std::string& path, const Document& from, const SourcePosition& where, Syntax syntax,
                              Reading& reading) {
    const bool absolute = path.empty() || path.front() == '/' || path.find('\\') != std::string::npos ||
                          (path.size() > 1 && path[1] == ':');
    if (absolute) {
        reading.error(where, fmt::format("path {}", quoted(path)),
                      "a path relative to this file, with '/' between folders");
        return nullptr;
    }
    const std::string relative = beside(from.path, path);
    const auto parsed = std::find_if(documents_.begin(), documents_.end(), [&](const Document& document) {
        return document.path == relative && document.syntax == syntax;
    });
    if (parsed != documents_.end() && reading.replaced != nullptr) return &*parsed;
    LoadedText loaded = load_ ? load_(relative) : LoadedText{std::nullopt, "no files are read here"};
    if (!loaded.text) {
        reading.error(where, fmt::format("file {} cannot be read: {}", quoted(path), loaded.problem),
                      "the path of a readable file");
        return nullptr;
    }
    if (parsed != documents_.end()) {
        digest_.add(*loaded.text);
        return &*parsed;
    }
    return parse({beside(main_.file, relative), std::move(*loaded.text)}, relative, syntax, reading);
}

Section Sources::section_read(std::string_view key) const {
    const auto found = sections_.find(key);
    return found == sections_.end() ? Section() : found->second;
}

Section Sources::section(const Fields& fields, std::string_view key, Reading& reading) {
    return sections_[std::string(key)] = find_section(fields, key, reading);
}

Section Sources::find_section(const Fields& fields, std::string_view key, Reading& reading) {
    const Document& document = fields.document();
    const NodeId node = fields.node(key);
    if (node == no_node || document.at(node).kind != NodeKind::scalar) return {&document, node, false};
    const Document* other = open(document.at(node).text, document, document.position(node), Syntax::yaml, reading);
    if (other == nullptr) return {&document, no_node, true};
    return {other, other->root, false};
}

}  // namespace spadework::site_file
