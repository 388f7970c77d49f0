#pragma once

// What every reader of a format hands its finds to: it tells where they stand in the file, keeps geometry within what a
// DrawnMap promises, and counts whatever is left out.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "drawn_map/drawn_map.hpp"
#include "drawn_map/line_index.hpp"
#include "drawn_map/reading.hpp"

namespace spadework::drawn_map {

/// What a feature is called and what is written beside it. An empty id is taken from the tags "@id" or "id", an empty
/// name from the tag "name".
struct FeatureFacts {
    std::string id;
    std::string name;
    std::vector<Tag> tags;
    std::size_t offset = 0;  ///< Where it begins in the text.
};

/// Names and tags are refused beyond 50 MB and four times the size of the file: a long one is repeated with each part
/// of what it belongs to, so that a small file could fill the memory.
class MapBuilder {
public:
    /// A map of that format. `diagnostics` takes the first thousand problems, and how many more there were.
    MapBuilder(std::string source, std::string format, const ReadingOptions& options, Diagnostics& diagnostics);

    /// Offsets are places in this text from now on; it must stay where it is.
    void start_text(std::string file, std::string_view text);
    /// Room for the names and tags of a file of so many bytes; start_text() makes it as well.
    void make_room_for(std::size_t file_bytes) { most_text_bytes_ += 4 * file_bytes; }

    [[nodiscard]] SourcePosition position(std::size_t offset) const;
    void error(std::size_t offset, std::string found, std::string wanted = {});
    void warning(std::size_t offset, std::string found, std::string wanted = {});
    void leave_out(const std::string& what, int count = 1);
    [[nodiscard]] bool failed() const { return errors_ > 0; }

    /// The format has longitude and latitude on WGS 84 and nothing else, whatever the options say.
    void always_degrees();
    /// The file says that its coordinates are in this system: "EPSG:32618".
    void declare_system(std::string system, std::size_t offset);

    /// To be told of every position as it is read: remembers the first that the coordinate system does not have.
    void see(const Position& at, std::size_t offset);
    void add_point(const FeatureFacts& facts, const Position& at);
    void add_line(const FeatureFacts& facts, const std::vector<Position>& line);
    /// The outer ring and its holes. A ring whose last point is not its first is told of and closed, unless the format
    /// closes rings by itself.
    void add_area(const FeatureFacts& facts, std::vector<std::vector<Position>> rings, bool closed_by_format = false);

    /// The map, once all of the file was read; nothing where there were errors.
    std::optional<DrawnMap> finish();

private:
    void report(Severity severity, std::size_t offset, std::string found, std::string wanted);
    void add(const FeatureFacts& facts, Shape shape, std::vector<std::vector<Position>> parts);
    std::string cleaned(std::string_view text);
    std::vector<Tag> cleaned(const std::vector<Tag>& tags);
    void fail(SourcePosition where, std::string found, std::string wanted);
    void settle_coordinates();
    void refuse_far();
    void refuse_not_degrees();

    /// Positions that a coordinate system does not have.
    struct Outside {
        int count = 0;
        Position first;
        SourcePosition where;
    };
    void note(Outside& outside, const Position& at, std::size_t offset);

    DrawnMap map_;
    Diagnostics& diagnostics_;
    std::string wanted_system_;    ///< By the options; empty where unknown.
    std::string declared_system_;  ///< By the file; empty where it says nothing.
    SourcePosition declared_at_;
    Outside not_degrees_;
    Outside far_;
    std::string file_;
    std::optional<LineIndex> lines_;
    std::size_t text_bytes_ = 0;  ///< Of all ids, names and tags.
    std::size_t most_text_bytes_ = 50'000'000;
    std::size_t errors_ = 0;
    std::size_t problems_ = 0;
};

}  // namespace spadework::drawn_map
