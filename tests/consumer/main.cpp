// Prints the cheapest layout of a site and what it costs in whole minor units of its currency.
#include <fstream>
#include <iostream>
#include <sstream>

#include "site_file/site_file.hpp"
#include "study/study.hpp"

int main(int, char** arguments) {
    std::ostringstream text;
    text << std::ifstream(arguments[1]).rdbuf();
    const auto no_other_files = [](const std::string&) {
        return spadework::site_file::LoadedText{std::nullopt, "not available"};
    };
    const auto site = spadework::site_file::read_site({arguments[1], text.str()}, no_other_files);
    for (const auto& diagnostic : site.diagnostics)
        std::cerr << to_text(diagnostic) << '\n';
    if (!site.scenario) return 1;

    const auto study = spadework::compare_layouts(*site.scenario, {.threads = 2});
    if (!study.violations.empty() || !study.comparison.cheapest) return 1;
    const auto& best = study.comparison.layouts[*study.comparison.cheapest];
    std::cout << id_of(best.layout) << ": " << best.total.minor() << ' ' << site.scenario->currency.code << '\n';
}
