#include "survey/level.hpp"

#include <charconv>

#include <fmt/format.h>

namespace spadework::survey {

namespace {

bool is_said(const drawn_map::Feature& line, std::string_view key) {
    const std::string& value = drawn_map::tag_of(line, key);
    return !value.empty() && value != "no" && value != "false" && value != "0";
}

}  // namespace

Level level_of(const drawn_map::Feature& line) {
    Level level{0, is_said(line, "bridge"), is_said(line, "tunnel"), is_said(line, "covered")};
    level.layer = level.bridge ? 1 : level.tunnel ? -1 : 0;
    const std::string& text = drawn_map::tag_of(line, "layer");
    int layer = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), layer);
    if (!text.empty() && read.ec == std::errc{} && read.ptr == text.data() + text.size()) level.layer = layer;
    return level;
}

bool is_at_ground(const Level& level) {
    return level.layer == 0 && !level.bridge && !level.tunnel;
}

std::string to_text(const Level& level) {
    std::string text = level.bridge ? "bridge" : level.tunnel ? "tunnel" : level.covered ? "covered" : "";
    if (level.layer != 0) text += (text.empty() ? "" : ", ") + fmt::format("layer {}", level.layer);
    return text.empty() ? "ground level" : text;
}

}  // namespace spadework::survey
