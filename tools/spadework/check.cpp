// spadework check FILE: is the site file right, and what values will be planned with?

#include <algorithm>
#include <memory>

#include <fmt/format.h>

#include "report/shown_text.hpp"
#include "report/values_text.hpp"
#include "spadework/command.hpp"
#include "spadework/site_loading.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

struct CheckOptions {
    SiteOptions site;
    bool show_defaults = false;
};

/// " Its open ground became 310 more segments.", or nothing.
std::string open_ground_summary(const Scenario& scenario) {
    if (scenario.areas.empty()) return {};
    return fmt::format(" {} area{}; open ground became {} more segments.", scenario.areas.size(),
                       scenario.areas.size() == 1 ? "" : "s", scenario.open_ground.lines);
}

std::string summary(const Scenario& scenario) {
    int links = 0;
    for (const Building& building : scenario.buildings)
        links += link_count(building);
    const auto places = std::count_if(scenario.places.begin(), scenario.places.end(),
                                      [](const Place& place) { return !place.laid_out; });
    const auto segments = std::count_if(scenario.segments.begin(), scenario.segments.end(),
                                        [](const Segment& segment) { return !segment.area; });
    return fmt::format("{}: valid. {} places, {} segments, {} buildings with {} links to the hub.{}\n",
                       report::shown(scenario.name), places, segments, scenario.buildings.size(), links,
                       open_ground_summary(scenario));
}

ExitCode check_site(const CheckOptions& options) {
    const auto site = load_site(options.site);
    if (!site) return ExitCode::invalid_site;
    print(options.show_defaults ? report::values_text(site->values) : summary(*site->scenario));
    return ExitCode::ok;
}

}  // namespace

Command add_check_command(CLI::App& program) {
    CLI::App& syntax = add_command(program, "check", "Find every problem of a site file, without planning anything");
    const auto options = std::make_shared<CheckOptions>();
    add_site_options(syntax, options->site);
    add_flag(syntax, "--show-defaults", options->show_defaults,
             "Print every value in force, with its unit, and whether the file or a default set it");
    return {&syntax, [options] { return check_site(*options); }};
}

}  // namespace spadework
