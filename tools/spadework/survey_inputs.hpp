#pragma once

// The files that a survey reads.

#include <optional>
#include <string>
#include <vector>

#include "drawn_map/drawn_map.hpp"
#include "site_file/source_text.hpp"
#include "spadework/complaints.hpp"
#include "spadework/survey_options.hpp"
#include "survey/plan_fit.hpp"
#include "survey/survey_options.hpp"

namespace spadework {

/// Reads the files of a survey and keeps every problem with them, and the texts to show them in.
class SurveyInputs {
public:
    explicit SurveyInputs(const SurveyCommandOptions& options) : options_(options) {}

    /// All maps, plans laid on the map among them.
    std::vector<drawn_map::DrawnMap> read_maps();
    /// How the plans were laid on the map.
    [[nodiscard]] const std::vector<survey::PlanFit>& fits() const { return fits_; }
    /// The text of a file, or that of a shipped file where no path is given.
    std::optional<site_file::SourceText> text_of(const std::string& path, const char* shipped_name);
    /// Names in the file of --buildings-from, a line each.
    std::vector<std::string> listed_buildings();
    /// Polygons of --within.
    std::vector<survey::Polygon> polygons(const std::vector<drawn_map::DrawnMap>& maps);

    [[nodiscard]] Diagnostics& diagnostics() { return diagnostics_; }
    [[nodiscard]] const Texts& texts() const { return texts_; }

private:
    std::optional<std::string> read(const std::string& path);
    void read_map(const std::string& path, CoordinateSystem coordinates, std::vector<drawn_map::DrawnMap>& maps);
    void lay_plans(std::vector<drawn_map::DrawnMap>& maps, std::size_t first_plan);

    const SurveyCommandOptions& options_;
    Diagnostics diagnostics_;
    Texts texts_;
    std::vector<survey::PlanFit> fits_;
};

}  // namespace spadework
