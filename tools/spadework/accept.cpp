// spadework accept PLAN READINGS: do the readings keep the plan's limits, and what stands there now?

#include <memory>
#include <optional>

#include "acceptance/acceptance.hpp"
#include "plan_file/plan_file.hpp"
#include "report/acceptance_report.hpp"
#include "report/plan_file_json.hpp"
#include "spadework/command.hpp"
#include "spadework/file_reading.hpp"
#include "spadework/options.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/plan_loading.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

struct AcceptOptions {
    std::string plan;
    std::string readings;
    std::string folder;
    bool quiet = false;
    bool verbose = false;
    double length_percent = 3;
    double least_metres = 2;
    double direction_db = 0.5;
};

std::optional<std::vector<acceptance::Reading>> load_readings(const AcceptOptions& options) {
    const std::string name = name_of_input(options.readings);
    const auto text = text_of_input(options.readings);
    if (!text) return std::nullopt;
    acceptance::ReadReadings read = acceptance::read_readings(name, *text);
    if (refuse_input(read.diagnostics, name, *text, options.quiet)) return std::nullopt;
    return std::move(read.readings);
}

plan_file::AcceptanceLimits limits_of(const AcceptOptions& options) {
    return {plan_file::thousandths(options.length_percent), Length::from_metres(options.least_metres),
            plan_file::thousandths(options.direction_db)};
}

ExitCode accept(const AcceptOptions& options) {
    if (options.plan == "-" && options.readings == "-") {
        complain("spadework accept: only one of PLAN and READINGS can be standard input\n");
        return ExitCode::usage;
    }
    // Both are read before anything is given up, so that all problems are told at once.
    const auto plan = load_plan_file(options.plan, options.quiet);
    const auto readings = load_readings(options);
    if (!plan || !readings) return ExitCode::invalid_site;
    const auto folder = open_folder(options.folder);
    const acceptance::Acceptance result = acceptance::judge(*plan, *readings, limits_of(options));
    if (folder) {
        folder->write({{"as_built.json", report::plan_file_json(acceptance::as_built(*plan, result))},
                       {"as_built.csv", report::as_built_csv(*plan, result)},
                       {"as_built.html", report::acceptance_html(*plan, result)}});
    }
    print(report::acceptance_text(*plan, result));
    return result.accepted() ? ExitCode::ok : ExitCode::not_accepted;
}

}  // namespace

Command add_accept_command(CLI::App& program) {
    CLI::App& syntax =
        add_command(program, "accept", "Hold readings taken on the finished cables against a plan file's limits");
    const auto options = std::make_shared<AcceptOptions>();
    add_needed_word(syntax, "PLAN", options->plan,
                    "A plan file of 'compare --out', or an as-built record of this command; '-' reads standard input");
    add_needed_word(syntax, "READINGS", options->readings,
                    "The test sheet (CSV) with losses, and lengths where traced, filled in; '-' reads standard input");
    add_text_option(syntax, "--out", "DIR", options->folder,
                    "Also write the as-built record to this folder: as_built.json, as_built.csv and as_built.html");
    add_number_option(syntax, "--length-tolerance", "PERCENT", options->length_percent, 0, 100,
                      "How far a measured length may be from the planned fibre (default: 3)");
    add_number_option(syntax, "--least-tolerance", "METRES", options->least_metres, 0, 1000,
                      "And so much at least, whatever the length (default: 2)");
    add_number_option(syntax, "--direction-limit", "DB", options->direction_db, 0, 100,
                      "How far the two directions of a strand may be apart (default: 0.5)");
    add_volume_options(syntax, options->quiet, options->verbose);
    return {&syntax, [options] { return accept(*options); }};
}

}  // namespace spadework
