#include "drawn_map/map_builder.hpp"

#include <algorithm>
#include <cmath>
#include <unordered_set>

#include <fmt/format.h>

#include "drawn_map/coordinate_systems.hpp"
#include "drawn_map/plain_text.hpp"

namespace spadework::drawn_map {

namespace {

constexpr std::size_t most_problems_listed = 1000;

/// Drops each position that is the one before it again; tells how many.
int drop_repeated(std::vector<Position>& line) {
    const std::size_t before = line.size();
    line.erase(std::unique(line.begin(), line.end()), line.end());
    return static_cast<int>(before - line.size());
}

const std::string& first_of(const std::vector<Tag>& tags, std::initializer_list<std::string_view> keys) {
    static const std::string none;
    for (const std::string_view key : keys) {
        const auto found = std::ranges::find(tags, key, &Tag::key);
        if (found != tags.end() && !found->value.empty()) return found->value;
    }
    return none;
}

}  // namespace

MapBuilder::MapBuilder(std::string source, std::string format, const ReadingOptions& options, Diagnostics& diagnostics)
    : diagnostics_(diagnostics), wanted_system_(options.reference_system) {
    map_.source = std::move(source);
    map_.format = std::move(format);
    map_.coordinates = options.coordinates;
    file_ = map_.source;
}

void MapBuilder::start_text(std::string file, std::string_view text) {
    file_ = std::move(file);
    lines_.emplace(text);
    make_room_for(text.size());
}

SourcePosition MapBuilder::position(std::size_t offset) const {
    if (!lines_) return {file_, 0, 0};
    const LineColumn at = lines_->at(offset);
    return {file_, at.line, at.column};
}

void MapBuilder::error(std::size_t offset, std::string found, std::string wanted) {
    ++errors_;
    report(Severity::error, offset, std::move(found), std::move(wanted));
}

void MapBuilder::warning(std::size_t offset, std::string found, std::string wanted) {
    report(Severity::warning, offset, std::move(found), std::move(wanted));
}

void MapBuilder::report(Severity severity, std::size_t offset, std::string found, std::string wanted) {
    if (++problems_ > most_problems_listed) return;
    diagnostics_.push_back({position(offset), severity, std::move(found), std::move(wanted), {}});
}

void MapBuilder::leave_out(const std::string& what, int count) {
    if (count > 0) map_.left_out[what] += count;
}

void MapBuilder::always_degrees() {
    map_.coordinates = CoordinateSystem::wgs84_degrees;
    wanted_system_.clear();
}

void MapBuilder::declare_system(std::string system, std::size_t offset) {
    declared_system_ = std::move(system);
    declared_at_ = position(offset);
}

void MapBuilder::see(const Position& at, std::size_t offset) {
    constexpr double farthest_metres = 1e8;
    if (std::abs(at.x) <= 180 && std::abs(at.y) <= 90) return;
    note(not_degrees_, at, offset);
    if (std::abs(at.x) > farthest_metres || std::abs(at.y) > farthest_metres) note(far_, at, offset);
}

void MapBuilder::note(Outside& outside, const Position& at, std::size_t offset) {
    if (outside.count++ > 0) return;
    outside.first = at;
    outside.where = position(offset);
}

void MapBuilder::add_point(const FeatureFacts& facts, const Position& at) {
    add(facts, Shape::point, {{at}});
}

void MapBuilder::add_line(const FeatureFacts& facts, const std::vector<Position>& line) {
    std::vector<Position> kept = line;
    leave_out("repeated points", drop_repeated(kept));
    if (kept.size() < 2) {
        leave_out("lines without length");
        return;
    }
    add(facts, Shape::line, {std::move(kept)});
}

void MapBuilder::add_area(const FeatureFacts& facts, std::vector<std::vector<Position>> rings, bool closed_by_format) {
    std::vector<std::vector<Position>> kept;
    for (std::vector<Position>& ring : rings) {
        leave_out("repeated points", drop_repeated(ring));
        const bool closed = ring.size() > 1 && ring.front() == ring.back();
        if (closed) ring.pop_back();
        if (ring.size() < 3) {
            leave_out(kept.empty() ? "areas without extent" : "holes without extent");
            if (kept.empty()) return;
            continue;
        }
        if (!closed && !closed_by_format) {
            warning(facts.offset, "a ring that does not end where it begins; it is closed by a straight line",
                    "the first position again as the last");
        }
        kept.push_back(std::move(ring));
    }
    if (!kept.empty()) add(facts, Shape::area, std::move(kept));
}

std::string MapBuilder::cleaned(std::string_view text) {
    OneLine line = one_line(text);
    text_bytes_ += line.text.size();
    leave_out("control characters", line.control_characters);
    return std::move(line.text);
}

std::vector<Tag> MapBuilder::cleaned(const std::vector<Tag>& tags) {
    std::vector<Tag> clean;
    clean.reserve(tags.size());  // The keys below stay where they are.
    std::unordered_set<std::string_view> keys;
    for (const Tag& tag : tags) {
        Tag& added = clean.emplace_back(Tag{cleaned(tag.key), cleaned(tag.value)});
        if (!added.key.empty() && keys.insert(added.key).second) continue;
        leave_out(added.key.empty() ? "tags without a key" : "repeated tags");
        clean.pop_back();
    }
    return clean;
}

void MapBuilder::add(const FeatureFacts& facts, Shape shape, std::vector<std::vector<Position>> parts) {
    if (text_bytes_ > most_text_bytes_) return;
    Feature feature;
    feature.shape = shape;
    feature.parts = std::move(parts);
    feature.where = position(facts.offset);
    feature.tags = cleaned(facts.tags);
    feature.id = cleaned(facts.id.empty() ? first_of(facts.tags, {"@id", "id"}) : facts.id);
    feature.name = cleaned(facts.name.empty() ? first_of(facts.tags, {"name", "Name", "NAME"}) : facts.name);
    map_.features.push_back(std::move(feature));
    if (text_bytes_ > most_text_bytes_) {
        error(facts.offset, fmt::format("names and tags of more than {} bytes in all", most_text_bytes_),
              "shorter ones, or several smaller maps");
    }
}

void MapBuilder::settle_coordinates() {
    const bool may_be_wanted = declared_system_.empty() && not_degrees_.count > 0;
    const std::string system = short_system_name(may_be_wanted ? wanted_system_ : declared_system_);
    const bool plane = map_.coordinates == CoordinateSystem::plane_metres;
    if (is_wgs84(system)) map_.coordinates = CoordinateSystem::wgs84_degrees;
    if (plane && !is_wgs84(system)) return refuse_far();
    if (system.empty() || is_wgs84(system)) return refuse_not_degrees();
    const std::string problem = failed() ? std::string() : turn_into_wgs84(map_.features, system);
    if (problem.empty() && has_gdal()) return;
    const SourcePosition where = declared_system_.empty() ? not_degrees_.where : declared_at_;
    const std::string found = "coordinates in " + shown(system);
    if (has_gdal()) return fail(where, found + ": " + problem, "a system that GDAL knows, such as EPSG:32618");
    fail(where, found, conversion_advice(map_.source, declared_system_.empty() ? system : "", false));
}

void MapBuilder::fail(SourcePosition where, std::string found, std::string wanted) {
    ++errors_;
    diagnostics_.push_back({std::move(where), Severity::error, std::move(found), std::move(wanted), {}});
}

/// A local plan is metres from somewhere near; the farthest of projected systems has 20,037,508 m.
void MapBuilder::refuse_far() {
    if (far_.count == 0) return;
    fail(far_.where, fmt::format("position {}, {}, too far for metres on a plan", far_.first.x, far_.first.y),
         "metres within 100,000,000 of the plan's origin");
}

void MapBuilder::refuse_not_degrees() {
    if (not_degrees_.count == 0) return;
    const Position& at = not_degrees_.first;
    const bool projected = std::abs(at.x) > 720 || std::abs(at.y) > 720;
    const bool exchanged = !projected && std::abs(at.x) <= 90 && std::abs(at.y) <= 180;
    const std::string others =
        not_degrees_.count == 1 ? " is" : fmt::format(" and {} more are", not_degrees_.count - 1);
    const std::string why = projected   ? ": these look like metres of a projected system"
                            : exchanged ? ": latitude and longitude look exchanged"
                                        : "";
    std::string wanted = "longitude from -180 to 180 and latitude from -90 to 90, in degrees on WGS 84";
    if (projected) {
        wanted += "; with the number of the system that the map is drawn in, run: " +
                  conversion_command(map_.source, "EPSG:NUMBER", false);
    }
    fail(not_degrees_.where, fmt::format("position {}, {}{} outside longitude and latitude{}", at.x, at.y, others, why),
         wanted);
}

std::optional<DrawnMap> MapBuilder::finish() {
    settle_coordinates();
    if (problems_ > most_problems_listed) {
        diagnostics_.push_back({{map_.source, 0, 0},
                                errors_ > 0 ? Severity::error : Severity::warning,
                                fmt::format("{} more problems, not listed", problems_ - most_problems_listed),
                                {},
                                {}});
    }
    if (failed()) return std::nullopt;
    if (map_.features.empty()) {
        diagnostics_.push_back({{map_.source, 0, 0}, Severity::warning, "a map with nothing drawn in it", {}, {}});
    }
    return std::move(map_);
}

}  // namespace spadework::drawn_map
