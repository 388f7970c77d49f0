#include "spadework/plan_loading.hpp"

#include <fmt/format.h>

#include "plan_file/reader.hpp"
#include "report/shown_text.hpp"
#include "spadework/complaints.hpp"
#include "spadework/file_reading.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

bool refuse_input(const Diagnostics& diagnostics, const std::string& name, const std::string& text, bool quiet) {
    complain_of(diagnostics, {{name, text}}, quiet);
    if (!has_errors(diagnostics)) return false;
    complain(fmt::format("{} in {}\n", tally(diagnostics), report::shown(name)));
    return true;
}

std::optional<plan_file::PlanFile> load_plan_file(const std::string& path, bool quiet) {
    const std::string name = name_of_input(path);
    const auto text = text_of_input(path);
    if (!text) return std::nullopt;
    plan_file::ReadPlanFile read = plan_file::read_plan_file(name, *text);
    if (refuse_input(read.diagnostics, name, *text, quiet)) return std::nullopt;
    return std::move(read.plan);
}

}  // namespace spadework
