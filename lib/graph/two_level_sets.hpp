#pragma once

// A bound proved set by set: of every choice of open sites it is known what it costs at least.
//
// One pass's prices bound all sets at once (two_level_set_costs.hpp), and every set keeps the highest bound that any
// pass gave it. Pass by pass the prices are moved to raise the sets whose bounds are lowest so far, after what their
// sites ask has been fitted to them. Among these the lower a set lies under the present prices, the more its ways
// count; a set once raised no longer holds back the others. Sets that cannot beat the best plan are put aside, and a
// set whose feeders the bound counts too low is split by how much one of its sites serves. The lowest bound of any set
// is one for the problem, because each pass's prices prove what they say of each set. Prices are moved as if feeders
// paid along with the demands, so that demands leave them something to pay where feeders run.

#include <cstdint>
#include <optional>
#include <vector>

#include "graph/pair_routes.hpp"
#include "graph/two_level_prices.hpp"
#include "graph/two_level_service_table.hpp"
#include "graph/two_level_set_costs.hpp"
#include "graph/two_level_site_set.hpp"
#include "graph/two_level_solver.hpp"

namespace spadework::graph::two_level {

class SiteSets {
    struct Private {};

public:
    /// Nothing when there are more sets than can be looked at one by one. `lines` are the feeders' lines, not made
    /// even.
    static std::optional<SiteSets> make(const TwoLevelProblem& problem, const pair_routes::Network& network,
                                        const Relaxation& lines, const EvenShares& shares, WorkerTeam& team);

    SiteSets(Private only_make, const TwoLevelProblem& problem, const pair_routes::Network& network,
             const Relaxation& lines, const EvenShares& shares, WorkerTeam& team);
    SiteSets(const SiteSets&) = delete;
    SiteSets& operator=(const SiteSets&) = delete;

    /// Begins from another descent's best prices of the arcs and its averaged ways.
    void start(const PriceDescent& from);

    /// One pass; `plan` is the value of the best plan, in cost units. False when no set is left below it.
    bool pass(Cost plan);

    /// In cost units; proved. The plan's value where no set is left below it.
    [[nodiscard]] Cost bound() const;

    /// Of the last pass: the set that was lowest, by sites of the problem, and how much of each edge its ways use.
    [[nodiscard]] std::vector<std::int32_t> lowest_set() const;

    /// Sites of the sets whose bounds are the lowest, lowest first, `most` at most.
    [[nodiscard]] std::vector<std::vector<std::int32_t>> lowest_sets(std::size_t most) const;
    [[nodiscard]] std::vector<double> edge_use() const { return descent_.edge_use(network_.edges.size()); }

    /// What proves bound(): the prices of the passes that some set rests on.
    [[nodiscard]] TwoLevelCertificate certificate() const;

    /// Size of a value that is a scale for others: at least 1, as values of plans may be 0 or, where savings count,
    /// less.
    static double scale_of(Cost value);

private:
    /// A set as the first pass bounds it.
    struct Waiting {
        Cost bound = 0;
        std::size_t first = 0;  ///< Where its sites begin among `waiting_sites_`.
        std::size_t count = 0;
    };

    void list_sets(Cost target);
    void list_from(std::size_t first, std::vector<std::int32_t>& chosen, const std::vector<Cost>& least, Cost target);
    void consider(const std::vector<std::int32_t>& chosen, const std::vector<Cost>& least, Cost target);
    void take_up(Cost most);
    [[nodiscard]] Cost lowest_bound(Cost target) const;
    void pay_dues(Cost most);
    void raise_sets(Cost target);
    std::vector<std::size_t> lowest_so_far(Cost target) const;
    std::vector<Cost> fit(const std::vector<std::size_t>& sets, Cost target);
    void follow(const std::vector<std::size_t>& sets, const std::vector<Cost>& now, Cost target);
    void follow(std::size_t demand, const std::vector<double>& served);
    void follow_feeders(const std::vector<double>& fed, double all);
    void put_aside(Cost target);
    void forget_prices();
    [[nodiscard]] EdgePriceSet listed(const ArcPrices& prices) const;

    const TwoLevelProblem& problem_;
    const pair_routes::Network& network_;
    EvenShares shares_;
    WorkerTeam& team_;
    Relaxation even_;  ///< Sites ask nothing.
    FeederTable feeders_;
    ServiceTable service_;
    SetPricing pricing_;
    PriceDescent descent_;
    std::vector<Cost> spent_;               ///< By arc, in this pass: what demands pay for it.
    std::vector<std::int32_t> site_of_;     ///< By site of the relaxation: that of the problem.
    std::vector<Cost> asks_;                ///< By site: of each unit, to begin with.
    std::vector<std::vector<Cost>> asked_;  ///< By site, by demand, in the first pass: c_d(i) + m_d * share_i.
    std::vector<Cost> base_;                ///< By site, in the first pass: the least of G_i - ask_i * U_i.
    std::vector<Waiting> waiting_;          ///< Those bounded by the first pass alone, highest first.
    std::vector<std::int32_t> waiting_sites_;
    std::vector<SiteSet> sets_;         ///< Those looked at that are below the best plan.
    std::vector<SiteSet> put_aside_;    ///< Those looked at that are not.
    std::vector<EdgePriceSet> prices_;  ///< By pass; empty where no set rests on them.
    std::vector<std::int32_t> lowest_sites_;
    Cost bound_ = 0;
};

}  // namespace spadework::graph::two_level
