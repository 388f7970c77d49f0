#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace spadework::drawn_map {

/// How much an archive may unpack to, so that a small hostile file does not fill the memory.
struct ZipLimits {
    std::size_t entries = 10'000;
    std::uint64_t total_bytes = 512'000'000;   ///< Of all entries unpacked.
    std::uint64_t ratio = 250;                 ///< Unpacked to packed bytes, of entries of more than a megabyte.
    std::uint64_t always_allowed = 1'000'000;  ///< Bytes of an entry that may have any ratio.
};

/// A zip archive in memory, read only.
class ZipArchive {
public:
    /// The bytes must outlive the archive.
    explicit ZipArchive(std::string_view bytes, ZipLimits limits = {});
    ~ZipArchive();
    ZipArchive(const ZipArchive&) = delete;
    ZipArchive& operator=(const ZipArchive&) = delete;

    /// Why the last thing asked for cannot be had; empty where all is well.
    [[nodiscard]] const std::string& problem() const { return problem_; }
    /// Paths of all entries, in the archive's order.
    [[nodiscard]] const std::vector<std::string>& entries() const { return entries_; }
    /// Unpacks an entry of entries().
    std::optional<std::string> unpack(const std::string& entry);

private:
    struct Handle;
    Handle* handle_ = nullptr;
    ZipLimits limits_;
    std::vector<std::string> entries_;
    std::string problem_;
    std::uint64_t unpacked_bytes_ = 0;
};

}  // namespace spadework::drawn_map
