#include "certificate/verification.hpp"
#include "fuzz/support/inputs.hpp"
#include "fuzz/support/promises.hpp"
#include "site_file/site_texts.hpp"

namespace spadework::fuzz {

namespace {

using namespace site_file;

std::string shipped(const std::string& name) {
    return testing::text_of_file(testing::scenarios_folder() / name);
}

Scenario lakeside() {
    const LoadedSite site = testing::read_text(shipped("lakeside.yaml"));
    require(site.scenario.has_value(), "the shipped scenario is valid");
    Scenario scenario = *site.scenario;
    scenario.digest = "0000000000000000";  // That of all certificates among the inputs.
    return scenario;
}

}  // namespace

void try_certificate(std::string_view bytes) {
    static const Scenario scenario = lakeside();
    certificate::ReadCertificate read = certificate::read_certificate(scenario, "certificate", bytes);
    const bool is_read = read.certificate.has_value() || !read.other_site.empty();
    require(is_read || has_errors(read.diagnostics), "there is a certificate or an error");
    for (const Diagnostic& diagnostic : read.diagnostics)
        require(to_text(diagnostic).find('\n') == std::string::npos, "a problem is told in one line");
    const LayoutKind layout = read.certificate ? read.certificate->layout : LayoutKind::home_runs;
    const auto verdicts = certificate::verify(scenario, {{layout, std::move(read)}});
    require(!certificate::verdicts_text(scenario, verdicts).empty(), "there is a verdict");
}

}  // namespace spadework::fuzz
