#include "drawn_map/drawn_map.hpp"

#include <algorithm>

namespace spadework::drawn_map {

const std::string& tag_of(const Feature& feature, std::string_view key) {
    static const std::string none;
    const auto found = std::ranges::find(feature.tags, key, &Tag::key);
    return found == feature.tags.end() ? none : found->value;
}

}  // namespace spadework::drawn_map
