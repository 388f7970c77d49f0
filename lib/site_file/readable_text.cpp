#include <fmt/format.h>

#include "diagnostics/character.hpp"
#include "site_file/parsing.hpp"

namespace spadework::site_file {

namespace {

SourcePosition position_at(const SourceText& source, std::size_t offset) {
    SourcePosition where{source.file, 1, 1};
    for (std::size_t i = 0; i < offset; ++i) {
        ++where.column;
        if (source.text[i] == '\n') {
            ++where.line;
            where.column = 1;
        }
    }
    return where;
}

bool is_bad_control(char c) {
    const auto byte = static_cast<unsigned char>(c);
    return (byte < 0x20 && c != '\t' && c != '\n' && c != '\r') || byte == 0x7F;
}

}  // namespace

bool is_readable(const SourceText& source, Diagnostics& diagnostics) {
    const auto refuse = [&](SourcePosition where, std::string found, std::string wanted) {
        diagnostics.push_back({std::move(where), Severity::error, std::move(found), std::move(wanted), {}});
        return false;
    };
    if (source.text.size() > largest_file_bytes) {
        return refuse({source.file, 0, 0}, fmt::format("a file of {} bytes", source.text.size()),
                      fmt::format("at most {} bytes", largest_file_bytes));
    }
    for (std::size_t i = 0; i < source.text.size();) {
        const Character character = character_at(source.text, i);
        if (!character.valid)
            return refuse(position_at(source, i), "a byte that is not UTF-8 text", "a text file in UTF-8");
        if (character.bytes == 1 && is_bad_control(source.text[i])) {
            return refuse(position_at(source, i),
                          fmt::format("control character U+{:04X}", static_cast<unsigned>(source.text[i])),
                          "a text file in UTF-8");
        }
        i += character.bytes;
    }
    return true;
}

}  // namespace spadework::site_file
