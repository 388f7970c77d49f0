#include "report/csv_writer.hpp"

#include <doctest/doctest.h>

namespace spadework::report {

namespace {

std::string cell_of(std::string_view value) {
    CsvWriter csv({"x"});
    csv.text(value).end_row();
    return csv.table().substr(3);
}

}  // namespace

// RFC 4180, section 2, rules 1, 5, 6 and 7.
TEST_CASE("cells with commas, quotes or line breaks are quoted, and lines end in CRLF") {
    CHECK(cell_of("plain") == "plain\r\n");
    CHECK(cell_of("a,b") == "\"a,b\"\r\n");
    CHECK(cell_of("say \"hi\"") == "\"say \"\"hi\"\"\"\r\n");
    CHECK(cell_of("two\nlines") == "\"two\nlines\"\r\n");
    CHECK(cell_of("two\r\nlines") == "\"two\r\nlines\"\r\n");
    CHECK(cell_of("") == "\r\n");
}

// The characters are those that common spreadsheets take for the start of a formula (OWASP, "CSV Injection").
TEST_CASE("text that a spreadsheet would run gets an apostrophe, numbers do not") {
    CHECK(cell_of("=1+1") == "'=1+1\r\n");
    CHECK(cell_of("+49") == "'+49\r\n");
    CHECK(cell_of("-2") == "'-2\r\n");
    CHECK(cell_of("@x") == "'@x\r\n");
    CHECK(cell_of("\tx") == "'\tx\r\n");
    CHECK(cell_of("\rx") == "\"'\rx\"\r\n");
    CHECK(cell_of("=HYPERLINK(\"http://x\",\"y\")") == "\"'=HYPERLINK(\"\"http://x\"\",\"\"y\"\")\"\r\n");
    CHECK(cell_of("a=1") == "a=1\r\n");
    CsvWriter csv({"n"});
    csv.number("-12.50").end_row();
    CHECK(csv.table() == "n\r\n-12.50\r\n");
}

TEST_CASE("cells and rows are told apart, empty first cells included") {
    CsvWriter csv({"a", "b"});
    csv.number("").whole(5).end_row();
    csv.text("x").text("").end_row();
    CHECK(csv.table() == "a,b\r\n,5\r\nx,\r\n");
}

}  // namespace spadework::report
