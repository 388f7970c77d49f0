#include "spadework/excerpt.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "report/shown_text.hpp"

namespace spadework {

namespace {

constexpr std::size_t most_before = 60;  ///< Bytes shown before the column.
constexpr std::size_t most_after = 40;   ///< Bytes shown from the column on.

std::optional<std::string_view> line_of(std::string_view text, int number) {
    for (int i = 1; i < number; ++i) {
        const std::size_t end = text.find('\n');
        if (end == std::string_view::npos) return std::nullopt;
        text.remove_prefix(end + 1);
    }
    std::string_view line = text.substr(0, text.find('\n'));
    if (line.ends_with('\r')) line.remove_suffix(1);
    return line;
}

bool continues_a_character(char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

/// The nearest start of a character at or before `at`.
std::size_t character_start(std::string_view line, std::size_t at) {
    while (at > 0 && at < line.size() && continues_a_character(line[at]))
        --at;
    return at;
}

std::string with_spaces_for_tabs(std::string_view text) {
    std::string spaced(text);
    std::replace(spaced.begin(), spaced.end(), '\t', ' ');
    return report::shown(spaced);
}

}  // namespace

std::string excerpt(std::string_view text, const SourcePosition& where) {
    if (where.line < 1) return "";
    const auto line = line_of(text, where.line);
    if (!line) return "";
    const std::size_t column = std::min(static_cast<std::size_t>(std::max(where.column, 1)) - 1, line->size());
    const std::size_t caret = character_start(*line, column);
    const std::size_t begin = caret > most_before ? character_start(*line, caret - most_before) : 0;
    const std::size_t end = character_start(*line, std::min(line->size(), caret + most_after));
    const std::string before = with_spaces_for_tabs(line->substr(begin, caret - begin));
    const std::string after = with_spaces_for_tabs(line->substr(caret, end - caret));
    const std::string indent(static_cast<std::size_t>(report::display_width(before)), ' ');
    return fmt::format("{:>6} | {}{}\n{:>6} | {}^\n", where.line, before, after, "", indent);
}

}  // namespace spadework
