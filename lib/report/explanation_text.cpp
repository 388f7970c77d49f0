#include "report/explanation_report.hpp"
#include "report/explanation_tables.hpp"
#include "report/paragraphs.hpp"

namespace spadework::report {

namespace {

std::string enclosures_section(const Scenario& scenario, const Explanation& explanation) {
    const std::string text = paragraph(enclosure_reasons_opening(explanation));
    if (explanation.enclosures.empty()) return text;
    return text + "\n" + enclosure_reasons_table(scenario, explanation).text() +
           bullets(enclosure_remarks(scenario, explanation));
}

}  // namespace

std::string explanation_text(const Scenario& scenario, const std::optional<Explanation>& explanation) {
    std::string text = heading("Why this plan");
    for (const std::string& sentence : explanation_opening(explanation))
        text += paragraph(sentence);
    if (!explanation) return text;
    text += "\n" + enclosures_section(scenario, *explanation);
    text += "\n" + paragraph(building_reasons_opening(*explanation));
    text += "\n" + building_reasons_table(scenario, *explanation).text();
    return text + bullets(building_remarks(scenario, *explanation));
}

}  // namespace spadework::report
