#include "report/html_report.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "report/html_sections.hpp"
#include "report/html_writer.hpp"
#include "report/plan_sentences.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

void write_head(HtmlWriter& html, const Scenario& scenario) {
    html.open("head");
    html.empty("meta", {{"charset", "utf-8"}});
    html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    html.element("title", shortened(scenario.name) + " - layouts compared");
    html.style(page_style);
    html.close();
}

/// Lines that are not empty.
std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        if (end > at) lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

void write_banner(HtmlWriter& html, const Scenario& scenario) {
    html.open("header");
    html.element("h1", shortened(scenario.name));
    for (const std::string& line : lines_of(scenario.note))
        html.element("p", line);
    html.element("p", site_sentence(scenario), {{"class", "quiet"}});
    html.close();
}

}  // namespace

const LayoutResult* cheapest_of(const Comparison& comparison) {
    if (!comparison.cheapest) return nullptr;
    return &comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)];
}

void open_section(HtmlWriter& html, const char* id, const std::string& heading) {
    const std::string heading_id = fmt::format("{}-heading", id);
    html.open("section", {{"id", id}, {"aria-labelledby", heading_id}});
    html.element("h2", heading, {{"id", heading_id}});
}

void write_list(HtmlWriter& html, const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    html.open("ul");
    for (const std::string& text : texts)
        html.element("li", text);
    html.close();
}

std::string report_html(const Scenario& scenario, const PageParts& parts) {
    HtmlWriter html;
    html.open("html", {{"lang", "en"}});
    write_head(html, scenario);
    html.open("body");
    html.element("a", "Skip to the result", {{"class", "skip"}, {"href", "#answer"}});
    write_banner(html, scenario);
    html.open("main");
    constexpr std::array write_parts = {write_answer,     write_plan,        write_layouts,      write_other_plans,
                                        write_enclosures, write_strands,     write_growth_study, write_details,
                                        write_sheets,     write_explanation, write_grounds};
    for (const auto& write_part : write_parts)
        write_part(html, scenario, parts);
    html.close();
    html.close();
    html.close();
    return html.finished();
}

}  // namespace spadework::report
