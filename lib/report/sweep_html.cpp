#include "drawing/doubt_charts.hpp"
#include "report/html_figure.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/html_writer.hpp"
#include "report/sweep_report.hpp"
#include "report/sweep_tables.hpp"

namespace spadework::report {

namespace {

void write_one_input(HtmlWriter& html, const Scenario& scenario, const Sweep& sweep) {
    open_section(html, "answer", "Where the winner changes");
    write_list(html, change_sentences(sweep));
    write_chart(html, "sweep",
                "Totals along the input, each with the band down to its lower bound; upright lines where the winner "
                "changes, dashed where that is not proven.",
                [&](const drawing::Frame& frame) { return drawing::sweep_svg(scenario, sweep, frame); });
    html.element("p", sweep_note(sweep));
    html.close();
    const char* const heading = "Total by layout";
    open_section(html, "points", heading);
    write_table_under(html, heading, points_table(scenario, sweep));
    html.close();
}

void write_two_inputs(HtmlWriter& html, const Scenario& scenario, const Sweep& sweep) {
    open_section(html, "answer", "Winners");
    write_chart(html, "sweep", "The winner at each pair of values: a capital where it is proven.",
                [&](const drawing::Frame& frame) { return drawing::sweep_svg(scenario, sweep, frame); });
    write_list(html, winner_letters(sweep));
    write_table(html, "Winners by value", winners_table(sweep));
    html.element("p", sweep_note(sweep));
    html.close();
}

}  // namespace

std::string sweep_html(const Scenario& scenario, const Sweep& sweep) {
    HtmlWriter html;
    html.open("html", {{"lang", "en"}});
    html.open("head");
    html.empty("meta", {{"charset", "utf-8"}});
    html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    html.element("title", shortened(scenario.name) + " - where the winner changes");
    html.style(page_style);
    html.close();
    html.open("body");
    html.element("a", "Skip to the result", {{"class", "skip"}, {"href", "#answer"}});
    html.open("header");
    html.element("h1", shortened(scenario.name));
    html.element("p", sweep_opening(sweep), {{"class", "quiet"}});
    html.close();
    html.open("main");
    if (sweep.inputs.size() == 1) {
        write_one_input(html, scenario, sweep);
    } else {
        write_two_inputs(html, scenario, sweep);
    }
    html.close();
    html.close();
    html.close();
    return html.finished();
}

}  // namespace spadework::report
