#pragma once

// What every demand pays at least when a given site serves it, for given prices: c_d(i) of two_level_set_costs.hpp.

#include <cstdint>
#include <memory>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/two_level_relaxation.hpp"
#include "graph/worker_team.hpp"

namespace spadework::graph::two_level {

/// By demand, by arc (2 * edge for tail to head, 2 * edge + 1 for head to tail): whole parts.
using ArcPrices = std::vector<std::vector<Cost>>;

/// What cannot be served costs so much.
constexpr Cost kUnserved = kLargestCost / 4;

/// c_d(i) for one set of prices, with the ways that cost so much.
class ServiceTable {
public:
    /// `even` as made_even() leaves it; its demands' units are multiples. Both must outlive the table.
    ServiceTable(const Relaxation& even, const pair_routes::Network& network);
    ~ServiceTable();
    ServiceTable(const ServiceTable&) = delete;
    ServiceTable& operator=(const ServiceTable&) = delete;

    /// Works everything out for these prices.
    void measure(const ArcPrices& prices, WorkerTeam& team);

    [[nodiscard]] const std::vector<Cost>& by_demand(std::size_t site) const { return by_site_[site]; }
    [[nodiscard]] const std::vector<Cost>& direct() const { return direct_; }

    /// The arcs that the demand pays for when the site serves it, or the source for -1; each once.
    [[nodiscard]] std::vector<std::uint32_t> way(std::size_t demand, std::int32_t site) const;

private:
    class Spread;

    struct Ways {
        std::vector<std::int32_t> to_fork;   ///< By vertex: arc into it on the way from the source.
        std::vector<std::int32_t> inwards;   ///< By vertex: arc out of it on the way to the demand.
        std::vector<std::int32_t> outwards;  ///< By vertex: arc into it on the way from its fork; none at a fork.
    };

    /// Vertices in the order in which they were reached last.
    struct Orders {
        std::vector<VertexId> inwards;
        std::vector<VertexId> outwards;
    };

    void measure(std::size_t demand, const std::vector<Cost>& prices, Spread& spread);

    const Relaxation& even_;
    const pair_routes::Network& network_;
    std::vector<std::vector<Cost>> by_site_;
    std::vector<Cost> direct_;
    std::vector<Ways> ways_;
    std::vector<Orders> orders_;
    std::vector<std::unique_ptr<Spread>> spreads_;  ///< By worker.
};

}  // namespace spadework::graph::two_level
