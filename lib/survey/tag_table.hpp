#pragma once

// What the tags of a drawn map mean to somebody who digs: a table that the user can change.

#include <optional>
#include <string>
#include <vector>

#include "drawn_map/drawn_map.hpp"
#include "scenario/scenario.hpp"

namespace spadework::survey {

/// What becomes of a thing on the map.
enum class Use {
    unsaid,       ///< The rule says nothing of it.
    dig,          ///< A line to dig along.
    barred,       ///< A line that is drawn but may not be used.
    building,     ///< Wants a link, if it is chosen.
    entrance,     ///< Where the cable enters the building whose outline it lies on.
    open_ground,  ///< May be crossed anywhere.
    obstacle,     ///< May not be entered.
    overlay,      ///< Changes what lies inside it.
    left_out,     ///< Not of use.
};

/// One rule of the table: which features it fits, and what they are then.
struct TagRule {
    std::vector<std::string> tags;     ///< Fits a feature that has one of these; every feature where there are none.
    std::vector<std::string> values;   ///< With one of these values; any but "no" where there are none.
    std::vector<std::string> formats;  ///< Only in files of these formats; all where there are none.
    bool bare = false;                 ///< Only a feature without tags other than name, folder, description, id.

    Use use = Use::unsaid;
    std::string ground;          ///< Id; "" where the rule says nothing of it.
    bool over_surface = false;   ///< The ground counts even where the map states a surface.
    std::string reason;          ///< Why a line is barred.
    double extra_per_metre = 0;  ///< Of an overlay, in the major unit of the currency.
    std::vector<FixedCharge> charges;
    SourcePosition where;
};

/// In each list the first rule that fits and says something of a question answers it.
struct TagTable {
    std::vector<TagRule> surfaces;  ///< What the map states of the ground under a line.
    std::vector<TagRule> lines;     ///< What kind of line it is.
    std::vector<TagRule> areas;
    std::vector<TagRule> points;
};

/// Where the ground of a line comes from.
enum class GroundSource {
    stated,    ///< A tag of the map states the surface.
    kind,      ///< Assumed from the kind of way.
    fallback,  ///< Nothing is known: the default ground.
};

/// How the ground of some lines was settled; the report adds up metres by it.
struct GroundChoice {
    std::string ground;
    GroundSource source = GroundSource::fallback;
    std::string tag;  ///< "surface=gravel", "highway=footway"; "" for the default.
    friend auto operator<=>(const GroundChoice&, const GroundChoice&) = default;
};

/// What a line is, by the table.
struct LineMeaning {
    Use use = Use::dig;
    GroundChoice ground;
    std::string reason;                ///< Why it is barred.
    std::vector<FixedCharge> charges;  ///< For each segment of it that is used.
};
LineMeaning meaning_of_line(const TagTable& table, const drawn_map::Feature& line, const std::string& format,
                            const std::string& default_ground);

/// The rule that says what an area or a point is; null where none does.
const TagRule* rule_of_area(const TagTable& table, const drawn_map::Feature& area, const std::string& format);
const TagRule* rule_of_point(const TagTable& table, const drawn_map::Feature& point, const std::string& format);

/// "highway=footway" where the rule fits the feature ("" for a rule without tags), nothing where it does not.
std::optional<std::string> fitting_tag(const TagRule& rule, const drawn_map::Feature& feature,
                                       const std::string& format);

}  // namespace spadework::survey
