#include "support/layout_names.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace spadework::bench {

std::vector<LayoutKind> layouts_of(const std::vector<std::string>& ids) {
    constexpr std::array all = {LayoutKind::home_runs, LayoutKind::trunk_one,   LayoutKind::trunk,
                                LayoutKind::mixed,     LayoutKind::daisy_chain, LayoutKind::ring};
    if (ids.empty()) return {all.begin(), all.end()};
    std::vector<LayoutKind> layouts;
    for (const LayoutKind kind : all) {
        if (std::find(ids.begin(), ids.end(), id_of(kind)) != ids.end()) layouts.push_back(kind);
    }
    if (layouts.size() < ids.size()) throw std::invalid_argument("no such layout, or one given twice");
    return layouts;
}

}  // namespace spadework::bench
