#include "survey/choice.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diagnostics/nearest_name.hpp"
#include "geometry/geodesic.hpp"
#include "geometry/plane_geometry.hpp"
#include "site_file/document.hpp"

namespace spadework::survey {

namespace {

using site_file::quoted;

constexpr std::size_t most_names_shown = 12;
constexpr std::size_t most_names_compared = 20'000;

std::string lower(std::string_view text) {
    std::string lowered(text);
    for (char& c : lowered) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return lowered;
}

void add_error(Diagnostics& diagnostics, const char* option, std::string found, std::string wanted,
               std::string nearest = {}) {
    diagnostics.push_back({{option, 0, 0}, Severity::error, std::move(found), std::move(wanted), std::move(nearest)});
}

/// Finds buildings by everything they are called.
class BuildingNames {
public:
    explicit BuildingNames(const MapContents& contents) : contents_(contents) {
        for (std::size_t i = 0; i < contents.buildings.size(); ++i) {
            const DrawnBuilding& building = contents.buildings[i];
            ids_.emplace(building.id, i);
            add(building.id, i);
            add(building.name, i);
            add(building.file_id, i);
            for (const std::string& name : building.further_names)
                add(name, i);
        }
    }

    /// The building with that id; else the only one called that, whatever the case of its letters.
    std::optional<std::size_t> find(const std::string& name, const char* option, Diagnostics& diagnostics) const {
        if (const auto id = ids_.find(name); id != ids_.end()) return id->second;
        const auto found = names_.find(lower(name));
        if (found == names_.end()) {
            add_error(diagnostics, option, fmt::format("no building is called {}", quoted(name)), some_names(),
                      nearest(name));
            return std::nullopt;
        }
        if (found->second.size() == 1) return *found->second.begin();
        std::vector<std::string> ids;
        for (const std::size_t building : found->second)
            ids.push_back(quoted(contents_.buildings[building].id));
        if (ids.size() > most_names_shown) ids.resize(most_names_shown);
        add_error(diagnostics, option, fmt::format("{} buildings are called {}", found->second.size(), quoted(name)),
                  fmt::format("one of {}", fmt::join(ids, ", ")));
        return std::nullopt;
    }

    /// What the maps' buildings are called, those with names of their own first.
    [[nodiscard]] std::string some_names() const {
        std::vector<std::string> names;
        for (const bool named : {true, false}) {
            for (const DrawnBuilding& building : contents_.buildings) {
                if ((building.id != building.file_id) != named || names.size() == most_names_shown) continue;
                names.push_back(quoted(building.id));
            }
        }
        if (names.empty()) return "a map with buildings";
        const bool more = contents_.buildings.size() > names.size();
        return fmt::format("one of {}{}", fmt::join(names, ", "),
                           more ? fmt::format(" and {} more", contents_.buildings.size() - names.size()) : "");
    }

private:
    void add(const std::string& name, std::size_t building) {
        if (!name.empty()) names_[lower(name)].insert(building);
    }

    [[nodiscard]] std::string nearest(const std::string& name) const {
        if (ids_.size() > most_names_compared) return "";
        std::vector<std::string> known;
        for (const auto& [id, building] : ids_)
            known.push_back(id);
        return nearest_name(name, known);
    }

    const MapContents& contents_;
    std::map<std::string, std::size_t> ids_;
    std::map<std::string, std::set<std::size_t>> names_;
};

bool is_within(const DrawnBuilding& building, const std::vector<Polygon>& polygons) {
    const Position middle = middle_of(building);
    return polygons.empty() || std::any_of(polygons.begin(), polygons.end(),
                                           [&](const Polygon& polygon) { return polygon_holds(polygon, middle); });
}

}  // namespace

Position middle_of(const DrawnBuilding& building) {
    const std::vector<Position>& ring = building.rings.front();
    Position beyond_first;
    for (const Position& point : ring) {
        beyond_first.x += (point.x - ring.front().x) / static_cast<double>(ring.size());
        beyond_first.y += (point.y - ring.front().y) / static_cast<double>(ring.size());
    }
    return {ring.front().x + beyond_first.x, ring.front().y + beyond_first.y};
}

bool polygon_holds(const Polygon& polygon, const Position& at) {
    bool inside = false;
    for (const auto& ring : polygon)
        inside = inside != ring_holds(ring, at);
    return inside;
}

std::optional<HubChoice> choose_hub(const MapContents& contents, const SurveyOptions& options,
                                    Diagnostics& diagnostics) {
    if (options.hub_near) {
        HubChoice hub{std::nullopt, *options.hub_near};
        for (std::size_t i = 0; i < contents.buildings.size() && !hub.building; ++i) {
            const DrawnBuilding& building = contents.buildings[i];
            if (!building.from_point && polygon_holds(building.rings, hub.at)) hub.building = i;
        }
        return hub;
    }
    const BuildingNames names(contents);
    if (options.hub.empty()) {
        add_error(diagnostics, "--hub", "no hub is chosen", names.some_names() + ", or a longitude and latitude");
        return std::nullopt;
    }
    const auto building = names.find(options.hub, "--hub", diagnostics);
    if (!building) return std::nullopt;
    return HubChoice{building, middle_of(contents.buildings[*building])};
}

std::vector<std::size_t> choose_buildings(const MapContents& contents, const HubChoice& hub,
                                          const SurveyOptions& options, Diagnostics& diagnostics) {
    std::set<std::size_t> wanted;
    if (!options.buildings.empty()) {
        const BuildingNames names(contents);
        for (const std::string& name : options.buildings) {
            if (const auto building = names.find(name, "--building", diagnostics)) wanted.insert(*building);
        }
    }
    std::vector<std::pair<double, std::size_t>> by_distance;
    for (std::size_t i = 0; i < contents.buildings.size(); ++i) {
        const DrawnBuilding& building = contents.buildings[i];
        const bool is_asked_for = options.buildings.empty() || wanted.contains(i);
        if (!is_asked_for || hub.building == i || !is_within(building, options.within)) continue;
        by_distance.emplace_back(metres_between(hub.at, middle_of(building), CoordinateSystem::wgs84_degrees), i);
    }
    std::sort(by_distance.begin(), by_distance.end());
    std::vector<std::size_t> chosen;
    for (const auto& [metres, building] : by_distance)
        chosen.push_back(building);
    return chosen;
}

}  // namespace spadework::survey
