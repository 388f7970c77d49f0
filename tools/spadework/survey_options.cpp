#include "spadework/survey_options.hpp"

namespace spadework {

namespace {

void add_map_options(CLI::App& command, SurveyCommandOptions& options) {
    add_words(command, "MAP", options.maps,
              "Maps: GeoJSON, KML, KMZ, GPX, OSM XML, CSV of buildings; several are taken together; '-' reads one from "
              "standard input");
    add_text_option(command, "-o,--output", "FILE", options.output,
                    "The site file to write; '-' writes it to standard output, and the report to standard error");
    add_flag(command, "--force", options.force, "Write over a site file that is there already");
    add_texts_option(command, "--plan", "FILE", options.plans,
                     "A map in metres of a local plan, laid on the others by --control-points; may be given again");
    add_text_option(command, "--control-points", "FILE", options.control_points,
                    "CSV of two or more points known on both: x, y, longitude, latitude");
    add_text_option(command, "--csv-x", "COLUMN", options.x_column, "Column of a CSV map that holds the longitude");
    add_text_option(command, "--csv-y", "COLUMN", options.y_column, "Column that holds the latitude");
    add_text_option(command, "--csv-name", "COLUMN", options.name_column, "Column that holds the name");
    add_text_option(command, "--csv-id", "COLUMN", options.id_column, "Column that holds the id");
    add_text_option(command, "--reference-system", "EPSG:N", options.reference_system,
                    "Coordinate system of maps that do not say theirs; needs a build with GDAL");
}

void add_choice_options(CLI::App& command, SurveyCommandOptions& options) {
    add_text_option(command, "--hub", "BUILDING", options.survey.hub,
                    "The building with the hub, by name or id, or a place as LONGITUDE,LATITUDE");
    add_texts_option(command, "--building", "NAME", options.buildings,
                     "A building to link, by name or id; may be given again (default: all)");
    add_text_option(command, "--buildings-from", "FILE", options.buildings_from,
                    "Buildings to link, a name or id a line");
    add_whole_option(command, "--nearest", "N", options.survey.nearest, 1, 100'000,
                     "Only so many buildings, those nearest to the hub");
    add_text_option(command, "--within", "AREA", options.within,
                    "Only buildings inside the areas of a map file, or inside the area of that name on the maps");
    add_number_option(command, "--longest-lateral", "METRES", options.survey.longest_lateral_metres, 0.1, 100'000,
                      "Buildings farther than this from the lines are left out (default: 100)");
    add_number_option(command, "--snap", "METRES", options.survey.snap_metres, 0, 1000,
                      "Dead ends this near to another line are led on to it; 0 for none (default: 1)");
    add_flag(command, "--open-ground", options.survey.areas,
             "Also take lawns and squares to cross, obstacles to keep out of, and overlays");
}

void add_content_options(CLI::App& command, SurveyCommandOptions& options) {
    add_text_option(command, "--default-ground", "GROUND", options.survey.default_ground,
                    "Of lines of which nothing is known (default: asphalt)");
    add_text_option(command, "--lateral-ground", "GROUND", options.survey.lateral_ground,
                    "Of the lines from the network to the buildings (default: grass)");
    add_text_option(command, "--table", "FILE", options.table,
                    "What tags mean, instead of the table that --print-table shows");
    add_flag(command, "--print-table", options.print_table,
             "Print the table of tags, to change it, and do nothing else");
    add_text_option(command, "--grounds", "FILE", options.grounds,
                    "Your section `grounds` (YAML), instead of invented prices");
    add_text_option(command, "--catalogue", "FILE", options.catalogue,
                    "Your section `catalogue`, instead of invented prices");
    add_text_option(command, "--labour", "FILE", options.labour, "Your section `labour`, instead of invented rates");
    add_text_option(command, "--rules", "FILE", options.rules, "Your section `rules`");
    add_text_option(command, "--name", "NAME", options.name, "Of the site (default: that of the first map's file)");
    add_text_option(command, "--currency", "CODE", options.currency, "Of all prices (default: EUR)");
    add_text_option(command, "--rate", "RATE", options.rate, "Of the link to each building (default: 1G)");
}

}  // namespace

void add_survey_options(CLI::App& command, SurveyCommandOptions& options) {
    add_map_options(command, options);
    add_choice_options(command, options);
    add_content_options(command, options);
    add_format_option(command, options.format);
    add_volume_options(command, options.quiet, options.verbose);
}

}  // namespace spadework
