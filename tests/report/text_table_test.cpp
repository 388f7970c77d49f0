#include "report/text_table.hpp"

#include <doctest/doctest.h>

#include "report/shown_text.hpp"

namespace spadework::report {

TEST_CASE("columns are aligned, units stand in headings, a total has a rule above it") {
    TextTable table({{"Ground", Align::left}, {"Length\n(m)", Align::right}});
    table.add({"grass", "1,200.5"});
    table.add({"Gel\u00e4nde", "3.0"});
    table.add_total({"Total", "1,203.5"});
    CHECK(table.text() ==
          "          Length\n"
          "Ground       (m)\n"
          "----------------\n"
          "grass    1,200.5\n"
          "Gel\u00e4nde      3.0\n"
          "----------------\n"
          "Total    1,203.5\n");
}

TEST_CASE("missing cells are empty and no line ends in a space") {
    TextTable table({{"A", Align::left}, {"B", Align::left}});
    table.add({"x"});
    CHECK(table.text() == "A  B\n----\nx\n");
}

TEST_CASE("long cells are broken so that the table stays within the report") {
    TextTable table({{"Place", Align::left, true}, {"Amount", Align::right}, {"Why", Align::left, true}});
    std::string longest;
    for (int i = 0; i < 60; ++i)
        longest += "word ";
    table.add({std::string(150, 'x'), "12.00", longest});
    const std::string text = table.text();
    std::size_t start = 0;
    while (start < text.size()) {
        const std::size_t end = text.find('\n', start);
        CHECK(display_width(text.substr(start, end - start)) <= report_width);
        start = end + 1;
    }
}

}  // namespace spadework::report
