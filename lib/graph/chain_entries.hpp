#pragma once

// Groups of stops that several chains must enter, and what the hops that enter them earn: the sets S of
// chain_certificate.hpp. In floating point.

#include <cstdint>
#include <vector>

#include "graph/chain_routes.hpp"

namespace spadework::graph::chains {

/// Stops that one chain cannot all hold are entered by as many hops as chains must share them (rounded capacity
/// inequalities: Laporte, Nobert and Desrochers, "Optimal routing under capacity and distance restrictions", Operations
/// Research 33, 1985). Of the many groups there are only those that averaged hops enter too seldom are kept.
class EntryGroups {
public:
    EntryGroups(std::size_t stops, std::int32_t longest_chain);

    /// Looks for groups that the averaged hops enter clearly less often than chains must, and keeps the worst.
    /// `hop_flow[to * (stops + 1) + from]`, with the source as last `from`, like the hop costs of RouteTable.
    void find_more(const std::vector<double>& hop_flow);

    [[nodiscard]] std::size_t size() const { return groups_.size(); }
    [[nodiscard]] const std::vector<std::int32_t>& stops_of(std::size_t group) const { return groups_[group].stops; }

    /// Takes what hops earn by entering groups off what they cost.
    void take_off(const std::vector<double>& prices, std::vector<double>& hop_costs) const;

    /// What prices may be moved by along missing entries, squared: none goes below nothing.
    static double squared_step(const std::vector<double>& missing, const std::vector<double>& prices);
    static void step(const std::vector<double>& missing, double length, std::vector<double>& prices);

    /// What plans must earn at least.
    [[nodiscard]] double worth(const std::vector<double>& prices) const;

    /// By group: how many hops into it are missing.
    [[nodiscard]] std::vector<double> missing(const std::vector<RouteHop>& hops) const;
    [[nodiscard]] std::vector<double> missing(const std::vector<double>& hop_flow) const;

private:
    struct Group {
        std::vector<std::int32_t> stops;  ///< Ascending.
        std::vector<char> inside;         ///< By stop.
        double fewest = 0.0;              ///< Hops into it.
        double lack = 0.0;                ///< When it was found.
    };

    [[nodiscard]] Group group_around(std::size_t stop, const std::vector<double>& hop_flow) const;
    [[nodiscard]] Group group_of(const std::vector<std::int32_t>& stops, double lack) const;
    [[nodiscard]] bool knows(const Group& group) const;

    std::size_t stops_;
    double longest_;
    std::vector<Group> groups_;
};

}  // namespace spadework::graph::chains
