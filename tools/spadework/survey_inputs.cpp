#include "spadework/survey_inputs.hpp"

#include <algorithm>
#include <filesystem>

#include "drawn_map/reading.hpp"
#include "spadework/file_reading.hpp"
#include "spadework/shipped_files.hpp"

namespace spadework {

namespace {

std::string trimmed(std::string text) {
    const auto is_blank = [](char c) { return c == ' ' || c == '\t' || c == '\r'; };
    while (!text.empty() && is_blank(text.back()))
        text.pop_back();
    const auto begin = std::find_if_not(text.begin(), text.end(), is_blank);
    return {begin, text.end()};
}

}  // namespace

std::optional<std::string> SurveyInputs::read(const std::string& path) {
    site_file::LoadedText loaded = read_file(path);
    if (loaded.text) return std::move(loaded.text);
    diagnostics_.push_back({{name_of_input(path), 0, 0}, Severity::error, "cannot be read: " + loaded.problem, "", ""});
    return std::nullopt;
}

void SurveyInputs::read_map(const std::string& path, CoordinateSystem coordinates,
                            std::vector<drawn_map::DrawnMap>& maps) {
    auto bytes = read(path);
    if (!bytes) return;
    const std::string name = name_of_input(path);
    const drawn_map::ReadingOptions reading{
        coordinates,
        {options_.x_column, options_.y_column, options_.name_column, options_.id_column},
        options_.reference_system};
    const std::size_t before = diagnostics_.size();
    auto map = drawn_map::read_drawn_map(name, *bytes, reading, diagnostics_);
    if (map) maps.push_back(std::move(*map));
    if (diagnostics_.size() > before) texts_[name] = std::move(*bytes);
}

std::vector<drawn_map::DrawnMap> SurveyInputs::read_maps() {
    std::vector<drawn_map::DrawnMap> maps;
    for (const std::string& path : options_.maps)
        read_map(path, CoordinateSystem::wgs84_degrees, maps);
    const std::size_t first_plan = maps.size();
    for (const std::string& path : options_.plans)
        read_map(path, CoordinateSystem::plane_metres, maps);
    if (!options_.plans.empty()) lay_plans(maps, first_plan);
    return maps;
}

void SurveyInputs::lay_plans(std::vector<drawn_map::DrawnMap>& maps, std::size_t first_plan) {
    auto text = read(options_.control_points);
    if (!text) return;
    const site_file::SourceText source{name_of_input(options_.control_points), std::move(*text)};
    texts_[source.file] = source.text;
    const auto points = survey::read_control_points(source, diagnostics_);
    if (!points) return;
    const auto transform = survey::PlanTransform::fitted_to(*points, source.file, diagnostics_);
    if (!transform) return;
    fits_.push_back(transform->fit());
    for (std::size_t i = first_plan; i < maps.size(); ++i) {
        if (maps[i].coordinates == CoordinateSystem::plane_metres) survey::lay_on_map(maps[i], *transform);
    }
}

std::optional<site_file::SourceText> SurveyInputs::text_of(const std::string& path, const char* shipped_name) {
    if (path.empty()) {
        const auto& files = shipped_files();
        const auto file = std::find_if(files.begin(), files.end(),
                                       [&](const ShippedFile& shipped) { return shipped.name == shipped_name; });
        return site_file::SourceText{shipped_name, std::string(file->text)};
    }
    auto text = read(path);
    if (!text) return std::nullopt;
    texts_[name_of_input(path)] = *text;
    return site_file::SourceText{name_of_input(path), std::move(*text)};
}

std::vector<std::string> SurveyInputs::listed_buildings() {
    std::vector<std::string> names;
    if (options_.buildings_from.empty()) return names;
    const auto text = read(options_.buildings_from);
    if (!text) return names;
    std::string_view rest = *text;
    if (rest.starts_with("\xEF\xBB\xBF")) rest.remove_prefix(3);
    while (!rest.empty()) {
        const std::size_t end = std::min(rest.find('\n'), rest.size());
        std::string name = trimmed(std::string(rest.substr(0, end)));
        if (!name.empty() && name.front() != '#') names.push_back(std::move(name));
        rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    if (names.empty())
        diagnostics_.push_back({{name_of_input(options_.buildings_from), 0, 0},
                                Severity::error,
                                "names no building",
                                "a name or id a line",
                                ""});
    return names;
}

std::vector<survey::Polygon> SurveyInputs::polygons(const std::vector<drawn_map::DrawnMap>& maps) {
    std::vector<survey::Polygon> polygons;
    if (options_.within.empty()) return polygons;
    const bool is_file = options_.within == "-" || is_there(options_.within);
    std::vector<drawn_map::DrawnMap> file;
    if (is_file) read_map(options_.within, CoordinateSystem::wgs84_degrees, file);
    for (const drawn_map::DrawnMap& map : is_file ? file : maps) {
        for (const drawn_map::Feature& feature : map.features) {
            const bool is_meant = is_file || feature.name == options_.within || feature.id == options_.within;
            if (feature.shape == drawn_map::Shape::area && is_meant) polygons.push_back(feature.parts);
        }
    }
    if (polygons.empty())
        diagnostics_.push_back({{"--within", 0, 0},
                                Severity::error,
                                "no area in '" + options_.within + "'",
                                "a map file with areas, or the name of an area on the maps",
                                ""});
    return polygons;
}

}  // namespace spadework
