#include "report/cautions_text.hpp"

#include <fmt/format.h>

#include "checks/cautions.hpp"
#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

std::string cautions_text(const Scenario& scenario, const Plan& plan) {
    std::vector<std::string> sentences;
    for (const Caution& caution : cautions(scenario, plan))
        sentences.push_back(shown(fmt::format("{} Source: {}.", caution.text, caution.source)));
    return heading("Cautions") + bullets(sentences);
}

}  // namespace spadework::report
