#include "geometry/vertex_grid.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>

namespace spadework {

namespace {

constexpr double cells_per_degree = 1e7;

/// With seven digits behind the point, whatever the locale.
void append_degrees(std::string& text, double degrees) {
    std::array<char, 400> buffer{};
    const auto written =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), degrees, std::chars_format::fixed, 7);
    text.append(buffer.data(), written.ptr);
}

}  // namespace

std::size_t VertexGrid::CellHash::operator()(const Cell& cell) const {
    const auto x = static_cast<std::uint64_t>(cell.x) * 0x9E3779B97F4A7C15U;
    return static_cast<std::size_t>((x ^ (x >> 32U)) + static_cast<std::uint64_t>(cell.y) * 0xC2B2AE3D27D4EB4FU);
}

int VertexGrid::vertex_at(const Position& position) {
    const auto whole_turn = static_cast<long long>(360 * cells_per_degree);
    long long x = std::llround(position.x * cells_per_degree);
    if (x <= -whole_turn / 2) x += whole_turn;
    const Cell cell{x, std::llround(position.y * cells_per_degree)};
    const auto [entry, is_new] = by_cell_.try_emplace(cell, static_cast<int>(at_.size()));
    if (is_new) at_.push_back(position);
    return entry->second;
}

Position rounded_degrees(const Position& at) {
    return {static_cast<double>(std::llround(at.x * cells_per_degree)) / cells_per_degree,
            static_cast<double>(std::llround(at.y * cells_per_degree)) / cells_per_degree};
}

std::string junction_name(const Position& at) {
    std::string name;
    append_degrees(name, at.x);
    name += ',';
    append_degrees(name, at.y);
    return name;
}

}  // namespace spadework
