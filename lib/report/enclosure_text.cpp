#include "report/assumptions.hpp"
#include "report/cautions_text.hpp"
#include "report/enclosure_report.hpp"
#include "report/enclosure_tables.hpp"
#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

std::string enclosure_text(const Scenario& scenario, const EnclosureStudy& study) {
    const std::size_t every_place = study.ranking.size();
    std::string text = paragraph(shown(scenario.name));
    text += paragraph(shown(best_sentence(scenario, study)));
    if (study.interrupted) text += paragraph("The search was stopped early; the gaps are what was proven by then.");
    if (!study.ranking.empty())
        text += heading("Places for one enclosure") + ranking_table(scenario, study, every_place).text();
    const auto dear = why_dear(scenario, study, every_place);
    if (!dear.empty()) text += heading("What makes a place dear") + bullets(dear);
    const auto barred = why_barred(scenario, study);
    if (!barred.empty()) text += heading("Places barred") + bullets(barred);
    if (!study.by_count.empty())
        text += heading("Best plan by number of enclosures") + count_table(scenario, study).text();
    text += heading("Assumptions") + bullets(assumptions(scenario));
    if (study.ranking.empty() || !study.ranking.front().result.feasible()) return text;
    return text + cautions_text(scenario, *study.ranking.front().result.plan);
}

}  // namespace spadework::report
