#include "report/html_table.hpp"

#include <doctest/doctest.h>

namespace spadework::report {

namespace {

std::string written(const TextTable& table) {
    HtmlWriter html;
    write_table(html, "Costs", table);
    return html.finished();
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("headers have a scope, numbers a class, and the caption names table and scroll box") {
    TextTable table({{"Item", Align::left}, {"Amount\n(EUR)", Align::right}});
    table.add({"duct", "1,077.97"});
    const std::string html = written(table);
    CHECK(has(html, "<caption>Costs</caption>"));
    CHECK(has(html, "role=\"region\" aria-label=\"Costs\" tabindex=\"0\""));
    CHECK(has(html, "<th scope=\"col\">Item</th>"));
    CHECK(has(html, "<th scope=\"col\" class=\"n\">Amount (EUR)</th>"));
    CHECK(has(html, "<th scope=\"row\">duct</th>"));
    CHECK(has(html, "<td class=\"n\">1,077.97</td>"));
}

TEST_CASE("a table that its section's heading names has no caption, and its scroll box has the name") {
    TextTable table({{"Item", Align::left}});
    table.add({"duct"});
    HtmlWriter html;
    write_table_under(html, "Costs", table);
    const std::string text = html.finished();
    CHECK(!has(text, "caption"));
    CHECK(has(text, "role=\"region\" aria-label=\"Costs\" tabindex=\"0\""));
    CHECK(has(text, "<th scope=\"row\">duct</th>"));
}

TEST_CASE("missing cells are empty, a row without a name has no header, sums and totals are set off") {
    TextTable table({{"", Align::left}, {"Item", Align::left}, {"Amount", Align::right}});
    table.add_sum({"", "all"});
    table.add_total({"Total", "", "3"});
    const std::string html = written(table);
    CHECK(has(html, "<tr class=\"sum\">\n<td></td>\n<td>all</td>\n<td class=\"n\"></td>"));
    CHECK(has(html, "<tr class=\"total\">\n<th scope=\"row\">Total</th>"));
    CHECK(has(html, "<thead>\n<tr>\n<td></td>"));
}

TEST_CASE("a cell of 10,000 characters is shortened") {
    TextTable table({{"Name", Align::left}});
    table.add({std::string(10000, 'x')});
    CHECK(written(table).size() < 1000);
}

}  // namespace spadework::report
