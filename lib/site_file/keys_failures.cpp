#include "site_file/keys.hpp"

namespace spadework::site_file {

namespace {

constexpr std::string_view cut_source =
    "4.39 cuts a year on 1,000 sheath-miles (Crawford 1993, as quoted in IEEE JSAC 12(1), 1994), value from memory";

constexpr Key yearly(std::string_view name, std::string_view fallback, std::string_view source,
                     std::string_view meaning) {
    return {.name = name,
            .type = ValueType::number,
            .unit = Unit::per_year,
            .most = 1000,
            .fallback = fallback,
            .source = source,
            .meaning = meaning};
}

constexpr Key repair(std::string_view name, std::string_view fallback, std::string_view source,
                     std::string_view meaning) {
    return {.name = name,
            .type = ValueType::number,
            .unit = Unit::hours,
            .most = 100000,
            .fallback = fallback,
            .source = source,
            .ranges = Ranges::no,
            .meaning = meaning};
}

constexpr std::string_view guess = "a placeholder of ours, no published source: put in your own";

}  // namespace

const Record& failures_record() {
    static const Key keys[] = {
        yearly("cuts-per-km", "0.002728", cut_source,
               "Cuts of a kilometre of trench, duct or pole line. Carriers' plant: your own site may differ."),
        repair("cut-repair", "12", "12 h mean, used with the same figure; value from memory", "From cut to mended."),
        yearly("enclosure", "0.002", guess, "Failures of one enclosure."),
        repair("enclosure-repair", "12", guess, "From failure to mended."),
        yearly("gear", "0.02", guess, "Failures of the gear in one building."),
        repair("gear-repair", "24", guess, "From failure to replaced."),
        yearly("hub", "0.02", guess, "Failures of the hub's gear."),
        repair("hub-repair", "8", guess, "From failure to replaced."),
    };
    static const Record record = {"failure rates", "rules.failures", keys};
    return record;
}

}  // namespace spadework::site_file
