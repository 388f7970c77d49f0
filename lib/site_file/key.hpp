#pragma once

// How the table of keys says what a site file may hold. The reader, the JSON Schema and the printed table all follow
// it.

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::site_file {

/// What stands behind a key.
enum class ValueType {
    text,
    id,         ///< A name that other keys refer to: one line, at most 200 bytes.
    reference,  ///< The id of something else in the file.
    choice,     ///< One of `choices`.
    choices,    ///< A list of `choices`.
    whole,      ///< A whole number.
    number,
    flag,           ///< true or false.
    rate,           ///< A line rate: 100M, 1G, 2.5G.
    currency,       ///< An ISO 4217 code.
    file,           ///< A relative path.
    position,       ///< [x, y] or [longitude, latitude].
    positions,      ///< A list of positions.
    rings,          ///< A list of lists of positions.
    texts,          ///< A list of texts.
    text_map,       ///< Names of the user's own, each with a text.
    record,         ///< A mapping with the keys of `record`.
    record_list,    ///< A list of such mappings.
    record_map,     ///< Names of the user's own, each with such a mapping.
    texts_or_word,  ///< A list of texts, or one of `choices`.
};

/// What a number counts. Lengths follow `units`, money the currency.
enum class Unit {
    none,
    length,            ///< m or ft
    money,             ///< the currency
    money_per_length,  ///< the currency a m or ft
    money_per_hour,
    hours_per_length,  ///< hours a m or ft
    hours,
    minutes,
    years,
    percent,
    watts,
    newtons,
    decibels,
    decibels_per_km,
    dbm,
    nanometres,
    per_year,
};

/// Whether a number may be a range of values.
enum class Ranges {
    by_unit,  ///< Yes for money, prices and working times, no for everything else.
    yes,
    no,
};

struct Record;

/// One key of a mapping.
struct Key {
    std::string_view name;
    ValueType type = ValueType::text;
    Unit unit = Unit::none;
    bool required = false;
    double least = 0;                ///< Of a number.
    double most = 1e9;               ///< Of a number.
    bool above_least = false;        ///< `least` itself is too little.
    std::string_view fallback = {};  ///< The default as it would be written, lengths in metres. Empty: none.
    std::string_view source = {};    ///< Where the default comes from.
    std::string_view choices = {};   ///< Allowed words with a space between.
    const Record* record = nullptr;  ///< Of the mapping behind the key.
    bool may_be_file = false;        ///< Instead of the mapping, the path of a file that holds it.
    bool lines = false;              ///< A text may have several lines.
    Ranges ranges = Ranges::by_unit;
    int least_items = 0;  ///< Of a list or of names.
    std::string_view meaning = {};
};

/// The keys of one kind of mapping.
struct Record {
    std::string_view name;     ///< For messages: "a place".
    std::string_view heading;  ///< Where it stands: "map.places[]".
    std::span<const Key> keys;
};

/// The words of `choices`.
std::vector<std::string> choice_list(const Key& key);

/// The key of that name, or null.
const Key* find_key(const Record& record, std::string_view name);

/// Whether a range may stand behind the key instead of a number.
bool may_be_range(const Key& key);

/// "m", "EUR a ft", "hours", "" for plain numbers. `feet` and `currency` as the site has them.
std::string unit_text(Unit unit, bool feet, std::string_view currency);

/// Whether values of this unit are stated in metres and turn over when the site is in feet: the factor from the
/// metric value to the site's.
double site_units_per_metric(Unit unit, bool feet);

}  // namespace spadework::site_file
