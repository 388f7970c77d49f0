#include <fmt/format.h>

#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"
#include "report/strand_tables.hpp"
#include "report/strands_report.hpp"

namespace spadework::report {

namespace {

/// With a full stop at its end.
std::string as_sentence(std::string text) {
    if (!text.empty() && text.back() != '.') text += '.';
    return text;
}

}  // namespace

std::string strands_text(const Scenario& scenario, const StrandStudy& study) {
    std::string text = paragraph(shown(scenario.name));
    text += paragraph("A trunk that serves every building on this site.");
    text += heading("Strands needed") + strand_need_table(scenario, study).text();
    if (!scenario.growth.buildings.empty()) {
        text += heading(fmt::format("Growth named for the next {} years", scenario.growth.horizon_years));
        text += growth_table(scenario).text() + "\n" + growth_chance_table(study).text();
    }
    text += heading("Cable sizes on offer") + cable_offer_table(scenario, study).text();
    return text + heading("Recommendation") + paragraph(shown(as_sentence(study.reason)));
}

}  // namespace spadework::report
