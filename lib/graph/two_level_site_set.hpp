#pragma once

// One choice of open sites and what the prices of a pass prove of it.

#include <cstdint>
#include <optional>
#include <vector>

#include "graph/two_level_service_table.hpp"
#include "graph/two_level_set_costs.hpp"

namespace spadework::graph::two_level {

/// A set of sites, or the part of its plans in which each site serves units within a range.
struct SiteSet {
    std::vector<std::int32_t> sites;        ///< Ascending, of the relaxation.
    std::vector<FeederTable::Range> loads;  ///< Steps that each site serves, by position.
    std::vector<Cost> asks;                 ///< Of each unit, by position; to be tried next.
    Cost bound = 0;                         ///< The highest proved so far, in parts, ...
    std::int32_t proved_in = 0;             ///< ... in this pass ...
    std::vector<Cost> proved_with;          ///< ... with these asks.

    void raise(Cost proved, std::int32_t pass, const std::vector<Cost>& with);
};

/// Values sets by one pass's prices.
class SetPricing {
public:
    /// `even` as made_even() leaves it, sites asking nothing. All must outlive the pricing.
    SetPricing(const TwoLevelProblem& problem, const Relaxation& even, const EvenShares& shares,
               const FeederTable& feeders, const ServiceTable& service);

    /// What a multiple is asked where a unit is asked so much.
    [[nodiscard]] Cost share(Cost ask) const;

    /// The least ask of a unit that asks as much of a multiple: what lies above it is lost to rounding.
    [[nodiscard]] Cost least_ask(Cost ask) const;

    /// The least of G_i - ask * U_i for whatever is served, no dues paid.
    [[nodiscard]] Cost least_of_feeder(std::int32_t site, Cost ask) const;

    /// The least of G_i - ask * U_i over the loads, for one of so many sites.
    [[nodiscard]] Cost least_of_feeder(std::size_t count, std::int32_t site, Cost ask, FeederTable::Range loads) const;

    /// Where its sites ask what they do and every feeder may carry what suits it.
    [[nodiscard]] Cost rough_bound(const SiteSet& set) const;

    /// What the prices prove where its sites ask what they do; no less than the rough bound.
    [[nodiscard]] Cost bound(const SiteSet& set) const;

    /// Fits what the sites ask to the set, aiming at `target`; returns the best bound, and leaves its asks in the set.
    Cost fit(SiteSet& set, Cost target) const;

    /// Position of the site that serves each demand; the set's size for the source.
    [[nodiscard]] std::vector<std::size_t> served_by(const SiteSet& set) const;

    /// By position, the way of each feeder where the units are split as costs least.
    [[nodiscard]] std::vector<std::vector<EdgeId>> feeder_ways(const SiteSet& set) const;

    /// Splits the set by how much one site serves, where feeders for what the sites serve would cost `worth` more than
    /// the bound counts for them: the set keeps the smaller loads, the other half is returned.
    std::optional<SiteSet> split(SiteSet& set, Cost worth) const;

private:
    template <class Serve>
    Cost served(const SiteSet& set, Serve serve) const;
    [[nodiscard]] Cost service_of(const SiteSet& set) const;
    Cost service_of(const SiteSet& set, std::vector<std::int64_t>& units) const;

    const EvenShares& shares_;
    const FeederTable& feeders_;
    const ServiceTable& service_;
    WideCost constant_ = 0;
    std::vector<Cost> multiples_;      ///< By demand.
    std::vector<std::int64_t> units_;  ///< By demand.
    bool all_by_sites_ = true;         ///< No demand may be served directly.
    bool exact_shares_ = true;         ///< Every demand's units are in proportion to its multiple: asks may be below 0.
};

}  // namespace spadework::graph::two_level
