#include <fmt/format.h>

#include "drawing/doubt_charts.hpp"
#include "report/html_figure.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/html_writer.hpp"
#include "report/risk_report.hpp"
#include "report/risk_tables.hpp"

namespace spadework::report {

namespace {

void write_section(HtmlWriter& html, const char* id, const std::string& heading, const TextTable& table,
                   const std::string& note) {
    if (table.empty()) return;
    open_section(html, id, heading);
    write_table_under(html, heading, table);
    html.element("p", note);
    html.close();
}

void write_answer(HtmlWriter& html, const RiskSample& sample, const RiskStudy& study) {
    open_section(html, "answer", "The best bet");
    html.element("p", risk_verdict(sample, study));
    if (const std::string cut = risk_interrupted(sample); !cut.empty()) html.element("p", cut);
    write_chart(html, "curves", "How likely it is that each layout costs no more than an amount.",
                [&](const drawing::Frame& frame) { return drawing::risk_curves_svg(sample, frame); });
    html.close();
}

void write_outlook(HtmlWriter& html, const RiskSample& sample, const RiskStudy& study) {
    open_section(html, "layouts", "What each layout may cost");
    write_table(html, "Totals at draws", outlook_table(sample, study));
    html.element("p", outlook_note());
    write_table(html, "Statistical error of these, at 95 %", error_table(sample, study));
    write_list(html, layouts_without_plan(sample));
    html.close();
}

}  // namespace

std::string risk_html(const RiskSample& sample, const RiskStudy& study) {
    HtmlWriter html;
    html.open("html", {{"lang", "en"}});
    html.open("head");
    html.empty("meta", {{"charset", "utf-8"}});
    html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    html.element("title", shortened(sample.head.site) + " - how sure the costs are");
    html.style(page_style);
    html.close();
    html.open("body");
    html.element("a", "Skip to the result", {{"class", "skip"}, {"href", "#answer"}});
    html.open("header");
    html.element("h1", shortened(sample.head.site));
    html.element("p", risk_opening(sample, study), {{"class", "quiet"}});
    html.close();
    html.open("main");
    write_answer(html, sample, study);
    write_outlook(html, sample, study);
    write_section(html, "choice", "Which to choose now", choice_table(sample, study), choice_note());
    if (study.recommended) {
        write_section(html, "drivers", "Where the doubt comes from", driver_table(sample, study),
                      driver_note(sample, study));
        write_section(html, "contingency", "How much contingency buys how much confidence",
                      contingency_table(sample, study), contingency_note(sample, study));
    }
    write_section(html, "plans", "How good the plans are", pool_table(sample, study), pool_note(sample));
    html.close();
    html.close();
    html.close();
    return html.finished();
}

}  // namespace spadework::report
