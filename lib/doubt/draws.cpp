#include "doubt/draws.hpp"

#include <algorithm>

#include <boost/random/sobol.hpp>

namespace spadework {

namespace {

/// Most dimensions that Boost.Random has direction numbers for.
constexpr int most_dimensions = 3667;
constexpr std::uint64_t golden = 0x9e3779b97f4a7c15U;

/// SplitMix64 (Steele, Lea and Flood 2014): mixes a number so that neighbours have nothing in common.
std::uint64_t mixed(std::uint64_t number) {
    number += golden;
    number = (number ^ (number >> 30U)) * 0xbf58476d1ce4e5b9U;
    number = (number ^ (number >> 27U)) * 0x94d049bb133111ebU;
    return number ^ (number >> 31U);
}

std::uint64_t random_bits(std::uint64_t random_seed, std::uint64_t stream, std::uint64_t number) {
    return mixed(mixed(mixed(random_seed) ^ stream) ^ number);
}

/// The middle of one of 2^52 equal parts of 0 to 1, so that neither end is met.
double share(std::uint64_t bits) {
    return (static_cast<double>(bits >> 12U) + 0.5) * 0x1p-52;
}

/// Streams of random numbers, one for each use.
constexpr std::uint64_t shift_stream = std::uint64_t{1} << 40U;
constexpr std::uint64_t plain_stream = std::uint64_t{2} << 40U;
constexpr std::uint64_t fresh_stream = std::uint64_t{3} << 40U;

/// Points of the sequence one after the other, before they are shifted.
class Sequence {
public:
    Sequence(int dimensions, std::int64_t first)
        : engine_(static_cast<std::size_t>(dimensions)), point_(static_cast<std::size_t>(dimensions)) {
        engine_.discard(static_cast<std::uint64_t>(first) * static_cast<std::uint64_t>(dimensions));
    }
    const std::vector<std::uint64_t>& next() {
        for (std::uint64_t& coordinate : point_)
            coordinate = engine_();
        return point_;
    }

private:
    boost::random::sobol engine_;
    std::vector<std::uint64_t> point_;
};

}  // namespace

std::vector<double> Draws::between(std::int64_t first, std::int64_t last) const {
    std::vector<double> quantiles;
    if (drivers_ == 0 || first >= last) return quantiles;
    quantiles.reserve(static_cast<std::size_t>((last - first) * drivers_));
    const int dimensions = std::min(drivers_, most_dimensions);
    Sequence sequence(dimensions, first / replicates);
    const std::vector<std::uint64_t>* point = &sequence.next();
    for (std::int64_t draw = first; draw < last; ++draw) {
        if (draw > first && draw % replicates == 0) point = &sequence.next();
        const auto replicate = static_cast<std::uint64_t>(draw % replicates);
        for (int d = 0; d < drivers_; ++d) {
            const auto driver = static_cast<std::uint64_t>(d);
            if (d < dimensions) {
                const std::uint64_t shift = random_bits(random_seed_, shift_stream + replicate, driver);
                quantiles.push_back(share((*point)[static_cast<std::size_t>(d)] ^ shift));
            } else {
                quantiles.push_back(
                    share(random_bits(random_seed_, plain_stream + static_cast<std::uint64_t>(draw), driver)));
            }
        }
    }
    return quantiles;
}

std::vector<double> Draws::fresh(std::int64_t number) const {
    std::vector<double> quantiles;
    for (int d = 0; d < drivers_; ++d) {
        quantiles.push_back(share(random_bits(random_seed_, fresh_stream + static_cast<std::uint64_t>(number),
                                              static_cast<std::uint64_t>(d))));
    }
    return quantiles;
}

}  // namespace spadework
