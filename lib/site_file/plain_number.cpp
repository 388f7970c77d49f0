#include "site_file/plain_number.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace spadework::site_file {

namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Takes digits off the front; how many there were.
std::size_t take_digits(std::string_view& rest) {
    const auto end = std::find_if_not(rest.begin(), rest.end(), is_digit);
    const auto count = static_cast<std::size_t>(end - rest.begin());
    rest.remove_prefix(count);
    return count;
}

bool take(std::string_view& rest, char c) {
    if (rest.empty() || rest.front() != c) return false;
    rest.remove_prefix(1);
    return true;
}

std::string problem_of_rest(std::string_view text, std::string_view rest) {
    const bool starts_with_digit = is_digit(text.front()) || (text.size() > 1 && is_digit(text[1]));
    if (text == ".nan" || text == ".NaN" || text == ".NAN" || text == "nan" || text == "NaN") return "not a number";
    if (text.find("inf") != std::string_view::npos || text.find("Inf") != std::string_view::npos) {
        return "not a finite number";
    }
    if (text.front() == '+') return "a number with a plus sign";
    if (text.front() == '.' && text.size() > 1 && is_digit(text[1])) return "a number without a digit before the point";
    if (!starts_with_digit) return "not a number";
    switch (rest.empty() ? '\0' : rest.front()) {
        case 'x':
        case 'X':
            return "a hexadecimal number";
        case 'o':
            return "an octal number";
        case ':':
            return "a number with a colon";
        case '_':
        case ',':
        case '\'':
            return "a number with a separator";
        case 'e':
        case 'E':
            return "a number with an exponent";
        default:
            return "not a plain number";
    }
}

bool take_exponent(std::string_view& rest) {
    if (!take(rest, 'e') && !take(rest, 'E')) return true;
    if (!take(rest, '-')) take(rest, '+');
    return take_digits(rest) > 0;
}

}  // namespace

PlainNumber plain_number(std::string_view text, Syntax syntax) {
    if (text.empty()) return {0, "not a number"};
    std::string_view rest = text;
    take(rest, '-');
    const std::string_view whole_part = rest;
    const std::size_t digits = take_digits(rest);
    if (digits == 0) return {0, problem_of_rest(text, rest)};
    if (digits > 1 && whole_part.front() == '0') return {0, "a number with a leading zero"};
    if (take(rest, '.') && take_digits(rest) == 0) return {0, "a number without a digit behind the point"};
    if (syntax == Syntax::json && !take_exponent(rest)) return {0, "not a plain number"};
    if (!rest.empty()) return {0, problem_of_rest(text, rest)};
    double value = 0;
    const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || stop != text.data() + text.size() || !std::isfinite(value)) {
        return {0, "a number too large or too small to hold"};
    }
    return {value, {}};
}

std::string decimal_text(double value) {
    char buffer[400];
    const auto [end, error] = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed);
    return error == std::errc() ? std::string(buffer, end) : std::string();
}

}  // namespace spadework::site_file
