#include "graph/chain_routes.hpp"

#include <algorithm>
#include <limits>

namespace spadework::graph::chains {

namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();

}  // namespace

RouteTable::RouteTable(const std::vector<std::vector<std::int32_t>>& neighbours, std::int32_t longest_chain)
    : stops_(static_cast<std::int32_t>(neighbours.size())), longest_(std::min(longest_chain, stops_)) {
    std::size_t most = 0;
    for (const auto& of_stop : neighbours)
        most = std::max(most, of_stop.size());
    memories_ = 1U << most;
    const auto stops = static_cast<std::size_t>(stops_);
    known_.assign(stops * stops, 0);
    for (std::size_t p = 0; p < stops; ++p) {
        for (std::size_t i = 0; i < neighbours[p].size(); ++i)
            known_[p * stops + static_cast<std::size_t>(neighbours[p][i])] = static_cast<char>(i + 1);
    }
    carried_.assign(stops * stops * memories_, 0);
    for (std::size_t p = 0; p < stops; ++p) {
        for (std::size_t t = 0; t < stops; ++t) {
            const auto bit = [&](std::size_t stop) {
                const char at = known_[t * stops + stop];
                return static_cast<std::uint16_t>(at == 0 ? 0U : 1U << (at - 1));
            };
            std::uint16_t* carried = &carried_[(p * stops + t) * memories_];
            carried[0] = bit(p);
            for (std::uint32_t memory = 1; memory < memories_; ++memory) {
                const auto last = static_cast<std::size_t>(__builtin_ctz(memory));
                carried[memory] = carried[memory & (memory - 1)];
                if (last < neighbours[p].size()) carried[memory] |= bit(static_cast<std::size_t>(neighbours[p][last]));
            }
        }
    }
    const std::size_t rows = static_cast<std::size_t>(longest_) * stops;
    labels_.resize(rows * memories_);
    least_.resize(rows);
    least_memory_.resize(rows);
}

std::size_t RouteTable::place(std::int32_t layer, std::int32_t stop) const {
    return static_cast<std::size_t>(layer) * static_cast<std::size_t>(stops_) + static_cast<std::size_t>(stop);
}

double RouteTable::least(const std::vector<double>& hop_costs, double a_chain,
                         const std::vector<double>& closing_costs) {
    hops_.clear();
    ends_.clear();
    if (stops_ == 0) return 0.0;
    for (Label& label : labels_)
        label.cost = kNever;
    for (std::int32_t t = 0; t < stops_; ++t) {
        const auto row = static_cast<std::size_t>(t) * (static_cast<std::size_t>(stops_) + 1);
        labels_[place(0, t) * memories_] = {hop_costs[row + static_cast<std::size_t>(stops_)], -1, 0};
    }
    for (std::int32_t layer = 0; layer < longest_; ++layer) {
        for (std::int32_t t = 0; t < stops_; ++t) {
            drop_beaten(layer, t);
            if (layer + 1 < longest_) extend(layer, t, hop_costs);
        }
    }
    return choose(a_chain, closing_costs);
}

/// A route that remembers less and costs no more beats another. Finds the cheapest, too.
void RouteTable::drop_beaten(std::int32_t layer, std::int32_t stop) {
    Label* labels = &labels_[place(layer, stop) * memories_];
    std::uint32_t cheapest = 0;
    for (std::uint32_t memory = 0; memory < memories_; ++memory) {
        if (labels[memory].cost < labels[cheapest].cost) cheapest = memory;
    }
    least_[place(layer, stop)] = labels[cheapest].cost;
    least_memory_[place(layer, stop)] = cheapest;
    for (std::uint32_t memory = memories_ - 1; memory > 0; --memory) {
        if (labels[memory].cost == kNever) continue;
        for (std::uint32_t less = (memory - 1) & memory;; less = (less - 1) & memory) {
            if (labels[less].cost <= labels[memory].cost) {
                labels[memory].cost = kNever;
                break;
            }
            if (less == 0) break;
        }
    }
    if (labels[cheapest].cost == kNever) {  // Beaten by an equal one.
        for (std::uint32_t memory = 0; memory < memories_; ++memory) {
            if (labels[memory].cost == least_[place(layer, stop)]) least_memory_[place(layer, stop)] = memory;
        }
    }
}

void RouteTable::extend(std::int32_t layer, std::int32_t stop, const std::vector<double>& hop_costs) {
    const auto stops = static_cast<std::size_t>(stops_);
    const auto p = static_cast<std::size_t>(stop);
    const Label* labels = &labels_[place(layer, stop) * memories_];
    for (std::uint32_t memory = 0; memory < memories_; ++memory) {
        const double so_far = labels[memory].cost;
        if (so_far == kNever) continue;
        for (std::size_t t = 0; t < stops; ++t) {
            const char at = known_[p * stops + t];
            if (t == p || (at != 0 && (memory >> (at - 1) & 1U) != 0)) continue;
            const double cost = so_far + hop_costs[t * (stops + 1) + p];
            const std::uint16_t after = carried_[(p * stops + t) * memories_ + memory];
            Label& label = labels_[place(layer + 1, static_cast<std::int32_t>(t)) * memories_ + after];
            if (cost < label.cost) label = {cost, stop, memory};
        }
    }
}

/// Stop by stop: no route ends there, or one of some length does.
double RouteTable::choose(double a_chain, const std::vector<double>& closing_costs) {
    const auto stops = static_cast<std::size_t>(stops_);
    std::vector<double> with_steps(stops + 1, kNever);
    std::vector<std::int32_t> taken(stops * (stops + 1), 0);
    with_steps[0] = 0.0;
    for (std::size_t t = 0; t < stops; ++t) {
        const double end = a_chain + (closing_costs.empty() ? 0.0 : closing_costs[t]);
        for (std::size_t steps = stops; steps > 0; --steps) {
            const std::size_t most = std::min(static_cast<std::size_t>(longest_), steps);
            for (std::size_t length = 1; length <= most; ++length) {
                const double cost = with_steps[steps - length] + least_[(length - 1) * stops + t] + end;
                if (cost >= with_steps[steps]) continue;
                with_steps[steps] = cost;
                taken[t * (stops + 1) + steps] = static_cast<std::int32_t>(length);
            }
        }
    }
    std::size_t steps = stops;
    for (std::size_t t = stops; t-- > 0;) {
        const std::int32_t length = taken[t * (stops + 1) + steps];
        if (length == 0) continue;
        ends_.push_back(static_cast<std::int32_t>(t));
        follow(length - 1, ends_.back());
        steps -= static_cast<std::size_t>(length);
    }
    return with_steps[stops];
}

void RouteTable::follow(std::int32_t layer, std::int32_t stop) {
    std::uint32_t memory = least_memory_[place(layer, stop)];
    for (; layer >= 0; --layer) {
        const Label& label = labels_[place(layer, stop) * memories_ + memory];
        hops_.push_back({label.from, stop});
        stop = label.from;
        memory = label.memory;
    }
}

}  // namespace spadework::graph::chains
