#include "report/html_writer.hpp"

#include <doctest/doctest.h>

namespace spadework::report {

TEST_CASE("markup in a text or an attribute is written as character references") {
    HtmlWriter html;
    html.element("p", "<script>alert(\"x\" & 'y')</script>", {{"title", "\"><b>"}});
    CHECK(html.finished() ==
          "<!DOCTYPE html>\n<p title=\"&quot;&gt;&lt;b&gt;\">&lt;script&gt;alert(&quot;x&quot; "
          "&amp; &#39;y&#39;)&lt;/script&gt;</p>\n");
}

TEST_CASE("controls, bytes that are no character and marks that turn the direction are written out") {
    CHECK(escaped_html(std::string("a\0b\x1b[2J\xff", 8)) == "a\\x00b\\x1B[2J\\xFF");
    CHECK(escaped_html("\u202Eabc") == "\\u202Eabc");
    CHECK(escaped_html("שלום") == "שלום");
}

TEST_CASE("elements nest, and those within a line break no line") {
    HtmlWriter html;
    html.open("ul");
    html.open("li");
    html.element("strong", "one");
    html.text(" more");
    html.close();
    html.empty("br");
    html.close();
    CHECK(html.finished() == "<!DOCTYPE html>\n<ul>\n<li>\n<strong>one</strong> more</li>\n<br>\n</ul>\n");
}

TEST_CASE("a text of 120 characters stands whole, a longer one is cut between characters") {
    std::string text;
    for (int i = 0; i < 120; ++i)
        text += "é";
    CHECK(shortened(text) == text);
    CHECK(shortened(text + "x") == text + "…");
    CHECK(shortened("") == "");
}

TEST_CASE("controls do not carry a shortened text over its length") {
    CHECK(shortened(std::string(10000, '\x01')).size() == 120 + std::string("…").size());
}

}  // namespace spadework::report
