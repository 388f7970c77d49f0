#pragma once

#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <string>
#include <string_view>

#include "site_file/document.hpp"
#include "site_file/fields.hpp"
#include "site_file/source_text.hpp"

namespace spadework::site_file {

/// FNV-1a, 64 bits, over any number of texts one after another (Fowler, Noll, Vo; draft-eastlake-fnv).
class Fnv1a64 {
public:
    void add(std::string_view bytes);
    [[nodiscard]] std::string hex() const;

private:
    std::uint64_t hash_ = 0xcbf29ce484222325U;
};

/// A part of the site: a node of the main file, or the whole of a file that the main file names instead.
struct Section {
    const Document* document = nullptr;
    NodeId node = no_node;  ///< no_node where there is nothing, or the file could not be read.
    bool failed = false;    ///< A file was named and could not be read; reported already.
};

/// The files of a site, parsed, with a digest of every byte read.
class Sources {
public:
    Sources(const SourceText& main, const FileLoader& load) : main_(main), load_(load) {}

    /// The main file, or null and errors.
    const Document* open_main(Reading& reading);
    /// A file named in `from` at `where`; its path is relative to that file. Null and errors where it cannot be read.
    /// Where numbers are replaced, a file read before is taken as it was parsed.
    const Document* open(const std::string& path, const Document& from, const SourcePosition& where, Syntax syntax,
                         Reading& reading);
    /// What stands behind a key: the node itself, or the file that it names.
    Section section(const Fields& fields, std::string_view key, Reading& reading);

    [[nodiscard]] std::string digest() const { return digest_.hex(); }
    /// What stood behind a key that section() was asked for; nothing where it was not.
    [[nodiscard]] Section section_read(std::string_view key) const;
    /// The parsed files, at the addresses they had. Nothing can be read from here afterwards.
    std::deque<Document> take_documents() { return std::move(documents_); }

private:
    Section find_section(const Fields& fields, std::string_view key, Reading& reading);
    const Document* parse(const SourceText& source, std::string path, Syntax syntax, Reading& reading);

    const SourceText& main_;
    const FileLoader& load_;
    std::deque<Document> documents_;
    std::map<std::string, Section, std::less<>> sections_;
    Fnv1a64 digest_;
};

/// Joins the folder of one path with another path: "maps/a.yaml" and "b.geojson" give "maps/b.geojson".
std::string beside(std::string_view file, std::string_view path);

}  // namespace spadework::site_file
