// The trunk planned with a thought for what may come.

#include "report/cost_tables.hpp"
#include "report/growth_report.hpp"
#include "report/html_sections.hpp"
#include "report/html_table.hpp"

namespace spadework::report {

namespace {

/// Places that a page tells of one by one.
constexpr std::size_t most_places = 20;

}  // namespace

void write_growth_study(HtmlWriter& html, const Scenario& scenario, const PageParts& parts) {
    if (parts.growth == nullptr) return;
    const GrowthStudy& study = *parts.growth;
    open_section(html, "growth", "Planned for growth");
    html.element("p", growth_sentence(scenario, study));
    if (study.reason.empty()) {
        write_table(html, "The two plans, now and later", growth_plans_table(scenario, study));
        const TextTable drops = future_drops_table(scenario, study);
        if (!drops.empty()) write_table(html, "Buildings that may come", drops);
        write_table(html, "Places by expected total", growth_places_table(scenario, study, most_places));
        write_list(html, growth_remarks(scenario, study));
        if (has_bill_of_its_own(study))
            write_table(html, "Planned for growth: every cost now", cost_table(scenario, study.plan->bill));
    }
    html.close();
}

}  // namespace spadework::report
