#include <fmt/format.h>

#include "report/acceptance_report.hpp"
#include "report/acceptance_tables.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"
#include "report/html_writer.hpp"

namespace spadework::report {

namespace {

using acceptance::Acceptance;
using plan_file::PlanFile;

void write_head(HtmlWriter& html, const PlanFile& plan) {
    html.open("head");
    html.empty("meta", {{"charset", "utf-8"}});
    html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
    html.element("title", shortened(plan.site_name) + " - as built");
    html.style(page_style);
    html.close();
}

void write_verdict(HtmlWriter& html, const PlanFile& plan, const Acceptance& acceptance) {
    open_section(html, "verdict", "Verdict");
    html.element("p", acceptance_sentence(acceptance), {{"class", "notice"}});
    write_table(html, "Readings by verdict", verdict_table(acceptance));
    for (const std::string& remark : acceptance_remarks(plan, acceptance))
        html.element("p", remark, {{"class", "quiet"}});
    html.close();
    open_section(html, "next", "What to do next");
    write_list(html, next_steps(plan, acceptance));
    html.close();
}

void write_record(HtmlWriter& html, const PlanFile& plan, const Acceptance& acceptance) {
    open_section(html, "readings", "Readings");
    const TextTable refused = refused_table(plan, acceptance);
    if (!refused.empty()) write_table(html, "Readings that do not pass", refused);
    write_table(html, "Every reading", readings_table(plan, acceptance));
    html.close();
    const char* const heading = "Cables as built";
    open_section(html, "cables", heading);
    html.element("p", "A cable's own length is measured where a link runs through it alone.");
    write_table_under(html, heading, as_built_cable_table(plan, acceptance));
    html.close();
}

}  // namespace

std::string acceptance_html(const PlanFile& plan, const Acceptance& acceptance) {
    HtmlWriter html;
    html.open("html", {{"lang", "en"}});
    write_head(html, plan);
    html.open("body");
    html.element("a", "Skip to the verdict", {{"class", "skip"}, {"href", "#verdict"}});
    html.open("header");
    html.element("h1", shortened(plan.site_name));
    html.element("p",
                 fmt::format("As-built record of the plan {}, site digest {}.", name_of(plan.layout), plan.site_digest),
                 {{"class", "quiet"}});
    html.close();
    html.open("main");
    write_verdict(html, plan, acceptance);
    write_record(html, plan, acceptance);
    html.close();
    html.close();
    html.close();
    return html.finished();
}

}  // namespace spadework::report
