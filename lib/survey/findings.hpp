#pragma once

// What a survey assumed, joined, left apart and left out, for its report.

#include <map>
#include <string>
#include <vector>

#include "survey/level.hpp"
#include "survey/plan_fit.hpp"
#include "survey/tag_table.hpp"

namespace spadework::survey {

/// What a file of the survey held.
struct SourceFindings {
    std::string source;
    std::string format;
    int lines = 0;
    int areas = 0;
    int points = 0;
    std::map<std::string, int> left_out;  ///< By the reader: "altitudes", "styles".
};

/// Metres of the site's network, laterals apart, whose ground was settled in the same way.
struct GroundFindings {
    GroundChoice choice;
    int segments = 0;
    double metres = 0;
};

/// Segments drawn in the site that may not be used.
struct BarredFindings {
    std::string reason;
    int segments = 0;
    double metres = 0;
};

/// Two lines that cross, or touch, without a common vertex.
struct CrossingFinding {
    std::string way;
    std::string other_way;
    Level level;
    Level other_level;
    Position at;
};

/// The end of a line led on to another line.
struct DeadEndFinding {
    std::string way;
    std::string other_way;
    double metres = 0;
    Position at;
};

/// A part of the drawn lines that does not hang together with the hub's.
struct LeftOverPart {
    std::string way;  ///< One of it, the nearest to the hub's part.
    int lines = 0;
    double metres = 0;
    double metres_away = 0;  ///< From the hub's part, as the crow flies.
    Position at;             ///< Where it comes nearest.
};

/// The line from the network to a building.
struct LateralFinding {
    std::string building;
    double metres = 0;
    bool to_entrance = false;  ///< To an entrance that the map shows, rather than to the nearest wall.
    std::string through;       ///< Another building that it passes through; "" where none.
};

/// A building that was chosen and is not in the site.
struct CutOffFinding {
    std::string building;
    double metres = 0;      ///< From the hub's part of the network.
    std::string stands_on;  ///< The building whose place it has; "" where it is merely too far.
};

struct SurveyFindings {
    std::vector<SourceFindings> sources;
    std::vector<PlanFit> fits;

    int lines = 0;  ///< To dig along, or barred.
    double metres_drawn = 0;
    int parts = 0;                        ///< That all these lines make, once noded.
    int places = 0;                       ///< Of the site.
    int segments = 0;                     ///< Of the site.
    std::vector<GroundFindings> grounds;  ///< By ground, then by how it was settled.
    std::vector<BarredFindings> barred;
    int lines_barred_apart = 0;  ///< Barred lines that are not even drawn together with the hub's: not in the site.
    double metres_barred_apart = 0;
    std::vector<CrossingFinding> crossings_joined;
    std::vector<CrossingFinding> crossings_apart;
    std::vector<DeadEndFinding> dead_ends;
    std::vector<LeftOverPart> left_over;  ///< The longest first.
    int pieces_without_length = 0;
    int pieces_repeated = 0;
    double metres_repeated = 0;

    int buildings_mapped = 0;
    int buildings_chosen = 0;
    std::vector<LateralFinding> laterals;  ///< Of the hub and the buildings in the site.
    std::string lateral_ground;
    double longest_lateral_metres = 0;
    double snap_metres = 0;
    std::vector<CutOffFinding> cut_off;

    int areas_taken = 0;
    int areas_not_asked_for = 0;            ///< Left out because areas are not switched on.
    std::vector<std::string> areas_broken;  ///< Left out because their border crosses itself.
    int areas_far_away = 0;
    int lines_left_out = 0;  ///< By the table.
    int areas_left_out = 0;
    int points_left_out = 0;
    int repeated_features = 0;
    int points_in_buildings = 0;
};

}  // namespace spadework::survey
