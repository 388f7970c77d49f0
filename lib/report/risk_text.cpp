#include "report/paragraphs.hpp"
#include "report/risk_report.hpp"
#include "report/risk_tables.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

std::string section(const std::string& title, const TextTable& table, const std::string& note) {
    if (table.empty()) return "";
    return heading(title) + table.text() + (note.empty() ? "" : paragraph(note));
}

}  // namespace

std::string risk_text(const RiskSample& sample, const RiskStudy& study) {
    std::string text = paragraph(shown(sample.head.site)) + paragraph(risk_opening(sample, study));
    if (const std::string cut = risk_interrupted(sample); !cut.empty()) text += paragraph(cut);
    text += heading("What each layout may cost") + outlook_table(sample, study).text() + paragraph(outlook_note());
    text += section("Statistical error of these, at 95 %", error_table(sample, study), "");
    text += section("Which to choose now", choice_table(sample, study), choice_note());
    if (study.recommended) {
        text += section("Where the doubt comes from", driver_table(sample, study), driver_note(sample, study));
        text += section("How much contingency buys how much confidence", contingency_table(sample, study),
                        contingency_note(sample, study));
    }
    text += section("How good the plans are", pool_table(sample, study), pool_note(sample));
    if (const auto without = layouts_without_plan(sample); !without.empty())
        text += heading("Layouts without a plan") + bullets(without);
    return text + heading("Verdict") + paragraph(risk_verdict(sample, study));
}

}  // namespace spadework::report
