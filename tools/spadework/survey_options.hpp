#pragma once

#include <string>
#include <vector>

#include "spadework/options.hpp"
#include "survey/survey_options.hpp"

namespace spadework {

/// What `spadework survey` is asked for. Paths are empty where not given.
struct SurveyCommandOptions {
    std::vector<std::string> maps;
    std::vector<std::string> plans;  ///< Maps in metres of a local plan.
    std::string control_points;
    std::string output;  ///< "-" is standard output.
    bool force = false;

    std::vector<std::string> buildings;
    std::string buildings_from;  ///< A file with a name a line.
    std::string within;          ///< A map with polygons, or the name of an area.
    survey::SurveyOptions survey;

    std::string table;
    bool print_table = false;
    std::string grounds;
    std::string catalogue;
    std::string labour;
    std::string rules;

    std::string name;
    std::string currency = "EUR";
    std::string rate = "1G";
    std::string x_column;
    std::string y_column;
    std::string name_column;
    std::string id_column;
    std::string reference_system;

    OutputFormat format = OutputFormat::text;
    bool quiet = false;
    bool verbose = false;
};

void add_survey_options(CLI::App& command, SurveyCommandOptions& options);

}  // namespace spadework
