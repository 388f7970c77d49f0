#include "certificate/seal.hpp"

#include <cstdint>

#include <fmt/format.h>

namespace spadework::certificate {

std::string checksum(std::string_view bytes) {
    std::uint64_t hash = 14695981039346656037ULL;
    for (const char byte : bytes) {
        hash ^= static_cast<unsigned char>(byte);
        hash *= 1099511628211ULL;
    }
    return fmt::format("{:016x}", hash);
}

}  // namespace spadework::certificate
