#include <fmt/format.h>

#include "report/acceptance_report.hpp"
#include "report/acceptance_tables.hpp"
#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

std::string acceptance_text(const plan_file::PlanFile& plan, const acceptance::Acceptance& acceptance) {
    std::string text = paragraph(shown(plan.site_name));
    text += paragraph(fmt::format("Readings held against the plan file of {}.", name_of(plan.layout)));
    text += heading("Verdict") + paragraph(acceptance_sentence(acceptance));
    text += heading("Readings by verdict") + verdict_table(acceptance).text() + "\n";
    for (const std::string& remark : acceptance_remarks(plan, acceptance))
        text += paragraph(remark);
    const TextTable refused = refused_table(plan, acceptance);
    if (!refused.empty()) text += heading("Readings that do not pass") + refused.text();
    return text + heading("What to do next") + bullets(next_steps(plan, acceptance));
}

}  // namespace spadework::report
