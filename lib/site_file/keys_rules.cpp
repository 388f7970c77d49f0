#include "site_file/keys.hpp"

namespace spadework::site_file {

namespace {

constexpr std::string_view common_practice = "common practice, no published source";
constexpr std::string_view none_assumed = "none assumed";

constexpr Key decibels(std::string_view name, std::string_view fallback, std::string_view source,
                       std::string_view meaning) {
    return {.name = name,
            .type = ValueType::number,
            .unit = Unit::decibels,
            .most = 100,
            .fallback = fallback,
            .source = source,
            .meaning = meaning};
}

constexpr Key length(std::string_view name, std::string_view fallback, std::string_view source,
                     std::string_view meaning) {
    return {.name = name,
            .type = ValueType::number,
            .unit = Unit::length,
            .most = 10000,
            .fallback = fallback,
            .source = source,
            .ranges = Ranges::yes,
            .meaning = meaning};
}

constexpr Key percent(std::string_view name, std::string_view fallback, std::string_view source,
                      std::string_view meaning) {
    return {.name = name,
            .type = ValueType::number,
            .unit = Unit::percent,
            .most = 1000,
            .fallback = fallback,
            .source = source,
            .meaning = meaning};
}

constexpr Key share(std::string_view name, std::string_view fallback, std::string_view source,
                    std::string_view meaning) {
    Key key = percent(name, fallback, source, meaning);
    key.most = 100;
    key.above_least = true;
    return key;
}

constexpr Key count(std::string_view name, std::string_view fallback, std::string_view source,
                    std::string_view meaning) {
    return {.name = name,
            .type = ValueType::whole,
            .most = 1000,
            .fallback = fallback,
            .source = source,
            .meaning = meaning};
}

}  // namespace

const Record& labour_record() {
    static const Key keys[] = {
        {.name = "groundworks-rate",
         .type = ValueType::number,
         .unit = Unit::money_per_hour,
         .required = true,
         .meaning = "The digging crew, all hands and hand tools together."},
        {.name = "installer-rate",
         .type = ValueType::number,
         .unit = Unit::money_per_hour,
         .required = true,
         .meaning = "A cable installer."},
        {.name = "plug-minutes",
         .type = ValueType::number,
         .unit = Unit::minutes,
         .most = 10000,
         .fallback = "5",
         .source = common_practice,
         .meaning = "Plug, clean and label one strand end."},
        {.name = "test-minutes",
         .type = ValueType::number,
         .unit = Unit::minutes,
         .most = 10000,
         .fallback = "6",
         .source = common_practice,
         .meaning = "Test one strand end to end, both ways."},
        {.name = "mobilisation",
         .type = ValueType::number,
         .unit = Unit::money,
         .fallback = "0",
         .source = none_assumed,
         .meaning = "Once a job."},
        {.name = "hours-per-day",
         .type = ValueType::number,
         .unit = Unit::hours,
         .most = 24,
         .above_least = true,
         .fallback = "8",
         .source = common_practice,
         .ranges = Ranges::no,
         .meaning = "Working hours of a day."},
    };
    static const Record record = {"labour", "labour", keys};
    return record;
}

const Record& rules_record() {
    static const Key keys[] = {
        {.name = "termination",
         .type = ValueType::choice,
         .fallback = "factory",
         .source = "the format's own choice",
         .choices = "factory spliced",
         .meaning = "Cables with factory-made ends in whole steps of length, or cut to length and spliced on site."},
        {.name = "strand-use",
         .type = ValueType::choice,
         .fallback = "duplex",
         .source = "the format's own choice",
         .choices = "duplex bidirectional cheaper",
         .meaning = "Two strands a link, or one, or for all links of a plan whichever of the two makes it cheaper."},
        count("max-enclosures", "1", common_practice, "Most enclosures on the site."),
        {.name = "hop-limit",
         .type = ValueType::whole,
         .least = 1,
         .most = 1000,
         .fallback = "8",
         .source = common_practice,
         .meaning = "Most buildings in one chain or ring."},
        {.name = "enclosure-kinds",
         .type = ValueType::choices,
         .fallback = "junction, handhole, pole",
         .source = common_practice,
         .choices = "junction handhole pole building hub",
         .meaning = "Kinds of place where an enclosure may stand, where the place does not say otherwise."},
        part("loss", loss_record(), "Loss allowances."),
        part("slack", slack_record(), "Cable beyond the map."),
        part("spare", spare_record(), "Spare strands."),
        percent("contingency", "0", none_assumed, "On the sum of all work and material."),
        percent("tax", "0", none_assumed, "On the sum with contingency."),
        part("open-ground", open_ground_record(), "How open ground is laid out."),
        part("failures", failures_record(), "How often what fails, and how long until it is mended."),
        {.name = "strand-colours",
         .type = ValueType::texts_or_word,
         .fallback = "tia-598",
         .source = "ANSI/TIA-598-C",
         .choices = "tia-598 din-vde-0888",
         .least_items = 1,
         .meaning = "Order of the colours of strands and tubes: that of a standard, or a list of your own."},
        count("spare-copper-ports", "0", none_assumed, "Ports wanted free on every building's gear."),
        length("copper-length", "100", "ANSI/TIA-568.2-D, ISO/IEC 11801-1: a channel of 100 m; value from memory",
               "Longest copper run from gear to a device, cords included."),
        part("duct-fill", duct_fill_record(), "Most of an existing duct's inside that cables may take."),
    };
    static const Record record = {"rules", "rules", keys};
    return record;
}

const Record& duct_fill_record() {
    constexpr std::string_view table =
        "NEC (NFPA 70) Chapter 9 Table 1; not binding for fibre alone, used as good practice";
    static const Key keys[] = {
        share("one", "53", table, "Share of the cross-section that one cable may take."),
        share("two", "31", table, "Share that two cables together may take."),
        share("more", "40", table, "Share that three cables or more together may take."),
    };
    static const Record record = {"duct fill", "rules.duct-fill", keys};
    return record;
}

const Record& loss_record() {
    static const Key keys[] = {
        {.name = "attenuation-1310",
         .type = ValueType::number,
         .unit = Unit::decibels_per_km,
         .most = 100,
         .fallback = "0.4",
         .source = "ITU-T G.652 (2016) Table 2, G.652.D, value from memory",
         .meaning = "Of the cable at 1310 nm."},
        {.name = "attenuation-1550",
         .type = ValueType::number,
         .unit = Unit::decibels_per_km,
         .most = 100,
         .fallback = "0.3",
         .source = "ITU-T G.652 (2016) Table 2, G.652.D, value from memory",
         .meaning = "Of the cable at 1550 nm."},
        decibels("mated-pair", "0.75", "ANSI/TIA-568 series", "Of a mated pair of connectors."),
        decibels("splice", "0.3", "ANSI/TIA-568.3-D, value from memory; UFGS-16768A 3.1.6.1", "Of a splice."),
        decibels("spare-margin", "0", none_assumed, "Kept free on every link."),
    };
    static const Record record = {"loss allowances", "rules.loss", keys};
    return record;
}

const Record& slack_record() {
    static const Key keys[] = {
        length("rise", "2", common_practice, "At each end, from the trench up to the gear or into the enclosure."),
        length("coil", "3", "UFGS-16768A 3.1.4, service loop of 3 m at least", "Coil at each end."),
        length("handhole-coil", "2", "South Bend (Indiana) traffic specification, 2 m at handholes",
               "Coil in every handhole the cable passes through."),
        percent("ordering-allowance", "10", "MIL-HDBK-1012/3", "On the whole length, after rise and coils."),
    };
    static const Record record = {"slack allowances", "rules.slack", keys};
    return record;
}

const Record& spare_record() {
    static const Key keys[] = {
        percent("trunk", "25", "UFGS-40 95 33.23 20, designer note: 25 % spare",
                "Spare strands in a trunk, on those in use."),
        count("trunk-least", "2", "one duplex link spare; common practice, no published source",
              "Least spare strands in a trunk."),
        count("drop-least", "2", "one duplex link spare; common practice, no published source",
              "Least spare strands in a drop, home run or hop of a chain or ring."),
    };
    static const Record record = {"a spare policy", "rules.spare", keys};
    return record;
}

}  // namespace spadework::site_file
