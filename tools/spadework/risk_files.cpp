#include "spadework/risk_files.hpp"

#include "drawing/doubt_charts.hpp"
#include "report/risk_report.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/standard_output.hpp"
#include "spadework/study_run.hpp"

namespace spadework {

ExitCode show_risk(const RiskSample& sample, const ResultOptions& result) {
    const auto folder = open_folder(result.folder);
    const RiskStudy study = study_risk(sample);
    const std::string text = report::risk_text(sample, study);
    const std::string json = report::risk_json(sample, study);
    if (folder) {
        std::vector<OutputFile> files = {
            {"risk.txt", text},
            {"risk.json", json},
            {"risk.html", report::risk_html(sample, study)},
            {"risk.svg", drawing::risk_curves_svg(sample, {.width = 960, .id_prefix = "", .own_file = true})}};
        for (const auto& [name, table] : report::risk_csv(sample, study))
            files.push_back({name, table});
        folder->write(files);
    }
    print(result.format == OutputFormat::json ? json : text);
    return outcome(study.recommended.has_value());
}

}  // namespace spadework
