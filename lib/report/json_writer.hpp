#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework::report {

/// Builds a JSON text (RFC 8259) front to back. Numbers are written digit by digit from whole units, so that money has
/// exactly its currency's digits and sums of what is read back hold. Strings become valid UTF-8: a byte that belongs to
/// no character becomes U+FFFD.
class JsonWriter {
public:
    /// How the members of an object or list are laid out.
    enum class Shape { lines, one_line };

    void begin_object(Shape shape = Shape::lines) { begin('{', '}', shape); }
    void begin_list(Shape shape = Shape::lines) { begin('[', ']', shape); }
    /// Ends the innermost object or list.
    void end();

    /// Names the next value; only within an object.
    JsonWriter& key(std::string_view name);

    void text(std::string_view value);
    void whole(std::int64_t value);
    void unsigned_whole(std::uint64_t value);
    void flag(bool value);
    void null();
    /// At most `most_digits` digits behind the point; null when not finite.
    void number(double value, int most_digits);
    /// Digits that read back as the very same number; null when not finite.
    void exact(double value);
    void money(Money value, const Currency& currency);
    void metres(Length value);
    /// With the currency's digits and up to three more.
    void unit_price(UnitPrice value, const Currency& currency);

    /// The finished text with a line break at its end. Everything begun must have ended.
    [[nodiscard]] std::string finished() const { return text_ + "\n"; }

private:
    struct Level {
        char closing;
        Shape shape;
        bool empty;
    };

    void begin(char opening, char closing, Shape shape);
    void raw(std::string_view token);
    void start_member();
    void break_line();

    std::string text_;
    std::vector<Level> levels_;
    bool after_key_ = false;
};

/// A member of an object that `write` writes, or null where there is nothing to write: no value in an optional, or a
/// pointer to none.
template <typename Maybe, typename Write>
void write_or_null(JsonWriter& json, std::string_view name, const Maybe& value, Write write) {
    json.key(name);
    if (value) {
        write(*value);
    } else {
        json.null();
    }
}

/// A member of an object that is a list, with one entry an item.
template <typename Item, typename Write>
void write_list(JsonWriter& json, std::string_view name, const std::vector<Item>& items, JsonWriter::Shape shape,
                Write write) {
    json.key(name).begin_list(shape);
    for (const Item& item : items)
        write(item);
    json.end();
}

}  // namespace spadework::report
