// spadework survey MAP… -o site.yaml: from maps to a site file.

#include "survey/survey.hpp"

#include <charconv>
#include <cmath>
#include <filesystem>
#include <memory>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diagnostics/nearest_name.hpp"
#include "report/shown_text.hpp"
#include "report/survey_report.hpp"
#include "site_file/currency.hpp"
#include "site_file/parsing.hpp"
#include "spadework/command.hpp"
#include "spadework/file_reading.hpp"
#include "spadework/output_folder.hpp"
#include "spadework/standard_output.hpp"
#include "spadework/study_run.hpp"
#include "spadework/survey_inputs.hpp"
#include "survey/site_writing.hpp"
#include "survey/tag_table_reading.hpp"
#include "survey/verification.hpp"
#include "units/bit_rate.hpp"

namespace spadework {

namespace {

namespace fs = std::filesystem;

/// "11.5904,50.0076" as a position; nothing for another text.
std::optional<Position> position_from(const std::string& text) {
    const std::size_t comma = text.find(',');
    if (comma == std::string::npos) return std::nullopt;
    const auto number = [](std::string_view digits) -> std::optional<double> {
        while (!digits.empty() && digits.front() == ' ')
            digits.remove_prefix(1);
        double value = 0;
        const auto read = std::from_chars(digits.data(), digits.data() + digits.size(), value);
        const bool whole = !digits.empty() && read.ec == std::errc{} && read.ptr == digits.data() + digits.size();
        return whole && std::isfinite(value) ? std::optional(value) : std::nullopt;
    };
    const auto x = number(std::string_view(text).substr(0, comma));
    const auto y = number(std::string_view(text).substr(comma + 1));
    if (!x || !y || std::abs(*x) > 180 || std::abs(*y) > 90) return std::nullopt;
    return Position{*x, *y};
}

/// The texts of the sections that no map holds.
struct Sections {
    site_file::SourceText grounds;
    site_file::SourceText catalogue;
    site_file::SourceText labour;
    site_file::SourceText rules;
};

class SurveyRun {
public:
    explicit SurveyRun(const SurveyCommandOptions& options) : options_(options), inputs_(options) {}

    ExitCode run() {
        if (options_.print_table) return print_table();
        if (const std::string problem = problem_of_options(); !problem.empty()) {
            complain(fmt::format("spadework survey: {}\nRun 'spadework survey --help' for what it takes.\n", problem));
            return ExitCode::usage;
        }
        refuse_to_overwrite();
        const auto maps = inputs_.read_maps();
        const auto survey = survey_of(maps);
        complain_of(inputs_.diagnostics(), inputs_.texts(), options_.quiet);
        if (!survey) {
            complain(fmt::format("{}; no site file was written\n", tally(inputs_.diagnostics())));
            return ExitCode::invalid_site;
        }
        const auto violations = survey::violations_of(survey->site, survey->findings);
        if (!violations.empty()) return report_bug(violations);
        const std::string text = survey::site_file_text(survey->site, head_for(maps));
        if (text.size() > site_file::largest_file_bytes) {
            complain(
                fmt::format("spadework survey: the site file would have {} MB, more than the {} MB that are read "
                            "back, and was not written: survey a smaller map\n",
                            text.size() >> 20U, site_file::largest_file_bytes >> 20U));
            return ExitCode::invalid_site;
        }
        write(text, survey->findings);
        return ExitCode::ok;
    }

private:
    ExitCode print_table() {
        print(inputs_.text_of("", "survey/tags.yaml")->text);
        return ExitCode::ok;
    }

    [[nodiscard]] std::string problem_of_options() const {
        if (options_.maps.empty() && options_.plans.empty()) return "MAP is required";
        if (options_.output.empty()) return "--output is required: the site file to write, or '-'";
        if (options_.plans.empty() != options_.control_points.empty())
            return "--plan and --control-points are given together or not at all";
        if (!site_file::currency_of(options_.currency)) {
            const std::string nearest = nearest_name(options_.currency, site_file::currency_codes());
            return fmt::format("--currency: '{}' is not an ISO 4217 letter code{}", options_.currency,
                               nearest.empty() ? "" : "; did you mean '" + nearest + "'?");
        }
        if (!bit_rate_from_text(options_.rate))
            return fmt::format("--rate: '{}' is not a line rate such as 100M, 1G or 10G", options_.rate);
        return "";
    }

    void refuse_to_overwrite() const {
        if (options_.output == "-" || options_.force || !is_there(options_.output)) return;
        throw CannotWrite(fmt::format("{} is there already; --force writes over it", options_.output));
    }

    /// Reads the sections; false, and errors, where one of them is no YAML.
    bool read_sections() {
        const auto read = [this](const std::string& path, const char* shipped, site_file::SourceText& section) {
            auto text = inputs_.text_of(path, shipped);
            if (!text) return false;
            section = std::move(*text);
            return site_file::is_readable(section, inputs_.diagnostics()) &&
                   site_file::parse_yaml(section, inputs_.diagnostics()).has_value();
        };
        const bool grounds = read(options_.grounds, "survey/grounds.yaml", sections_.grounds);
        const bool catalogue = read(options_.catalogue, "prices/2026.yaml", sections_.catalogue);
        const bool labour = read(options_.labour, "survey/labour.yaml", sections_.labour);
        const bool rules = read(options_.rules, "survey/rules.yaml", sections_.rules);
        return grounds && catalogue && labour && rules;
    }

    std::optional<survey::Survey> survey_of(const std::vector<drawn_map::DrawnMap>& maps) {
        Diagnostics& diagnostics = inputs_.diagnostics();
        auto options = survey_options(maps);
        if (!read_sections()) return std::nullopt;
        const auto grounds = survey::ground_names(sections_.grounds, diagnostics);
        if (!grounds) return std::nullopt;
        check_ground("--default-ground", options.default_ground, *grounds);
        check_ground("--lateral-ground", options.lateral_ground, *grounds);
        const auto table_text = inputs_.text_of(options_.table, "survey/tags.yaml");
        if (!table_text) return std::nullopt;
        const auto table =
            survey::read_tag_table(*table_text, *grounds, *site_file::currency_of(options_.currency), diagnostics);
        if (!table || has_errors(diagnostics)) return std::nullopt;
        auto survey = survey::survey_maps(maps, *table, options, diagnostics);
        if (survey) survey->findings.fits = inputs_.fits();
        return survey;
    }

    survey::SurveyOptions survey_options(const std::vector<drawn_map::DrawnMap>& maps) {
        survey::SurveyOptions options = options_.survey;
        options.hub_near = position_from(options.hub);
        options.buildings = options_.buildings;
        for (std::string& name : inputs_.listed_buildings())
            options.buildings.push_back(std::move(name));
        options.within = inputs_.polygons(maps);
        return options;
    }

    void check_ground(const char* option, const std::string& ground, const std::vector<std::string>& grounds) {
        if (std::find(grounds.begin(), grounds.end(), ground) != grounds.end()) return;
        inputs_.diagnostics().push_back({{option, 0, 0},
                                         Severity::error,
                                         fmt::format("no ground '{}'", ground),
                                         fmt::format("one of {}", fmt::join(grounds, ", ")),
                                         nearest_name(ground, grounds)});
    }

    [[nodiscard]] std::string site_name() const {
        if (!options_.name.empty()) return options_.name;
        const std::string& first = options_.maps.empty() ? options_.plans.front() : options_.maps.front();
        std::string name = fs::path(first).stem().string();
        std::replace(name.begin(), name.end(), '_', ' ');
        return first == "-" || name.empty() ? "Surveyed site" : report::shown(name);
    }

    [[nodiscard]] survey::SiteHead head_for(const std::vector<drawn_map::DrawnMap>& maps) const {
        survey::SiteHead head;
        head.name = site_name();
        if (survey::is_open_street_map(maps)) head.note = survey::open_street_map_note;
        head.currency = *site_file::currency_of(options_.currency);
        head.link_rate = options_.rate;
        for (const drawn_map::DrawnMap& map : maps)
            head.made_from.push_back(report::shown(map.source) + " (" + map.format + ")");
        head.grounds = sections_.grounds.text;
        head.catalogue = sections_.catalogue.text;
        head.labour = sections_.labour.text;
        head.rules = sections_.rules.text;
        head.invented_prices = options_.grounds.empty() || options_.catalogue.empty() || options_.labour.empty();
        return head;
    }

    void write(const std::string& site, const survey::SurveyFindings& findings) const {
        const std::string name = site_name();
        const std::string report = options_.format == OutputFormat::json
                                       ? report::survey_json(name, findings)
                                       : report::survey_text(name, findings, options_.verbose);
        if (options_.output == "-") {
            print(site);
            if (!options_.quiet) complain(report);
            return;
        }
        const fs::path path(options_.output);
        if (path.filename().empty()) throw CannotWrite(fmt::format("{} is a folder", options_.output));
        const std::string folder = path.has_parent_path() ? path.parent_path().string() : ".";
        OutputFolder(folder).write({{path.filename().string(), site}});
        print(report);
        if (!options_.quiet) complain(fmt::format("spadework: wrote {}\n", report::shown(options_.output)));
    }

    const SurveyCommandOptions& options_;
    SurveyInputs inputs_;
    Sections sections_;
};

}  // namespace

Command add_survey_command(CLI::App& program) {
    CLI::App& syntax = add_command(program, "survey", "Make a site file from maps");
    const auto options = std::make_shared<SurveyCommandOptions>();
    add_survey_options(syntax, *options);
    return {&syntax, [options] { return SurveyRun(*options).run(); }};
}

}  // namespace spadework
