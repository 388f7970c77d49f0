#include <algorithm>

#include "site_file/fields.hpp"

namespace spadework::site_file {

namespace {

unsigned char byte(char c) {
    return static_cast<unsigned char>(c);
}

/// A control character stands in the text: U+0000 to U+001F, U+007F, or U+0080 to U+009F, which UTF-8 writes as C2 and
/// one more byte.
bool has_control(std::string_view text, bool lines) {
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool is_layout = lines && (text[i] == '\n' || text[i] == '\t');
        if ((byte(text[i]) < 0x20 && !is_layout) || byte(text[i]) == 0x7F) return true;
        if (byte(text[i]) == 0xC2 && i + 1 < text.size() && byte(text[i + 1]) < 0xA0) return true;
    }
    return false;
}

}  // namespace

std::string problem_of_text(std::string_view text, bool lines) {
    constexpr std::size_t longest_bytes = 10'000;
    if (text.empty()) return "an empty text";
    if (text.size() > longest_bytes) return "a text of more than 10000 bytes";
    if (has_control(text, lines)) return "with a line end or control character in it";
    return {};
}

std::string problem_of_id(std::string_view text) {
    if (text.size() > 200) return "longer than 200 bytes";
    if (std::string problem = problem_of_text(text, false); !problem.empty()) return problem;
    if (text.front() == ' ' || text.back() == ' ') return "with a space at its end";
    return {};
}

}  // namespace spadework::site_file
