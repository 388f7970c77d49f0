#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"
#include "report/sweep_report.hpp"
#include "report/sweep_tables.hpp"

namespace spadework::report {

std::string sweep_text(const Scenario& scenario, const Sweep& sweep) {
    std::string text = paragraph(shown(scenario.name)) + paragraph(sweep_opening(sweep));
    if (sweep.inputs.size() == 1) {
        text += heading("Total by layout") + points_table(scenario, sweep).text();
        text += heading("Where the winner changes") + bullets(change_sentences(sweep));
    } else {
        text += heading("Winners") + winners_table(sweep).text() + "\n" + bullets(winner_letters(sweep));
    }
    return text + "\n" + paragraph(sweep_note(sweep));
}

}  // namespace spadework::report
