#include "report/json_writer.hpp"

#include <limits>

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

namespace spadework::report {

TEST_CASE("objects and lists nest, on lines or on one line") {
    JsonWriter json;
    json.begin_object();
    json.key("a").whole(1);
    json.key("list").begin_list(JsonWriter::Shape::one_line);
    json.text("x");
    json.begin_object();
    json.key("b").flag(true);
    json.end();
    json.end();
    json.key("empty").begin_list();
    json.end();
    json.key("none").null();
    json.end();
    CHECK(json.finished() ==
          "{\n"
          "  \"a\": 1,\n"
          "  \"list\": [\"x\", {\"b\": true}],\n"
          "  \"empty\": [],\n"
          "  \"none\": null\n"
          "}\n");
}

TEST_CASE("money has exactly the currency's digits, metres at most three, doubles no noise") {
    JsonWriter json;
    json.begin_list(JsonWriter::Shape::one_line);
    json.money(Money::from_minor(1234550), {"EUR", 2});
    json.money(Money::from_minor(5), {"JPY", 0});
    json.metres(Length::from_millimetres(60250));
    json.number(0.1 + 0.2, 6);
    json.number(std::numeric_limits<double>::infinity(), 6);
    json.unsigned_whole(std::numeric_limits<std::uint64_t>::max());
    json.end();
    CHECK(json.finished() == "[12345.50, 5, 60.25, 0.3, null, 18446744073709551615]\n");
}

TEST_CASE("any bytes in a string come back as valid JSON, and text unchanged") {
    for (const std::string text : {"caf\u00e9 \"x\" \\ /", "line\nbreak\ttab\r", "\x1b[0m\x7f", "\u202E"}) {
        JsonWriter json;
        json.text(text);
        CHECK(nlohmann::json::parse(json.finished()).get<std::string>() == text);
    }
    JsonWriter broken;
    broken.text("a\xff\xed\xa0\x80z");
    CHECK(nlohmann::json::parse(broken.finished()).get<std::string>() == "a\uFFFD\uFFFD\uFFFD\uFFFDz");
}

}  // namespace spadework::report
