#include "site_file/keys.hpp"

#include <algorithm>
#include <set>

#include <doctest/doctest.h>

#include "site_file/fields.hpp"
#include "site_file/plain_number.hpp"

using namespace spadework::site_file;

namespace {

/// Calls `check` with every key of every kind of mapping.
template <typename Check>
void for_each_key(Check check) {
    for (const Record* record : all_records()) {
        for (const Key& key : record->keys) {
            CAPTURE(record->heading);
            CAPTURE(key.name);
            check(*record, key);
        }
    }
}

}  // namespace

TEST_CASE("every key has a meaning that ends like a sentence, and a name in kebab case") {
    for_each_key([](const Record&, const Key& key) {
        REQUIRE_FALSE(key.meaning.empty());
        CHECK(key.meaning.back() == '.');
        CHECK(std::all_of(key.name.begin(), key.name.end(),
                          [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; }));
    });
}

TEST_CASE("a key is required or says what holds without it, and every default names its source") {
    for_each_key([](const Record&, const Key& key) {
        if (key.required) {
            CHECK(key.fallback.empty());
            CHECK(key.source.empty());
        } else {
            CHECK((!key.source.empty() || key.record != nullptr));
        }
    });
}

TEST_CASE("every default is a value that the key would take") {
    for_each_key([](const Record&, const Key& key) {
        if (key.fallback.empty()) return;
        if (key.type == ValueType::number || key.type == ValueType::whole) {
            const PlainNumber number = plain_number(key.fallback, Syntax::yaml);
            CHECK(number.problem.empty());
            CHECK(number.value >= key.least);
            CHECK(number.value <= key.most);
        } else if (key.type == ValueType::choice || key.type == ValueType::texts_or_word) {
            const auto words = choice_list(key);
            CHECK(std::find(words.begin(), words.end(), key.fallback) != words.end());
        } else if (key.type == ValueType::flag) {
            CHECK((key.fallback == "true" || key.fallback == "false"));
        }
    });
}

TEST_CASE("names of keys are different within a mapping, names of mappings altogether") {
    std::set<std::string_view> records;
    for (const Record* record : all_records()) {
        CHECK(records.insert(record->name).second);
        std::set<std::string_view> keys;
        for (const Key& key : record->keys)
            CHECK(keys.insert(key.name).second);
    }
}

TEST_CASE("a key with a mapping behind it has its table, a key of words its words") {
    for_each_key([](const Record&, const Key& key) {
        const bool has_record =
            key.type == ValueType::record || key.type == ValueType::record_list || key.type == ValueType::record_map;
        CHECK(has_record == (key.record != nullptr));
        const bool has_words =
            key.type == ValueType::choice || key.type == ValueType::choices || key.type == ValueType::texts_or_word;
        CHECK(has_words == !key.choices.empty());
        CHECK_FALSE(wanted_text(key, false, "EUR").empty());
    });
}

TEST_CASE("values turn over between metres and feet by 0.3048") {
    CHECK(site_units_per_metric(Unit::length, true) == doctest::Approx(1 / 0.3048));
    CHECK(site_units_per_metric(Unit::money_per_length, true) == doctest::Approx(0.3048));
    CHECK(site_units_per_metric(Unit::hours_per_length, true) == doctest::Approx(0.3048));
    CHECK(site_units_per_metric(Unit::percent, true) == 1);
    CHECK(site_units_per_metric(Unit::length, false) == 1);
    CHECK(unit_text(Unit::money_per_length, true, "USD") == "USD a ft");
}
