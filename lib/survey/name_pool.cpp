#include "survey/name_pool.hpp"

#include <fmt/format.h>

namespace spadework::survey {

namespace {

/// An id may have 200 bytes (scenarios/README.md); the rest is left for what is put before or behind it.
constexpr std::size_t most_id_bytes = 160;

}  // namespace

std::string cut_short(const std::string& text, std::size_t most_bytes) {
    if (text.size() <= most_bytes) return text;
    std::size_t end = most_bytes;
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U)
        --end;
    return text.substr(0, end);
}

std::string NamePool::take(const std::string& wanted) {
    std::string base = cut_short(wanted, most_id_bytes);
    while (!base.empty() && base.back() == ' ')
        base.pop_back();
    if (taken_.insert(base).second) return base;
    int& number = last_number_.try_emplace(base, 1).first->second;
    while (true) {
        std::string numbered = fmt::format("{} ({})", base, ++number);
        if (taken_.insert(numbered).second) return numbered;
    }
}

}  // namespace spadework::survey
