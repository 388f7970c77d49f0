#include "site_file/json_schema.hpp"

#include <doctest/doctest.h>
#include <nlohmann/json.hpp>

#include "site_file/site_texts.hpp"

using namespace spadework::site_file;
using namespace spadework::site_file::testing;

TEST_CASE("the shipped JSON Schema is the one made from the table of keys") {
    const std::string shipped = text_of_file(scenarios_folder() / "site.schema.json");
    CHECK_MESSAGE((shipped == json_schema()), "scenarios/site.schema.json differs from json_schema()");
}

TEST_CASE("the shipped table of keys is the one made from the table of keys") {
    const std::string readme = text_of_file(scenarios_folder() / "README.md");
    const std::size_t heading = readme.find("### Top of the file");
    REQUIRE(heading != std::string::npos);
    CHECK_MESSAGE((readme.substr(heading) == key_table_markdown()),
                  "the table in scenarios/README.md differs from key_table_markdown()");
}

TEST_CASE("the schema lists required keys, refuses unknown ones and gives ranges") {
    const auto schema = nlohmann::json::parse(json_schema());
    CHECK(schema["additionalProperties"] == false);
    CHECK(schema["required"].size() == 8);
    CHECK(schema["$defs"]["labour"]["properties"]["hours-per-day"]["exclusiveMinimum"] == 0);
    CHECK(schema["$defs"]["labour"]["properties"]["hours-per-day"]["maximum"] == 24);
    // A length's limit moves with the units; only the reader knows those.
    CHECK_FALSE(schema["$defs"]["slack-allowances"]["properties"]["coil"].contains("maximum"));
    CHECK(schema["$defs"]["place"]["properties"]["kind"]["enum"].size() == 5);
    CHECK(schema["properties"]["map"]["anyOf"].size() == 2);
}
