#include "report/json_writer.hpp"

#include <cmath>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

std::string escaped(char c) {
    switch (c) {
        case '"':
            return "\\\"";
        case '\\':
            return "\\\\";
        case '\n':
            return "\\n";
        case '\r':
            return "\\r";
        case '\t':
            return "\\t";
        default:
            break;
    }
    const auto code = static_cast<unsigned char>(c);
    if (code < 0x20 || code == 0x7F) return fmt::format("\\u{:04x}", code);
    return {c};
}

std::string quoted(std::string_view value) {
    std::string result = "\"";
    for (const char c : valid_utf8(value))
        result += escaped(c);
    return result + "\"";
}

}  // namespace

void JsonWriter::begin(char opening, char closing, Shape shape) {
    raw(std::string_view(&opening, 1));
    const bool inside_line = !levels_.empty() && levels_.back().shape == Shape::one_line;
    levels_.push_back({closing, inside_line ? Shape::one_line : shape, true});
}

void JsonWriter::end() {
    const Level level = levels_.back();
    levels_.pop_back();
    if (!level.empty && level.shape == Shape::lines) break_line();
    text_ += level.closing;
}

JsonWriter& JsonWriter::key(std::string_view name) {
    start_member();
    text_ += quoted(name) + ": ";
    after_key_ = true;
    return *this;
}

void JsonWriter::text(std::string_view value) {
    raw(quoted(value));
}

void JsonWriter::whole(std::int64_t value) {
    raw(std::to_string(value));
}

void JsonWriter::unsigned_whole(std::uint64_t value) {
    raw(std::to_string(value));
}

void JsonWriter::flag(bool value) {
    raw(value ? "true" : "false");
}

void JsonWriter::null() {
    raw("null");
}

void JsonWriter::number(double value, int most_digits) {
    raw(std::isfinite(value) ? plain(value, most_digits) : "null");
}

void JsonWriter::exact(double value) {
    raw(std::isfinite(value) ? plain_exact(value) : "null");
}

void JsonWriter::money(Money value, const Currency& currency) {
    raw(decimal_text(value, currency));
}

void JsonWriter::metres(Length value) {
    raw(plain_metres(value));
}

void JsonWriter::unit_price(UnitPrice value, const Currency& currency) {
    raw(plain(value, currency));
}

void JsonWriter::raw(std::string_view token) {
    if (!after_key_) start_member();
    after_key_ = false;
    text_ += token;
}

void JsonWriter::start_member() {
    if (levels_.empty()) return;
    Level& level = levels_.back();
    if (!level.empty) text_ += level.shape == Shape::one_line ? ", " : ",";
    level.empty = false;
    if (level.shape == Shape::lines) break_line();
}

void JsonWriter::break_line() {
    text_ += "\n" + std::string(2 * levels_.size(), ' ');
}

}  // namespace spadework::report
