#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace spadework {

/// Line rate of a link in whole megabits a second.
class BitRate {
public:
    constexpr BitRate() = default;
    static constexpr BitRate from_megabits(std::int64_t megabits) { return BitRate(megabits); }

    [[nodiscard]] constexpr std::int64_t megabits() const { return megabits_; }
    friend constexpr auto operator<=>(BitRate a, BitRate b) = default;

private:
    explicit constexpr BitRate(std::int64_t megabits) : megabits_(megabits) {}
    std::int64_t megabits_ = 0;
};

/// Reads "100M", "1G", "2.5G", "10G"; nothing when the text is not a positive rate with M or G.
std::optional<BitRate> bit_rate_from_text(std::string_view text);

/// "100M", "1G", "2.5G": the shortest text that bit_rate_from_text reads back.
std::string to_text(BitRate rate);

}  // namespace spadework
