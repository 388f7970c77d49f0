#include "drawn_map/map_builder.hpp"

#include <algorithm>
#include <cmath>
#include <unordered_set>

#include <fmt/format.h>

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
    if (std::abs(at.x) <= 180 && std::abs(at.y) <= 90) return;
    if (not_degrees_.count++ == 0) {
        not_degrees_.first = at;
        not_degrees_.where = position(offset);
    }
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
    Feature feature;
    feature.shape = shape;
    feature.parts = std::move(parts);
    feature.where = position(facts.offset);
    feature.tags = cleaned(facts.tags);
    feature.id = cleaned(facts.id.empty() ? first_of(facts.tags, {"@id", "id"}) : facts.id);
    feature.name = cleaned(facts.name.empty() ? first_of(facts.tags, {"name", "Name", "NAME"}) : facts.name);
    map_.features.push_back(std::move(feature));
}

void MapBuilder::check_coordinates() {
    if (map_.coordinates == CoordinateSystem::plane_metres || not_degrees_.count == 0) return;
    report_not_degrees();
}

void MapBuilder::report_not_degrees() {
    const Position& at = not_degrees_.first;
    const bool far = std::abs(at.x) > 720 || std::abs(at.y) > 720;
    const std::string others =
        not_degrees_.count == 1 ? " is" : fmt::format(" and {} more are", not_degrees_.count - 1);
    ++errors_;
    diagnostics_.push_back({not_degrees_.where,
                            Severity::error,
                            fmt::format("position {}, {}{} outside longitude and latitude{}", at.x, at.y, others,
                                        far ? ": these look like metres of a projected system" : ""),
                            "longitude from -180 to 180 and latitude from -90 to 90, in degrees on WGS 84",
                            {}});
}

std::optional<DrawnMap> MapBuilder::finish() {
    check_coordinates();
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
