#pragma once

// Whole random numbers that are the same on every machine.

#include <cstdint>
#include <utility>
#include <vector>

namespace spadework::bench {

/// The splitmix64 sequence (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014).
class Dice {
public:
    explicit Dice(std::uint64_t seed) : state_(seed) {}

    std::uint64_t next() {
        state_ += 0x9E3779B97F4A7C15;
        std::uint64_t mixed = state_;
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
        mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EB;
        return mixed ^ (mixed >> 31);
    }

    /// A whole number from low to high, both included. The ranges here are tiny against 2^64, so no range is favoured.
    std::int64_t between(std::int64_t low, std::int64_t high) {
        return low + static_cast<std::int64_t>(next() % static_cast<std::uint64_t>(high - low + 1));
    }

    /// True `percent` times out of a hundred.
    bool chance(int percent) { return between(1, 100) <= percent; }

    template <class Item>
    void shuffle(std::vector<Item>& items) {
        for (std::size_t i = items.size(); i > 1; --i)
            std::swap(items[i - 1], items[static_cast<std::size_t>(between(0, static_cast<std::int64_t>(i) - 1))]);
    }

private:
    std::uint64_t state_;
};

}  // namespace spadework::bench
