#include "survey/survey.hpp"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "site_file/document.hpp"
#include "survey/choice.hpp"
#include "survey/dead_ends.hpp"
#include "survey/laterals.hpp"
#include "survey/left_over.hpp"
#include "survey/network_cleaning.hpp"
#include "survey/noding.hpp"
#include "survey/site_areas.hpp"
#include "survey/site_assembly.hpp"

namespace spadework::survey {

namespace {

std::size_t as_index(int number) {
    return static_cast<std::size_t>(number);
}

std::vector<Position> first_points(const MapContents& contents) {
    std::vector<Position> points;
    for (const Way& way : contents.ways)
        points.push_back(way.points.front());
    return points;
}

std::vector<SourceFindings> findings_of(const std::vector<drawn_map::DrawnMap>& maps) {
    std::vector<SourceFindings> sources;
    for (const drawn_map::DrawnMap& map : maps) {
        SourceFindings source{map.source, map.format, 0, 0, 0, map.left_out};
        for (const drawn_map::Feature& feature : map.features) {
            ++(feature.shape == drawn_map::Shape::line   ? source.lines
               : feature.shape == drawn_map::Shape::area ? source.areas
                                                         : source.points);
        }
        sources.push_back(std::move(source));
    }
    return sources;
}

/// The stages in order, with what they share.
class Surveyor {
public:
    Surveyor(MapContents contents, const SurveyOptions& options, Diagnostics& diagnostics)
        : contents_(std::move(contents)),
          options_(options),
          diagnostics_(diagnostics),
          plane_(CoordinateSystem::wgs84_degrees, first_points(contents_)) {}

    std::optional<Survey> survey(std::vector<SourceFindings> sources) {
        findings_.sources = std::move(sources);
        note_contents();
        if (contents_.ways.empty()) {
            error("", "no line to dig along on the maps", "paths, roads or tracks drawn as lines");
            return std::nullopt;
        }
        const auto hub = choose_hub(contents_, options_, diagnostics_);
        if (!hub) return std::nullopt;
        const auto chosen = choose_buildings(contents_, *hub, options_, diagnostics_);
        if (has_errors(diagnostics_)) return std::nullopt;
        make_network();
        if (!join(*hub, chosen)) return std::nullopt;
        return finish();
    }

private:
    void note_contents() {
        findings_.lines = static_cast<int>(contents_.ways.size());
        findings_.lines_left_out = contents_.lines_left_out;
        findings_.areas_left_out = contents_.areas_left_out;
        findings_.points_left_out = contents_.points_left_out;
        findings_.repeated_features = contents_.repeated_features;
        findings_.points_in_buildings = contents_.points_in_buildings;
        findings_.buildings_mapped = static_cast<int>(contents_.buildings.size());
        findings_.lateral_ground = options_.lateral_ground;
        findings_.longest_lateral_metres = options_.longest_lateral_metres;
        findings_.snap_metres = options_.snap_metres;
    }

    void make_network() {
        network_ = network_of(contents_.ways, findings_.pieces_without_length);
        for (const Chain& chain : network_.chains)
            findings_.metres_drawn += metres_of(network_, chain);
        const Noding noding = node_crossings(network_, contents_.ways, plane_);
        findings_.crossings_joined = findings_for(noding.joined);
        findings_.crossings_apart = findings_for(noding.apart);
        for (const DeadEndJoin& join : join_dead_ends(network_, contents_.ways, plane_, options_.snap_metres))
            findings_.dead_ends.push_back({way(join.way).id, way(join.other_way).id, join.metres, join.to});
        const Repeated repeated = drop_repeated_edges(network_, contents_);
        findings_.pieces_repeated = repeated.pieces;
        findings_.metres_repeated = repeated.metres;
        parts_ = parts_of(network_, contents_.ways, false);
        drawn_parts_ = parts_of(network_, contents_.ways, true);
        findings_.parts = static_cast<int>(drawn_parts_.metres.size());
    }

    [[nodiscard]] std::vector<CrossingFinding> findings_for(const std::vector<Crossing>& crossings) const {
        std::vector<CrossingFinding> list;
        for (const Crossing& crossing : crossings) {
            const Way& a = way(crossing.way);
            const Way& b = way(crossing.other_way);
            list.push_back({a.id, b.id, a.level, b.level, crossing.at});
        }
        return list;
    }

    /// Joins the hub to the longest part within reach, and the buildings to that part.
    bool join(const HubChoice& hub, const std::vector<std::size_t>& chosen) {
        walls_.emplace(contents_, plane_);
        const LateralSearch search(network_, contents_.ways, parts_.of_chain, plane_);
        const Position point = plane_.to_plane(hub.at);
        const std::vector<Stretch> sides =
            hub.building ? walls_->of(*hub.building) : std::vector<Stretch>{{point, point}};
        for (const auto& [part, metres] : search.parts_near(sides, options_.longest_lateral_metres)) {
            if (hub_part_ < 0 || parts_.metres[as_index(part)] > parts_.metres[as_index(hub_part_)]) hub_part_ = part;
        }
        if (hub_part_ < 0) {
            const double metres = search.metres_to_any(hub.at);
            error("--hub", fmt::format("the hub is {:.0f} m from the nearest line that may be used", metres),
                  fmt::format("at most {:.0f} m, or a greater --longest-lateral", options_.longest_lateral_metres));
            return false;
        }
        const auto hub_lateral =
            hub.building ? search.to_building(*hub.building, *walls_, hub_part_, options_.longest_lateral_metres)
                         : search.to_point(hub.at, hub_part_);
        laterals_.push_back(*hub_lateral);
        join_buildings(chosen, search);
        return true;
    }

    /// The nearest buildings within reach of the hub's part, up to the limit; those that are too far are told of.
    void join_buildings(const std::vector<std::size_t>& chosen, const LateralSearch& search) {
        for (const std::size_t building : chosen) {
            if (options_.nearest > 0 && findings_.buildings_chosen == options_.nearest) break;
            const auto lateral = search.to_building(building, *walls_, hub_part_, options_.longest_lateral_metres);
            if (lateral && lateral->metres <= options_.longest_lateral_metres) {
                laterals_.push_back(*lateral);
                ++findings_.buildings_chosen;
            } else {
                findings_.cut_off.push_back({contents_.buildings[building].id, lateral ? lateral->metres : 0, ""});
            }
        }
        std::sort(laterals_.begin() + 1, laterals_.end(),
                  [](const Lateral& a, const Lateral& b) { return *a.building < *b.building; });
    }

    /// Usable chains of the hub's part, and the barred ones drawn together with them.
    [[nodiscard]] ChosenChains chosen_chains() const {
        int drawn_part = -1;
        for (std::size_t i = 0; i < network_.chains.size() && drawn_part < 0; ++i) {
            if (parts_.of_chain[i] == hub_part_) drawn_part = drawn_parts_.of_chain[i];
        }
        ChosenChains chains;
        for (std::size_t i = 0; i < network_.chains.size(); ++i) {
            const bool is_usable = parts_.of_chain[i] >= 0;
            chains.taken.push_back(is_usable ? parts_.of_chain[i] == hub_part_
                                             : drawn_parts_.of_chain[i] == drawn_part);
        }
        return chains;
    }

    void note_barred_apart(const ChosenChains& chains) {
        std::set<int> lines;
        for (std::size_t i = 0; i < network_.chains.size(); ++i) {
            if (parts_.of_chain[i] >= 0 || chains.taken[i] != 0) continue;
            lines.insert(network_.chains[i].way);
            findings_.metres_barred_apart += metres_of(network_, network_.chains[i]);
        }
        findings_.lines_barred_apart = static_cast<int>(lines.size());
    }

    std::optional<Survey> finish() {
        findings_.left_over = left_over_parts(network_, contents_.ways, parts_, hub_part_, plane_);
        const ChosenChains chains = chosen_chains();
        note_barred_apart(chains);
        const std::vector<int> vertices = attach(network_, laterals_);
        Survey survey;
        survey.site = assemble_site(network_, contents_, chains, laterals_, vertices, *walls_, findings_);
        if (survey.site.buildings < 1) {
            error("",
                  fmt::format("no building within {:.0f} m of the lines that hang together with the hub's",
                              options_.longest_lateral_metres),
                  "at least one building beside the hub");
            return std::nullopt;
        }
        if (options_.areas) {
            add_areas(survey.site, contents_, options_.longest_lateral_metres, findings_);
        } else {
            findings_.areas_not_asked_for = static_cast<int>(contents_.areas.size());
        }
        survey.findings = std::move(findings_);
        return survey;
    }

    void error(const char* option, std::string found, std::string wanted) {
        diagnostics_.push_back({{option, 0, 0}, Severity::error, std::move(found), std::move(wanted), ""});
    }

    [[nodiscard]] const Way& way(int number) const { return contents_.ways[as_index(number)]; }

    MapContents contents_;
    const SurveyOptions& options_;
    Diagnostics& diagnostics_;
    LocalPlane plane_;
    SurveyFindings findings_;
    LineNetwork network_;
    Parts parts_;
    Parts drawn_parts_;
    std::optional<Walls> walls_;
    std::vector<Lateral> laterals_;  ///< The hub's first.
    int hub_part_ = -1;
};

}  // namespace

std::optional<Survey> survey_maps(const std::vector<drawn_map::DrawnMap>& maps, const TagTable& table,
                                  const SurveyOptions& options, Diagnostics& diagnostics) {
    return Surveyor(contents_of(maps, table, options.default_ground), options, diagnostics).survey(findings_of(maps));
}

}  // namespace spadework::survey
