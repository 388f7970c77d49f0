#include "drawn_map/text_encoding.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

constexpr auto npos = std::string_view::npos;

unsigned byte(char c) {
    return static_cast<unsigned char>(c);
}

void append_character(std::string& text, std::uint32_t code) {
    const auto put = [&text](std::uint32_t bits) { text += static_cast<char>(bits); };
    if (code < 0x80) {
        put(code);
    } else if (code < 0x800) {
        put(0xC0 | (code >> 6));
        put(0x80 | (code & 0x3F));
    } else if (code < 0x10000) {
        put(0xE0 | (code >> 12));
        put(0x80 | ((code >> 6) & 0x3F));
        put(0x80 | (code & 0x3F));
    } else {
        put(0xF0 | (code >> 18));
        put(0x80 | ((code >> 12) & 0x3F));
        put(0x80 | ((code >> 6) & 0x3F));
        put(0x80 | (code & 0x3F));
    }
}

/// Code points of the bytes 80 to 9F in Windows-1252; 0 where it has none. The other bytes are their own code points.
constexpr std::array<std::uint16_t, 32> windows_1252 = {0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                        0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                                        0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                        0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

/// ISO 8859-1 differs from Windows-1252 in control characters only, so that one table does for both.
std::string from_windows_1252(std::string_view bytes) {
    std::string text;
    text.reserve(bytes.size() + bytes.size() / 8);
    for (const char c : bytes) {
        const bool special = byte(c) >= 0x80 && byte(c) < 0xA0;
        const std::uint32_t code = special ? windows_1252[byte(c) - 0x80] : byte(c);
        append_character(text, code == 0 && special ? 0xFFFD : code);
    }
    return text;
}

/// A surrogate without its partner becomes the replacement character.
std::string from_utf16(std::string_view bytes, bool big_endian) {
    const auto unit = [&](std::size_t i) -> std::uint32_t {
        return big_endian ? byte(bytes[i]) << 8 | byte(bytes[i + 1]) : byte(bytes[i + 1]) << 8 | byte(bytes[i]);
    };
    std::string text;
    text.reserve(bytes.size());
    for (std::size_t i = 0; i + 1 < bytes.size(); i += 2) {
        std::uint32_t code = unit(i);
        const bool high = code >= 0xD800 && code < 0xDC00;
        const std::uint32_t next = high && i + 3 < bytes.size() ? unit(i + 2) : 0;
        if (high && next >= 0xDC00 && next < 0xE000) {
            code = 0x10000 + ((code - 0xD800) << 10) + (next - 0xDC00);
            i += 2;
        } else if (code >= 0xD800 && code < 0xE000) {
            code = 0xFFFD;
        }
        append_character(text, code);
    }
    return text;
}

bool refuse(Utf8Text& text, std::size_t offset, std::string problem) {
    text.offset = offset;
    text.problem = std::move(problem);
    text.wanted = "a text in UTF-8";
    return false;
}

/// Takes UTF-16 and byte order marks; tells whether the bytes were told apart by them.
bool is_utf16(std::string_view bytes, Utf8Text& text) {
    if (bytes.size() < 2) return false;
    const bool low_mark = bytes.starts_with("\xFF\xFE");
    const bool high_mark = bytes.starts_with("\xFE\xFF");
    const bool low = low_mark || (bytes[0] != 0 && bytes[1] == 0);
    const bool high = high_mark || (bytes[0] == 0 && bytes[1] != 0);
    if (!low && !high) return false;
    text.converted = from_utf16(bytes.substr(low_mark || high_mark ? 2 : 0), high);
    text.encoding = "UTF-16";
    return true;
}

/// The encoding that an XML declaration names, in small letters; "" where there is none.
std::string declared_encoding(std::string_view bytes) {
    if (!bytes.starts_with("<?xml")) return {};
    const std::string_view declaration = bytes.substr(0, std::min<std::size_t>(bytes.find("?>"), 200));
    const std::size_t word = declaration.find("encoding");
    const std::size_t open = word == npos ? npos : declaration.find_first_of("\"'", word);
    if (open == npos) return {};
    const std::size_t close = declaration.find(declaration[open], open + 1);
    return close == npos ? std::string() : small_letters(declaration.substr(open + 1, close - open - 1));
}

/// Offset of the first byte that is not UTF-8; npos where all are.
std::size_t first_not_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = character_length(text, i);
        if (length == 0) return i;
        i += length;
    }
    return npos;
}

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::ranges::find(words, word) != words.end();
}

void convert_windows_1252(std::string_view bytes, Utf8Text& text) {
    text.converted = from_windows_1252(bytes);
    text.text = text.converted;
    text.encoding = "Windows-1252";
}

}  // namespace

bool read_as_utf8(std::string_view bytes, bool guess, Utf8Text& text) {
    constexpr std::string_view two_zero_bytes("\0\0", 2);
    if (bytes.starts_with("\xFF\xFE") && bytes.substr(2).starts_with(two_zero_bytes))
        return refuse(text, 0, "a text in UTF-32");
    if (is_utf16(bytes, text)) {
        text.text = text.converted;
    } else {
        if (bytes.starts_with("\xEF\xBB\xBF")) bytes.remove_prefix(3);
        text.text = bytes;
        const std::string declared = declared_encoding(bytes);
        if (is_one_of(declared, {"iso-8859-1", "latin1", "windows-1252", "cp1252", "iso-8859-15"})) {
            convert_windows_1252(bytes, text);
        } else if (!is_one_of(declared, {"", "utf-8", "utf8", "us-ascii", "ascii", "utf-16"})) {
            return refuse(text, 0, "a text that says it is encoded in " + shown(declared));
        }
    }
    if (const std::size_t zero = text.text.find('\0'); zero != npos) return refuse(text, zero, "a zero byte in a text");
    const std::size_t bad = first_not_utf8(text.text);
    if (bad == npos) return true;
    if (!guess) return refuse(text, bad, fmt::format("byte {:02X}, which is not UTF-8", byte(text.text[bad])));
    convert_windows_1252(text.text, text);
    return true;
}

}  // namespace spadework::drawn_map
