#include "survey/site_assembly.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "geometry/geodesic.hpp"
#include "survey/choice.hpp"
#include "survey/name_pool.hpp"

namespace spadework::survey {

namespace {

constexpr auto degrees = CoordinateSystem::wgs84_degrees;
/// A building closer than this to the network stands on it.
constexpr double stands_on_line_metres = 0.05;
constexpr double shortest_lateral_metres = 0.01;

std::size_t as_index(int number) {
    return static_cast<std::size_t>(number);
}

class Assembler {
public:
    Assembler(const LineNetwork& network, const MapContents& contents, const ChosenChains& chains,
              const std::vector<Lateral>& laterals, const std::vector<int>& lateral_vertices, const Walls& walls,
              SurveyFindings& findings)
        : network_(network),
          contents_(contents),
          chains_(chains),
          laterals_(laterals),
          lateral_vertices_(lateral_vertices),
          walls_(walls),
          findings_(findings),
          place_of_vertex_(network.grid.at().size(), -1) {}

    SurveyedSite assemble() {
        site_.ground_choices = contents_.ground_choices;
        site_.lateral_ground = findings_.lateral_ground;
        place_buildings();
        choose_junctions();
        cut_into_pieces();
        add_junctions();
        add_segments();
        add_laterals();
        add_up();
        return std::move(site_);
    }

private:
    /// A piece of a way between two junctions.
    struct Piece {
        int way;
        std::vector<int> vertices;
    };

    void place_buildings() {
        for (std::size_t i = 0; i < laterals_.size(); ++i) {
            const Lateral& lateral = laterals_[i];
            const Position& vertex = network_.at(lateral_vertices_[i]);
            int& at_vertex = place_of_vertex_[as_index(lateral_vertices_[i])];
            SitePlace place = place_for(lateral);
            const bool stands_on_it = metres_between(lateral.entrance, vertex, degrees) <= stands_on_line_metres;
            place.at = rounded_degrees(lateral.entrance);
            if (stands_on_it && at_vertex < 0) place.at = vertex;
            if (stands_on_it && at_vertex >= 0 && lateral.building)
                place.at = rounded_degrees(middle_of(contents_.buildings[*lateral.building]));
            const bool on_vertex = stands_on_it && at_vertex < 0;
            if (!on_vertex && metres_between(place.at, vertex, degrees) < shortest_lateral_metres) {
                const std::string other = at_vertex < 0 ? "a junction" : site_.places[as_index(at_vertex)].id;
                findings_.cut_off.push_back({place.id, 0, other});
                place_of_lateral_.push_back(-1);
                continue;
            }
            place.id = names_.take(place.id);
            place_of_lateral_.push_back(static_cast<int>(site_.places.size()));
            if (on_vertex) at_vertex = place_of_lateral_.back();
            site_.places.push_back(std::move(place));
        }
        site_.buildings = static_cast<int>(site_.places.size()) - 1;
    }

    [[nodiscard]] SitePlace place_for(const Lateral& lateral) const {
        SitePlace place;
        place.kind = site_.places.empty() ? PlaceKind::hub : PlaceKind::building;
        place.id = "hub";
        if (lateral.building) {
            place.id = contents_.buildings[*lateral.building].id;
            place.name = contents_.buildings[*lateral.building].name;
        }
        if (place.name.empty()) place.name = place.id;
        return place;
    }

    void choose_junctions() {
        std::vector<int> uses(network_.grid.at().size(), 0);
        for (std::size_t i = 0; i < network_.chains.size(); ++i) {
            if (chains_.taken[i] == 0) continue;
            const std::vector<int>& vertices = network_.chains[i].vertices;
            for (const int vertex : vertices)
                ++uses[as_index(vertex)];
            uses[as_index(vertices.front())] = uses[as_index(vertices.back())] = 2;
        }
        for (const int vertex : lateral_vertices_)
            uses[as_index(vertex)] = 2;
        is_junction_.assign(uses.size(), 0);
        for (std::size_t vertex = 0; vertex < uses.size(); ++vertex)
            is_junction_[vertex] = uses[vertex] > 1 ? 1 : 0;
    }

    void cut_into_pieces() {
        pieces_of_way_.assign(contents_.ways.size(), 0);
        for (std::size_t i = 0; i < network_.chains.size(); ++i) {
            if (chains_.taken[i] == 0) continue;
            const Chain& chain = network_.chains[i];
            Piece piece{chain.way, {chain.vertices.front()}};
            for (std::size_t k = 1; k < chain.vertices.size(); ++k) {
                piece.vertices.push_back(chain.vertices[k]);
                if (is_junction_[as_index(chain.vertices[k])] == 0) continue;
                add_piece(std::move(piece));
                piece = {chain.way, {chain.vertices[k]}};
            }
        }
    }

    void add_piece(Piece piece) {
        if (piece.vertices.front() != piece.vertices.back()) {
            ++pieces_of_way_[as_index(piece.way)];
            pieces_.push_back(std::move(piece));
            return;
        }
        if (piece.vertices.size() < 4) return;
        const std::size_t middle = halfway(piece.vertices);
        is_junction_[as_index(piece.vertices[middle])] = 1;
        const auto at = piece.vertices.begin() + static_cast<std::ptrdiff_t>(middle);
        add_piece({piece.way, {piece.vertices.begin(), at + 1}});
        add_piece({piece.way, {at, piece.vertices.end()}});
    }

    /// The vertex nearest to half the way along a loop.
    [[nodiscard]] std::size_t halfway(const std::vector<int>& vertices) const {
        std::vector<double> along = {0};
        for (std::size_t i = 1; i < vertices.size(); ++i)
            along.push_back(along.back() +
                            metres_between(network_.at(vertices[i - 1]), network_.at(vertices[i]), degrees));
        std::size_t best = 1;
        for (std::size_t i = 2; i + 1 < vertices.size(); ++i) {
            if (std::abs(along[i] - along.back() / 2) < std::abs(along[best] - along.back() / 2)) best = i;
        }
        return best;
    }

    void add_junctions() {
        std::vector<std::pair<std::string, int>> junctions;
        std::vector<char> seen(place_of_vertex_.size(), 0);
        const auto note = [&](int vertex) {
            if (place_of_vertex_[as_index(vertex)] >= 0 || seen[as_index(vertex)] != 0) return;
            seen[as_index(vertex)] = 1;
            junctions.emplace_back(junction_name(network_.at(vertex)), vertex);
        };
        for (const Piece& piece : pieces_) {
            note(piece.vertices.front());
            note(piece.vertices.back());
        }
        std::sort(junctions.begin(), junctions.end());
        for (const auto& [name, vertex] : junctions) {
            place_of_vertex_[as_index(vertex)] = static_cast<int>(site_.places.size());
            const std::string id = names_.take(name);
            site_.places.push_back({id, id, PlaceKind::junction, network_.at(vertex)});
        }
    }

    void add_segments() {
        std::vector<int> number_in_way(contents_.ways.size(), 0);
        for (const Piece& piece : pieces_) {
            const Way& way = contents_.ways[as_index(piece.way)];
            const int number = ++number_in_way[as_index(piece.way)];
            SiteSegment segment;
            segment.id = segment_names_.take(
                pieces_of_way_[as_index(piece.way)] == 1 ? way.id : fmt::format("{}.{}", way.id, number));
            segment.name = way.name;
            segment.from = place_of_vertex_[as_index(piece.vertices.front())];
            segment.to = place_of_vertex_[as_index(piece.vertices.back())];
            for (const int vertex : piece.vertices)
                segment.polyline.push_back(network_.at(vertex));
            segment.metres = metres_along(segment.polyline, degrees);
            segment.ground_choice = way.ground_choice;
            segment.ban = way.ban;
            segment.charges = way.charges;
            site_.segments.push_back(std::move(segment));
        }
    }

    void add_laterals() {
        for (std::size_t i = 0; i < laterals_.size(); ++i) {
            const int place = place_of_lateral_[i];
            if (place < 0) continue;
            LateralFinding finding;
            finding.building = site_.places[as_index(place)].id;
            finding.to_entrance = laterals_[i].to_entrance;
            const int junction = place_of_vertex_[as_index(lateral_vertices_[i])];
            if (junction != place) {
                SiteSegment segment;
                segment.id = segment_names_.take("lateral to " + finding.building);
                segment.from = junction;
                segment.to = place;
                segment.polyline = {site_.places[as_index(junction)].at, site_.places[as_index(place)].at};
                segment.metres = metres_along(segment.polyline, degrees);
                finding.metres = segment.metres;
                const auto other =
                    walls_.in_the_way(segment.polyline.front(), segment.polyline.back(), laterals_[i].building);
                if (other) finding.through = contents_.buildings[*other].id;
                site_.segments.push_back(std::move(segment));
            }
            findings_.laterals.push_back(std::move(finding));
        }
    }

    void add_up() {
        std::map<GroundChoice, GroundFindings> grounds;
        std::map<std::string, BarredFindings> barred;
        for (const SiteSegment& segment : site_.segments) {
            if (segment.ground_choice < 0) continue;
            if (!segment.ban.empty()) {
                BarredFindings& sum = barred[segment.ban];
                sum.reason = segment.ban;
                ++sum.segments;
                sum.metres += segment.metres;
                continue;
            }
            const GroundChoice& choice = site_.ground_choices[as_index(segment.ground_choice)];
            GroundFindings& sum = grounds[choice];
            sum.choice = choice;
            ++sum.segments;
            sum.metres += segment.metres;
        }
        for (auto& [choice, sum] : grounds)
            findings_.grounds.push_back(std::move(sum));
        for (auto& [reason, sum] : barred)
            findings_.barred.push_back(std::move(sum));
        findings_.places = static_cast<int>(site_.places.size());
        findings_.segments = static_cast<int>(site_.segments.size());
    }

    const LineNetwork& network_;
    const MapContents& contents_;
    const ChosenChains& chains_;
    const std::vector<Lateral>& laterals_;
    const std::vector<int>& lateral_vertices_;
    const Walls& walls_;
    SurveyFindings& findings_;
    SurveyedSite site_;
    NamePool names_;
    NamePool segment_names_;
    std::vector<int> place_of_vertex_;
    std::vector<int> place_of_lateral_;
    std::vector<char> is_junction_;
    std::vector<int> pieces_of_way_;
    std::vector<Piece> pieces_;
};

}  // namespace

SurveyedSite assemble_site(const LineNetwork& network, const MapContents& contents, const ChosenChains& chains,
                           const std::vector<Lateral>& laterals, const std::vector<int>& lateral_vertices,
                           const Walls& walls, SurveyFindings& findings) {
    return Assembler(network, contents, chains, laterals, lateral_vertices, walls, findings).assemble();
}

}  // namespace spadework::survey
