#include "site_file/key.hpp"

namespace spadework::site_file {

namespace {

constexpr double metres_per_foot = 0.3048;

}  // namespace

std::vector<std::string> choice_list(const Key& key) {
    std::vector<std::string> words;
    std::string_view rest = key.choices;
    while (!rest.empty()) {
        const std::size_t space = std::min(rest.find(' '), rest.size());
        words.emplace_back(rest.substr(0, space));
        rest.remove_prefix(std::min(space + 1, rest.size()));
    }
    return words;
}

const Key* find_key(const Record& record, std::string_view name) {
    for (const Key& key : record.keys) {
        if (key.name == name) return &key;
    }
    return nullptr;
}

bool may_be_range(const Key& key) {
    if (key.type != ValueType::number || key.ranges == Ranges::no) return false;
    if (key.ranges == Ranges::yes) return true;
    return key.unit == Unit::money || key.unit == Unit::money_per_length || key.unit == Unit::money_per_hour ||
           key.unit == Unit::hours_per_length || key.unit == Unit::hours || key.unit == Unit::minutes;
}

std::string unit_text(Unit unit, bool feet, std::string_view currency) {
    const std::string length = feet ? "ft" : "m";
    const std::string money(currency);
    switch (unit) {
        case Unit::none:
            return "";
        case Unit::length:
            return length;
        case Unit::money:
            return money;
        case Unit::money_per_length:
            return money + " a " + length;
        case Unit::money_per_hour:
            return money + " an hour";
        case Unit::hours_per_length:
            return "hours a " + length;
        case Unit::hours:
            return "hours";
        case Unit::minutes:
            return "minutes";
        case Unit::years:
            return "years";
        case Unit::percent:
            return "%";
        case Unit::watts:
            return "W";
        case Unit::newtons:
            return "N";
        case Unit::decibels:
            return "dB";
        case Unit::decibels_per_km:
            return "dB/km";
        case Unit::dbm:
            return "dBm";
        case Unit::nanometres:
            return "nm";
        case Unit::per_year:
            return "a year";
    }
    return "";
}

double site_units_per_metric(Unit unit, bool feet) {
    if (!feet) return 1;
    if (unit == Unit::length) return 1 / metres_per_foot;
    if (unit == Unit::money_per_length || unit == Unit::hours_per_length) return metres_per_foot;
    return 1;
}

}  // namespace spadework::site_file
