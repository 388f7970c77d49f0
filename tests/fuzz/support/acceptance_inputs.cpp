#include "acceptance/acceptance.hpp"
#include "acceptance/support/lakeside_plan.hpp"
#include "fuzz/support/inputs.hpp"
#include "fuzz/support/promises.hpp"
#include "report/acceptance_report.hpp"
#include "report/plan_file_json.hpp"

namespace spadework::fuzz {

void try_acceptance(std::string_view bytes) {
    static const plan_file::PlanFile plan = acceptance::testing::lakeside();
    const acceptance::ReadReadings read = acceptance::read_readings("readings", bytes);
    for (const Diagnostic& diagnostic : read.diagnostics)
        require(to_text(diagnostic).find('\n') == std::string::npos, "a problem is told in one line");
    if (has_errors(read.diagnostics)) return;
    require(!read.readings.empty(), "there are readings or an error");
    const acceptance::Acceptance result = acceptance::judge(plan, read.readings, {});
    int counted = 0;
    for (const int count : result.counts)
        counted += count;
    require(counted == static_cast<int>(result.readings.size()), "every reading has one verdict");
    require(result.readings.size() >= plan.tests.size() * 2, "every row of the sheet is there");
    require(!report::acceptance_text(plan, result).empty(), "there is a report");
    const std::string record = report::plan_file_json(acceptance::as_built(plan, result));
    require(plan_file::read_plan_file("record", record).plan.has_value(), "the record can be read");
}

}  // namespace spadework::fuzz
