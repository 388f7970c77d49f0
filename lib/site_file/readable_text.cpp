#include <fmt/format.h>

#include "site_file/parsing.hpp"

namespace spadework::site_file {

namespace {

/// Bytes of the UTF-8 character that starts at `at` (RFC 3629), or 0 where none does.
std::size_t character_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(at);
    if (lead < 0x80) return 1;
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || at + length > text.size()) return 0;
    for (std::size_t i = at + 1; i < at + length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80U) return 0;
    }
    const unsigned char second = byte(at + 1);
    const bool overlong = (lead == 0xE0 && second < 0xA0) || (lead == 0xF0 && second < 0x90);
    const bool surrogate = lead == 0xED && second > 0x9F;
    const bool beyond_last = lead == 0xF4 && second > 0x8F;
    return overlong || surrogate || beyond_last ? 0 : length;
}

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
        const std::size_t length = character_length(source.text, i);
        if (length == 0) return refuse(position_at(source, i), "a byte that is not UTF-8 text", "a text file in UTF-8");
        if (length == 1 && is_bad_control(source.text[i])) {
            return refuse(position_at(source, i),
                          fmt::format("control character U+{:04X}", static_cast<unsigned>(source.text[i])),
                          "a text file in UTF-8");
        }
        i += length;
    }
    return true;
}

}  // namespace spadework::site_file
