#include "drawn_map/line_index.hpp"

#include <algorithm>

namespace spadework::drawn_map {

LineIndex::LineIndex(std::string_view text) : line_starts_{0}, size_(text.size()) {
    for (std::size_t end = text.find('\n'); end != std::string_view::npos; end = text.find('\n', end + 1))
        line_starts_.push_back(static_cast<std::uint32_t>(end + 1));
}

LineColumn LineIndex::at(std::size_t offset) const {
    const auto place = static_cast<std::uint32_t>(std::min(offset, size_));
    const auto next = std::ranges::upper_bound(line_starts_, place);
    return {static_cast<int>(next - line_starts_.begin()), static_cast<int>(place - *(next - 1)) + 1};
}

}  // namespace spadework::drawn_map
