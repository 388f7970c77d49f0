#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace spadework::drawn_map {

/// A text in UTF-8 without a byte order mark.
struct Utf8Text {
    std::string_view text;
    std::string converted;   ///< Holds the text where the bytes were in another encoding.
    std::string encoding;    ///< What they were in, where that was not UTF-8: "UTF-16", "Windows-1252".
    std::string problem;     ///< Why there is no text; empty where all is well.
    std::string wanted;      ///< What would be right.
    std::size_t offset = 0;  ///< Of the problem.

    Utf8Text() = default;
    Utf8Text(const Utf8Text&) = delete;
    Utf8Text& operator=(const Utf8Text&) = delete;
};

/// Reads bytes as text: UTF-8, UTF-16 with or without a byte order mark, and what the declaration of an XML document
/// names. `guess` takes bytes that are not UTF-8 for Windows-1252, which spreadsheets save by default.
/// `text` gets views into `bytes` or into itself. Tells whether there is a text.
bool read_as_utf8(std::string_view bytes, bool guess, Utf8Text& text);

}  // namespace spadework::drawn_map
