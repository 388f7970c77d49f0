#include "report/html_figure.hpp"

namespace spadework::report {

namespace {

/// Widths a picture is drawn for, in CSS pixels: a page on a screen or on paper, and a telephone.
constexpr double wide = 900;
constexpr double narrow = 350;

}  // namespace

void write_chart(HtmlWriter& html, const std::string& id, const std::string& caption, const Draw& draw) {
    html.open("figure");
    html.open("div", {{"class", "on-wide"}});
    html.picture(draw({.width = wide, .id_prefix = id + "-", .own_file = false}));
    html.close();
    html.open("div", {{"class", "on-narrow"}});
    html.picture(draw({.width = narrow, .id_prefix = id + "-narrow-", .own_file = false}));
    html.close();
    html.element("figcaption", caption);
    html.close();
}

void write_drawing(HtmlWriter& html, const std::string& id, const std::string& label, const std::string& caption,
                   const Draw& draw) {
    html.open("figure");
    html.open("div", {{"class", "drawing"}, {"role", "region"}, {"aria-label", label}, {"tabindex", "0"}});
    html.picture(draw({.width = wide, .id_prefix = id + "-", .own_file = false}));
    html.close();
    html.element("figcaption", caption);
    html.close();
}

}  // namespace spadework::report
