#include "json/json_value.hpp"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "diagnostics/shown_text.hpp"

namespace spadework::json {

namespace {

constexpr int deepest = 16;
constexpr std::int64_t most_values = 4'000'000;

/// Where the text stops being what it should be.
struct Stop {
    std::string found;
    std::string wanted;
};

class Parser {
public:
    Parser(std::string file, std::string_view text) : file_(std::move(file)), text_(text) {}

    /// `what` is empty where any value will do, and otherwise says what begins with '{'.
    std::optional<JsonValue> whole(std::string_view what, Diagnostics& diagnostics) {
        try {
            if (!what.empty()) begin_object(what);
            JsonValue value = parse(0);
            skip_space();
            if (at_ < text_.size()) throw Stop{found_here(), "the end of the file"};
            return value;
        } catch (const Stop& stop) {
            diagnostics.push_back({{file_, line_, column()}, Severity::error, stop.found, stop.wanted, {}});
            return std::nullopt;
        }
    }

private:
    [[nodiscard]] int column() const { return static_cast<int>(at_ - line_start_) + 1; }

    [[nodiscard]] std::string found_here() const {
        if (at_ >= text_.size()) return "the end of the file";
        const char c = text_[at_];
        return c > ' ' && c < 0x7F ? fmt::format("'{}'", c) : fmt::format("byte {}", static_cast<unsigned char>(c));
    }

    void skip_space() {
        for (; at_ < text_.size(); ++at_) {
            const char c = text_[at_];
            if (c != ' ' && c != '\n' && c != '\r' && c != '\t') return;
            if (c != '\n') continue;
            ++line_;
            line_start_ = at_ + 1;
        }
    }

    void begin_object(std::string_view what) {
        skip_space();
        if (at_ < text_.size() && text_[at_] == '{') return;
        throw Stop{found_here(), fmt::format("{}, which begins with '{{'", what)};
    }

    /// Skips space and says whether the character comes next; then skips it as well.
    bool take(char c) {
        skip_space();
        if (at_ >= text_.size() || text_[at_] != c) return false;
        ++at_;
        return true;
    }

    void expect(char c, const char* wanted) {
        if (!take(c)) throw Stop{found_here(), wanted};
    }

    JsonValue parse(int depth) {
        skip_space();
        if (depth > deepest) throw Stop{fmt::format("lists within lists more than {} deep", deepest), "fewer"};
        if (++values_ > most_values) throw Stop{fmt::format("more than {} values", most_values), "fewer"};
        JsonValue value;
        value.line = line_;
        value.column = column();
        if (take('{')) {
            parse_members(value, depth);
        } else if (take('[')) {
            parse_items(value, depth);
        } else if (at_ < text_.size() && text_[at_] == '"') {
            value.kind = JsonKind::text;
            value.text = parse_text();
        } else if (text_.substr(at_, 4) == "null") {
            at_ += 4;
        } else {
            value.kind = JsonKind::number;
            value.number = parse_number();
        }
        return value;
    }

    std::int64_t parse_number() {
        const std::size_t sign = at_ < text_.size() && text_[at_] == '-' ? 1 : 0;
        std::size_t end = at_ + sign;
        while (end < text_.size() && text_[end] >= '0' && text_[end] <= '9')
            ++end;
        const std::string_view digits = text_.substr(at_ + sign, end - at_ - sign);
        const bool goes_on = end < text_.size() && std::string_view(".eE").find(text_[end]) != std::string_view::npos;
        if (digits.empty()) throw Stop{found_here(), "an object, a list, a text, a whole number or null"};
        if (goes_on || (digits.size() > 1 && digits.front() == '0')) throw Stop{"a number", "a whole number"};
        std::int64_t number = 0;
        if (std::from_chars(text_.data() + at_, text_.data() + end, number).ec != std::errc()) {
            throw Stop{"a number of more than 64 bits", "a whole number from -2^63 to 2^63-1"};
        }
        at_ = end;
        return number;
    }

    void parse_members(JsonValue& object, int depth) {
        object.kind = JsonKind::object;
        if (take('}')) return;
        do {
            skip_space();
            if (at_ >= text_.size() || text_[at_] != '"') throw Stop{found_here(), "a key in quotes"};
            std::string key = parse_text();
            const auto same = [&](const auto& member) { return member.key == key; };
            if (std::any_of(object.members.begin(), object.members.end(), same)) {
                throw Stop{"key " + shown(key, 80) + " twice", "each key once"};
            }
            expect(':', "':' after a key");
            object.members.push_back({std::move(key), parse(depth + 1)});
            if (object.members.size() > 64) throw Stop{"an object of more than 64 keys", "fewer"};
        } while (take(','));
        expect('}', "',' or '}'");
    }

    void parse_items(JsonValue& list, int depth) {
        list.kind = JsonKind::list;
        if (take(']')) return;
        bool numbers_only = true;
        do {
            skip_space();
            const bool number = at_ < text_.size() && (text_[at_] == '-' || (text_[at_] >= '0' && text_[at_] <= '9'));
            if (number && numbers_only) {
                list.numbers.push_back(parse_number());
                continue;
            }
            if (numbers_only) give_up_numbers(list);
            numbers_only = false;
            list.items.push_back(parse(depth + 1));
        } while (take(','));
        expect(']', "',' or ']'");
        if (list.numbers.size() == 1) give_up_numbers(list);
    }

    /// The list holds something else as well, or is too short to be told from others.
    void give_up_numbers(JsonValue& list) {
        for (const std::int64_t number : list.numbers) {
            if (++values_ > most_values) throw Stop{fmt::format("more than {} values", most_values), "fewer"};
            JsonValue item;
            item.kind = JsonKind::number;
            item.number = number;
            item.line = list.line;
            item.column = list.column;
            list.items.push_back(std::move(item));
        }
        list.numbers.clear();
    }

    std::string parse_text() {
        std::string text;
        for (++at_; at_ < text_.size(); ++at_) {
            const char c = text_[at_];
            if (c == '"') {
                ++at_;
                return text;
            }
            if (static_cast<unsigned char>(c) < 0x20) throw Stop{"a control character in a text", "its escape"};
            if (c == '\\') {
                text += parse_escape();
            } else {
                text += c;
            }
        }
        throw Stop{"the end of the file", "'\"' at the end of a text"};
    }

    /// The character an escape stands for; leaves `at_` on its last byte.
    std::string parse_escape() {
        ++at_;
        const char c = at_ < text_.size() ? text_[at_] : '\0';
        static constexpr std::string_view names = "\"\\/bfnrt";
        static constexpr std::string_view meant = "\"\\/\b\f\n\r\t";
        const std::size_t which = names.find(c);
        if (c != '\0' && which != std::string_view::npos) return {meant[which]};
        unsigned code = 0;
        const char* const digits = text_.data() + std::min(at_ + 1, text_.size());
        const char* const end = text_.data() + std::min(at_ + 5, text_.size());
        if (c != 'u' || end - digits != 4 || std::from_chars(digits, end, code, 16).ptr != end || code >= 0x80) {
            throw Stop{"an escape", "one of \\\" \\\\ \\/ \\b \\f \\n \\r \\t, or \\u and four digits below 0080"};
        }
        at_ += 4;
        return {static_cast<char>(code)};
    }

    std::string file_;
    std::string_view text_;
    std::size_t at_ = 0;
    int line_ = 1;
    std::size_t line_start_ = 0;
    std::int64_t values_ = 0;
};

}  // namespace

std::optional<JsonValue> parse_json(const std::string& file, std::string_view text, Diagnostics& diagnostics) {
    return Parser(file, text).whole("", diagnostics);
}

std::optional<JsonValue> parse_object(const std::string& file, std::string_view text, std::string_view what,
                                      Diagnostics& diagnostics) {
    return Parser(file, text).whole(what, diagnostics);
}

}  // namespace spadework::json
