#include "site_file/fields.hpp"

#include <doctest/doctest.h>

#include "site_file/keys.hpp"
#include "site_file/parsing.hpp"

using namespace spadework;
using namespace spadework::site_file;

namespace {

/// A mapping read by a record's keys.
struct Read {
    Read(const std::string& text, const Record& record, bool feet = false) {
        reading.feet = feet;
        document = *parse_yaml({"s.yaml", text}, reading.diagnostics);
        fields.emplace(reading, document, document.root, record, "here");
    }
    std::string said() const {
        std::string text;
        for (const Diagnostic& diagnostic : reading.diagnostics)
            text += to_text(diagnostic) + "\n";
        return text;
    }
    Reading reading;
    Document document;
    std::optional<Fields> fields;
};

}  // namespace

TEST_CASE("an unknown key is told with the nearest known one") {
    const Read read("{rise: 2, coyl: 3}", slack_record());
    CHECK(read.said() ==
          "s.yaml:1:11: error: unknown key 'coyl' in slack allowances; expected one of rise, coil, handhole-coil, "
          "ordering-allowance; did you mean 'coil'?\n");
}

TEST_CASE("a decimal comma within braces, which makes a key of the digits behind it, is told as one") {
    const Read read("{rise: 6,2, coil: 3}", slack_record());
    CHECK(
        read.said() ==
        "s.yaml:1:10: error: unknown key '2' in slack allowances; expected decimals behind a point, as in 6.2, and no "
        "commas in numbers\n");
}

TEST_CASE("a key twice is told with the place of the first") {
    Read read("rise: 2\nrise: 3\n", slack_record());
    CHECK(read.said() ==
          "s.yaml:2:1: error: key 'rise' a second time; the first is at s.yaml:1:7; expected each key "
          "once\n");
    CHECK(read.fields->length("rise") == Length::from_metres(2));
}

TEST_CASE("a missing key has the place of its mapping") {
    const Read read("\n  {what: ferry}", charge_record());
    CHECK(read.said() ==
          "s.yaml:2:3: error: key 'amount' is missing in a charge; expected a number from 0 to "
          "1000000000 (EUR)\n");
}

TEST_CASE("something else than a mapping is told as what it is") {
    const Read read("[1, 2]", slack_record());
    CHECK(read.said().find("s.yaml:1:1: error: a list where slack allowances belongs") == 0);
}

TEST_CASE("numbers out of range or of the wrong kind are told with the range") {
    Read read("{coil: -1, rise: '2', ordering-allowance: 1001, handhole-coil: [2]}", slack_record());
    CHECK(read.fields->length("coil") == Length::from_metres(3));
    read.fields->length("rise");
    read.fields->percent("ordering-allowance");
    read.fields->length("handhole-coil");
    CHECK(read.said() ==
          "s.yaml:1:8: error: coil is '-1'; expected a number from 0 to 10000 (m)\n"
          "s.yaml:1:18: error: rise is '2', a text in quotes; expected a number from 0 to 10000 (m)\n"
          "s.yaml:1:43: error: ordering-allowance is '1001'; expected a number from 0 to 1000 (%)\n"
          "s.yaml:1:64: error: handhole-coil is a list; expected a number from 0 to 10000 (m)\n");
}

TEST_CASE("whole numbers are whole") {
    Read read("{trunk-least: 2.5, drop-least: 4}", spare_record());
    read.fields->whole("trunk-least");
    CHECK(read.fields->whole("drop-least") == 4);
    CHECK(read.said() == "s.yaml:1:15: error: trunk-least is '2.5'; expected a whole number from 0 to 1000\n");
}

TEST_CASE("feet turn into metres, and defaults stated in metres into feet") {
    Read read("{coil: 10}", slack_record(), true);
    CHECK(read.fields->length("coil") == Length::from_millimetres(3048));
    CHECK(read.fields->length("rise") == Length::from_metres(2));
    REQUIRE(read.reading.values.size() == 2);
    CHECK(read.reading.values[0].key == "here.coil");
    CHECK(read.reading.values[0].value == "10");
    CHECK(read.reading.values[0].unit == "ft");
    CHECK(read.reading.values[0].origin == "s.yaml:1:8");
    CHECK(read.reading.values[1].value == "6.56168");
    CHECK(read.reading.values[1].origin == "default: common practice, no published source");
}

TEST_CASE("prices and hours a foot turn into prices and hours a metre") {
    Read read("{id: cut, kind: open-cut, depth: 2, plant: 3.048, labour: 0.3048}", method_record(), true);
    CHECK(read.fields->price("plant") == UnitPrice::from_minor(1000));
    CHECK(read.fields->number("labour") == doctest::Approx(1.0));
    CHECK(read.fields->length("depth") == Length::from_millimetres(610));
    CHECK(read.said().empty());
}

TEST_CASE("prices follow the currency's digits and keep thousandths of the minor unit") {
    Read read("{id: x, kind: bore, depth: 1, plant: 0.09555, set-up: 12.5}", method_record());
    CHECK(read.fields->price("plant") == UnitPrice::from_thousandths(9555));
    CHECK(read.fields->money("set-up") == Money::from_minor(1250));
    read.reading.currency = {"KWD", 3};
    CHECK(read.fields->money("set-up") == Money::from_minor(12500));
    read.reading.currency = {"JPY", 0};
    CHECK(read.fields->price("plant") == UnitPrice::from_thousandths(96));
}

TEST_CASE("words, flags and rates are what they are, spelt as they are") {
    Read place("{id: x, at: [0, 0], kind: hand-hole}", place_record());
    CHECK(place.fields->choice("kind") == 0);
    CHECK(place.said() ==
          "s.yaml:1:27: error: kind is 'hand-hole'; expected one of junction, handhole, pole, "
          "building, hub; did you mean 'handhole'?\n");
    Read enclosure("{allowed: yes}", place_enclosure_record());
    enclosure.fields->flag("allowed");
    CHECK(enclosure.said() == "s.yaml:1:11: error: allowed is 'yes'; expected true or false\n");
    Read link("{rate: 1 GB}", link_record());
    CHECK_FALSE(link.fields->rate("rate").has_value());
    CHECK(link.said() == "s.yaml:1:8: error: rate is '1 GB'; expected a line rate such as 100M, 1G or 2.5G\n");
}

TEST_CASE("an id is one line of at most 200 bytes") {
    CHECK(problem_of_id("north gate").empty());
    CHECK(problem_of_id("Höhe 7 日本").empty());
    CHECK(problem_of_id(std::string(200, 'x')).empty());
    CHECK(problem_of_id(std::string(201, 'x')) == "longer than 200 bytes");
    CHECK_FALSE(problem_of_id("").empty());
    CHECK_FALSE(problem_of_id("a\nb").empty());
    CHECK_FALSE(problem_of_id("a\tb").empty());
    CHECK_FALSE(problem_of_id(" a").empty());
    // Escape, and the control sequence introducer U+009B.
    CHECK_FALSE(problem_of_id("a\x1b[2J").empty());
    CHECK_FALSE(problem_of_id("a\xC2\x9B").empty());
    CHECK(problem_of_id("a\xC2\xA0z").empty());
    CHECK(problem_of_text("a\n\tb", true).empty());
    CHECK_FALSE(problem_of_text("a\n\tb", false).empty());
}
