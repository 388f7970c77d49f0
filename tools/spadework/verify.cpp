// spadework verify FILE DIR: are the plans and bounds of a folder of certificates what they claim to be?

#include <algorithm>
#include <filesystem>
#include <memory>
#include <vector>

#include <fmt/format.h>

#include "certificate/verification.hpp"
#include "plan_file/plan_words.hpp"
#include "report/shown_text.hpp"
#include "spadework/command.hpp"
#include "spadework/complaints.hpp"
#include "spadework/file_reading.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

struct VerifyOptions {
    SiteOptions site;
    std::string folder;
};

/// The certificates in a folder; nothing, and complaints, where one cannot be read or there is none.
std::optional<std::vector<certificate::NamedCertificate>> read_folder(const Scenario& scenario,
                                                                      const std::string& folder) {
    std::error_code ignored;
    if (is_there(folder) && !std::filesystem::is_directory(folder, ignored)) {
        complain(fmt::format("{}: error: not a folder; expected the one that 'spadework compare --certificate' wrote\n",
                             report::shown(folder)));
        return std::nullopt;
    }
    std::vector<certificate::NamedCertificate> certificates;
    bool broken = false;
    for (const LayoutKind layout : plan_file::all_layouts()) {
        const std::string path = (std::filesystem::path(folder) / certificate::file_name(layout)).string();
        if (!is_there(path)) continue;
        const auto text = text_of_input(path);
        broken = broken || !text;
        if (!text) continue;
        certificates.push_back({layout, certificate::read_certificate(scenario, path, *text)});
        const Diagnostics& diagnostics = certificates.back().read.diagnostics;
        complain_of(diagnostics, {{path, *text}}, false);
        broken = broken || has_errors(diagnostics);
    }
    if (certificates.empty() && !broken) {
        complain(fmt::format("{}: error: no certificate in this folder; expected files such as {}\n",
                             report::shown(folder), certificate::file_name(LayoutKind::home_runs)));
        return std::nullopt;
    }
    if (broken) return std::nullopt;
    return certificates;
}

ExitCode verify_site(const VerifyOptions& options) {
    const auto site = load_site(options.site);
    if (!site) return ExitCode::invalid_site;
    const auto certificates = read_folder(*site->scenario, options.folder);
    if (!certificates) return ExitCode::invalid_site;
    const std::vector<certificate::Verdict> verdicts = certificate::verify(*site->scenario, *certificates);
    print(certificate::verdicts_text(*site->scenario, verdicts));
    const bool all = std::all_of(verdicts.begin(), verdicts.end(), [](const auto& verdict) { return verdict.proved; });
    return all ? ExitCode::ok : ExitCode::not_proved;
}

}  // namespace

Command add_verify_command(CLI::App& program) {
    CLI::App& syntax =
        add_command(program, "verify", "Check certificates of 'compare --certificate' again with separate code");
    const auto options = std::make_shared<VerifyOptions>();
    add_site_options(syntax, options->site);
    add_needed_word(syntax, "DIR", options->folder, "The folder of certificates");
    return {&syntax, [options] { return verify_site(*options); }};
}

}  // namespace spadework
