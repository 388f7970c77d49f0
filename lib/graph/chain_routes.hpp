#pragma once

// The cheapest set of routes that may visit stops again once they have forgotten them, in floating point. See
// chain_certificate.hpp for what a route is.

#include <cstdint>
#include <vector>

namespace spadework::graph::chains {

/// A hop of the cheapest set; `from` is -1 for the source.
struct RouteHop {
    std::int32_t from = -1;
    std::int32_t to = 0;
};

class RouteTable {
public:
    /// `neighbours[t]` are the stops that routes to t remember.
    RouteTable(const std::vector<std::vector<std::int32_t>>& neighbours, std::int32_t longest_chain);

    /// Least cost of a set whose routes have as many steps together as there are stops. `hop_costs[to * (stops + 1) +
    /// from]` with the source as last `from`, visits' earnings taken off; `a_chain` is paid for every route.
    /// `closing_costs`, where there are any, are paid by routes that end at each stop.
    double least(const std::vector<double>& hop_costs, double a_chain, const std::vector<double>& closing_costs = {});

    /// The hops of the set found last.
    [[nodiscard]] const std::vector<RouteHop>& hops() const { return hops_; }
    /// The stops where its routes end.
    [[nodiscard]] const std::vector<std::int32_t>& ends() const { return ends_; }

private:
    /// Where the cheapest route with this last stop and memory came from.
    struct Label {
        double cost;
        std::int32_t from;
        std::uint32_t memory;
    };

    [[nodiscard]] std::size_t place(std::int32_t layer, std::int32_t stop) const;
    void drop_beaten(std::int32_t layer, std::int32_t stop);
    void extend(std::int32_t layer, std::int32_t stop, const std::vector<double>& hop_costs);
    double choose(double a_chain, const std::vector<double>& closing_costs);
    void follow(std::int32_t layer, std::int32_t stop);

    std::int32_t stops_;
    std::int32_t longest_;
    std::uint32_t memories_ = 1;          ///< Room for so many memories a stop.
    std::vector<std::uint16_t> carried_;  ///< By stops from and to and memory at `from`: memory at `to`.
    std::vector<char> known_;             ///< By stops p and t: 1 + place of t among the neighbours of p, or 0.
    std::vector<Label> labels_;           ///< By layer, stop, memory.
    std::vector<double> least_;           ///< By layer and stop.
    std::vector<std::uint32_t> least_memory_;
    std::vector<RouteHop> hops_;
    std::vector<std::int32_t> ends_;
};

}  // namespace spadework::graph::chains
