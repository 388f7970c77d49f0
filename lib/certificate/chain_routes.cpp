#include "certificate/chain_routes.hpp"

#include <algorithm>
#include <map>

namespace spadework::certificate {

namespace {

/// More than any sum of routes.
constexpr Wide never = Wide{1} << 120U;

using Memory = std::uint32_t;  ///< Bit i: neighbour i of where the route is.

/// What a route at one stop makes a route at the next remember.
class Recollection {
public:
    Recollection(std::size_t from, std::size_t to, const std::vector<std::vector<std::int32_t>>& neighbours) {
        std::map<std::int32_t, Memory> known;
        for (std::size_t i = 0; i < neighbours[to].size(); ++i)
            known[neighbours[to][i]] = Memory{1} << i;
        const auto bit = [&](std::int32_t stop) { return known.contains(stop) ? known[stop] : 0; };
        own_ = bit(static_cast<std::int32_t>(from));
        for (std::size_t i = 0; i < neighbours[from].size(); ++i) {
            carried_.push_back(bit(neighbours[from][i]));
            if (neighbours[from][i] == static_cast<std::int32_t>(to)) barred_ = Memory{1} << i;
        }
    }

    [[nodiscard]] bool barred(Memory memory) const { return (memory & barred_) != 0; }
    [[nodiscard]] Memory after(Memory memory) const {
        Memory result = own_;
        for (std::size_t i = 0; i < carried_.size(); ++i)
            result |= (memory >> i & 1U) != 0 ? carried_[i] : 0;
        return result;
    }

private:
    Memory own_ = 0;
    Memory barred_ = 0;
    std::vector<Memory> carried_;
};

/// Least cost of routes of one length, by stop where they are and by what they remember.
using States = std::vector<std::map<Memory, Wide>>;

void keep_least(std::map<Memory, Wide>& states, Memory memory, Wide cost) {
    const auto [state, is_new] = states.try_emplace(memory, cost);
    if (!is_new) state->second = std::min(state->second, cost);
}

States one_step_more(const States& before, const HopCosts& hops, const std::vector<graph::Cost>& visits,
                     const std::vector<std::vector<std::int32_t>>& neighbours) {
    States after(before.size());
    for (std::size_t from = 0; from < before.size(); ++from) {
        for (std::size_t to = 0; to < before.size(); ++to) {
            if (from == to) continue;
            const Recollection recollection(from, to, neighbours);
            for (const auto& [memory, cost] : before[from]) {
                if (recollection.barred(memory)) continue;
                keep_least(after[to], recollection.after(memory), cost + hops[to][from] - visits[to]);
            }
        }
    }
    return after;
}

/// [length - 1][stop where it ends].
std::vector<std::vector<Wide>> least_by_length(const HopCosts& hops, const std::vector<graph::Cost>& visits,
                                               const std::vector<std::vector<std::int32_t>>& neighbours,
                                               std::size_t longest) {
    const std::size_t stops = hops.size();
    States states(stops);
    for (std::size_t stop = 0; stop < stops; ++stop)
        states[stop][0] = hops[stop][stops] - visits[stop];
    std::vector<std::vector<Wide>> least;
    for (std::size_t length = 1; length <= longest; ++length) {
        if (length > 1) states = one_step_more(states, hops, visits, neighbours);
        std::vector<Wide>& of_length = least.emplace_back();
        for (const auto& at_stop : states) {
            Wide cost = never;
            for (const auto& [memory, state] : at_stop)
                cost = std::min(cost, state);
            of_length.push_back(cost);
        }
    }
    return least;
}

}  // namespace

Wide least_routes(const HopCosts& hops, const std::vector<graph::Cost>& visits,
                  const std::vector<std::vector<std::int32_t>>& neighbours, int longest,
                  const std::vector<Wide>& end_costs) {
    const std::size_t stops = hops.size();
    const auto limit = std::min<std::size_t>(stops, static_cast<std::size_t>(std::max(1, longest)));
    const auto routes = least_by_length(hops, visits, neighbours, limit);
    std::vector<Wide> with_steps(stops + 1, never);  // Least cost of routes that have so many steps together.
    with_steps[0] = 0;
    for (std::size_t stop = 0; stop < stops; ++stop) {
        for (std::size_t steps = stops; steps > 0; --steps) {
            for (std::size_t length = 1; length <= std::min(limit, steps); ++length) {
                const Wide rest = with_steps[steps - length];
                const Wide route = routes[length - 1][stop];
                if (rest >= never || route >= never) continue;
                with_steps[steps] = std::min(with_steps[steps], rest + route + end_costs[stop]);
            }
        }
    }
    return with_steps[stops];
}

}  // namespace spadework::certificate
