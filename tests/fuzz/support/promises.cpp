#include "fuzz/support/promises.hpp"

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <set>

#include "drawn_map/plain_text.hpp"
#include "drawn_map/reading.hpp"
#include "drawn_map/zip_bytes.hpp"

namespace spadework::fuzz {

namespace {

using namespace spadework::drawn_map;

bool is_one_line(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = character_length(text, i);
        if (length == 0) return false;
        i += length;
    }
    const OneLine line = one_line(text);
    return line.text == text && line.control_characters == 0;
}

bool is_on_the_map(const Position& at, CoordinateSystem coordinates) {
    const bool degrees = coordinates == CoordinateSystem::wgs84_degrees;
    return std::abs(at.x) <= (degrees ? 180 : 1e8) && std::abs(at.y) <= (degrees ? 90 : 1e8);
}

void require_parts(const Feature& feature) {
    require(!feature.parts.empty(), "a feature has parts");
    require(feature.shape == Shape::area || feature.parts.size() == 1, "points and lines have one part");
    const std::size_t least = feature.shape == Shape::point ? 1 : feature.shape == Shape::line ? 2 : 3;
    for (const auto& part : feature.parts) {
        require(part.size() >= least, "parts have positions enough");
        for (std::size_t i = 1; i < part.size(); ++i)
            require(part[i] != part[i - 1], "no position is the one before it");
        if (feature.shape == Shape::area) require(part.front() != part.back(), "no ring repeats its first position");
    }
}

void require_as_promised(const DrawnMap& map) {
    for (const Feature& feature : map.features) {
        require_parts(feature);
        require(is_one_line(feature.id) && is_one_line(feature.name), "id and name are one line of text");
        std::set<std::string_view> keys;
        for (const Tag& tag : feature.tags) {
            require(is_one_line(tag.key) && is_one_line(tag.value), "tags are one line of text");
            require(!tag.key.empty() && keys.insert(tag.key).second, "keys of tags are there once each");
        }
        for (const auto& part : feature.parts) {
            for (const Position& at : part)
                require(is_on_the_map(at, map.coordinates), "positions are within their coordinate system");
        }
    }
    for (const auto& [what, count] : map.left_out)
        require(!what.empty() && count > 0, "what is left out is counted");
}

std::string in_words(const std::optional<DrawnMap>& map, const Diagnostics& diagnostics) {
    std::string words;
    for (const Diagnostic& diagnostic : diagnostics)
        words += to_text(diagnostic) + "\n";
    if (!map) return words;
    for (const Feature& feature : map->features) {
        words += feature.id + feature.name;
        for (const Tag& tag : feature.tags)
            words += tag.key + tag.value;
        for (const auto& part : feature.parts)
            words += std::to_string(part.front().x) + std::to_string(part.size());
    }
    return words;
}

}  // namespace

void require(bool kept, const char* promise) {
    if (kept) return;
    std::fprintf(stderr, "not as promised: %s\n", promise);
    std::abort();
}

void require_clean(bool has_result, const Diagnostics& diagnostics) {
    require(has_result == !has_errors(diagnostics), "there is a result or an error");
    for (const Diagnostic& diagnostic : diagnostics) {
        require(!diagnostic.where.file.empty() && !diagnostic.found.empty(), "a problem has a place and words");
        require(to_text(diagnostic).find('\n') == std::string::npos, "a problem is told in one line");
    }
}

void read_both_ways(const std::string& name, std::string_view bytes) {
    for (const CoordinateSystem coordinates : {CoordinateSystem::wgs84_degrees, CoordinateSystem::plane_metres}) {
        ReadingOptions options;
        options.coordinates = coordinates;
        Diagnostics diagnostics;
        const auto map = read_drawn_map(name, bytes, options, diagnostics);
        require_clean(map.has_value(), diagnostics);
        if (map) require_as_promised(*map);
        Diagnostics again;
        const auto same = read_drawn_map(name, bytes, options, again);
        require(in_words(map, diagnostics) == in_words(same, again), "the same bytes give the same map");
    }
}

std::string archive_around(std::string_view bytes) {
    return drawn_map::testing::zip_bytes({{"doc.kml", std::string(bytes)}});
}

}  // namespace spadework::fuzz
