#include "site_file/reading.hpp"

#include <doctest/doctest.h>

using namespace spadework;
using namespace spadework::site_file;

TEST_CASE("an id is there once; a second one is told where the first is") {
    Reading reading;
    NameIndex places("place");
    CHECK(places.add("gate", 0, {"s.yaml", 4, 7}, reading));
    CHECK_FALSE(places.add("gate", 1, {"s.yaml", 9, 7}, reading));
    REQUIRE(reading.diagnostics.size() == 1);
    CHECK(to_text(reading.diagnostics[0]) ==
          "s.yaml:9:7: error: place 'gate' is there already, at s.yaml:4:7; expected an id of its own");
    CHECK(places.number_of("gate") == 0);
}

TEST_CASE("an id that is not there gets the nearest known") {
    Reading reading;
    NameIndex places("place");
    places.add("gate", 0, {"s.yaml", 4, 7}, reading);
    CHECK(places.find("gaet", {"s.yaml", 9, 7}, reading) == -1);
    CHECK(to_text(reading.diagnostics.at(0)) ==
          "s.yaml:9:7: error: no place 'gaet'; expected the id of a place; did you mean 'gate'?");
}

TEST_CASE("an alias finds what it names, unless two share it; an id goes before an alias") {
    Reading reading;
    NameIndex places("place");
    places.add("way/1", 0, {}, reading);
    places.add("way/2", 1, {}, reading);
    places.add("Hall", 2, {}, reading);
    places.add_alias("Library", 0);
    places.add_alias("Dorm", 0);
    places.add_alias("Dorm", 1);
    places.add_alias("Hall", 1);
    CHECK(places.number_of("Library") == 0);
    CHECK(places.number_of("Hall") == 2);
    CHECK(places.find("Dorm", {"s.yaml", 1, 1}, reading) == -1);
    CHECK(reading.diagnostics.at(0).found == "more than one place is named 'Dorm'");
}

TEST_CASE("problems beyond ten thousand are counted, not listed") {
    Reading reading;
    for (int i = 0; i < 10'005; ++i)
        reading.error({"s.yaml", i, 1}, "x");
    CHECK(reading.diagnostics.size() == 10'000);
    CHECK(reading.not_listed == 5);
}
