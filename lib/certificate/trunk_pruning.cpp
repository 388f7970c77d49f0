#include <algorithm>
#include <map>
#include <optional>
#include <set>

#include "certificate/pruning.hpp"
#include "certificate/set_bounds.hpp"
#include "certificate/trunk_check.hpp"

namespace spadework::certificate {

namespace {

using SitesProof = graph::TwoLevelCertificate::SitesProof;

/// What trunks are charged for trenches is hardly worth looking at in bounds that lie lower by this part without it.
constexpr Wide hardly_charged = 128;

/// The fewest parts that prove the bound.
Wide parts_wanted(const TrunkEvidence& evidence, Money direct_bound) {
    Wide units = (static_cast<Wide>(direct_bound.minor()) - evidence.constant.minor()) * evidence.units_a_minor;
    for (const CertifiedEdge& edge : evidence.edges)
        units += static_cast<Wide>(edge.room_price) * std::max(0, edge.room);
    return (units - 1) * evidence.proof.parts + 1;
}

/// Costs of trunks under one set of prices, by number of places.
class PricedTrunks {
public:
    PricedTrunks(const Scenario& scenario, const TrunkEvidence& evidence, const graph::EdgePriceSet& prices)
        : scenario_(scenario), evidence_(evidence), prices_(prices) {}

    const TrunkCosts& among(std::size_t places) {
        const auto [entry, is_new] = costs_.try_emplace(places);
        if (is_new) entry->second = trunk_costs(scenario_, evidence_, prices_, places);
        return entry->second;
    }

private:
    const Scenario& scenario_;
    const TrunkEvidence& evidence_;
    const graph::EdgePriceSet& prices_;
    std::map<std::size_t, TrunkCosts> costs_;
};

/// One entry of a set of places with what its asks come to.
class PricedEntry {
public:
    PricedEntry(const Scenario& scenario, const TrunkEvidence& evidence, const TrunkCosts& trunks, SitesProof entry)
        : entry_(std::move(entry)), all_(evidence.demands.empty() || !evidence.demands.front().direct) {
        for (std::size_t k = 0; k < entry_.sites.size(); ++k) {
            shares_.push_back(share_of_ask(scenario, evidence, entry_.asks[k]).value_or(0));
            ranges_.push_back(steps_of(entry_.units[k], trunks));
        }
        uncharged_ = split_of(trunks);
    }

    [[nodiscard]] const SitesProof& entry() const { return entry_; }

    /// How high these prices bound it; `never` where its places cannot serve so much.
    [[nodiscard]] Wide bound(const ServiceCosts& services, const std::vector<Wide>& multiples,
                             const TrunkCosts& trunks) const {
        return with(of_services(services, multiples), split_of(trunks));
    }

    /// Whether these prices bound it so high, as far as that is soon told.
    [[nodiscard]] bool reaches(Wide wanted, const ServiceCosts& services, const std::vector<Wide>& multiples,
                               const TrunkCosts& trunks) const {
        const Wide served = of_services(services, multiples);
        const Wide uncharged = with(served, uncharged_);
        if (uncharged >= wanted) return true;
        return uncharged >= wanted - wanted / hardly_charged && with(served, split_of(trunks)) >= wanted;
    }

private:
    static Wide with(Wide served, Wide split) { return split >= never ? never : served + split; }

    [[nodiscard]] Wide split_of(const TrunkCosts& trunks) const {
        return cheapest_split(trunks, entry_.sites, entry_.asks, ranges_, all_);
    }

    [[nodiscard]] Wide of_services(const ServiceCosts& services, const std::vector<Wide>& multiples) const {
        Wide sum = 0;
        std::vector<Wide> cheapest = services.direct;
        for (std::size_t k = 0; k < shares_.size(); ++k)
            lower(cheapest, services.from_site[static_cast<std::size_t>(entry_.sites[k])], shares_[k], multiples);
        for (const Wide cost : cheapest)
            sum += cost;
        return sum;
    }

    SitesProof entry_;
    bool all_;
    std::vector<Wide> shares_;
    std::vector<StepRange> ranges_;
    Wide uncharged_ = 0;  ///< Of trunks that are charged nothing for trenches.
};

class TrunkPruning {
public:
    TrunkPruning(const Scenario& scenario, const TrunkEvidence& evidence, Wide wanted)
        : scenario_(scenario),
          evidence_(evidence),
          wanted_(wanted),
          trunks_(trunk_costs(scenario, evidence)),
          multiples_(multiples_of(evidence)) {}

    graph::TwoLevelCertificate run() {
        const std::size_t count = evidence_.proof.prices.size();
        for (std::size_t p = 0; p < count; ++p) {
            const ServiceCosts services = service_costs(scenario_, evidence_, evidence_.proof.prices[p]);
            if (p == 0) keep_needed(services);
            PricedTrunks trunks(scenario_, evidence_, evidence_.proof.prices[p]);
            for (std::size_t e = 0; e < entries_.size(); ++e) {
                const TrunkCosts& costs = trunks.among(entries_[e].entry().sites.size());
                const bool own = static_cast<std::size_t>(entries_[e].entry().prices) == p;
                const bool reached = own || entries_[e].reaches(wanted_, services, multiples_, costs);
                reached_by_[e].push_back(reached ? 1 : 0);
                const Wide bound = own ? entries_[e].bound(services, multiples_, costs) : never;
                if (bound < lowest_) {
                    lowest_ = bound;
                    lowest_entry_ = e;
                }
            }
        }
        choose();
        return result();
    }

private:
    /// Entries of sets that the first prices do not settle.
    void keep_needed(const ServiceCosts& services) {
        std::map<std::vector<std::int32_t>, bool> settled;
        for (const SitesProof& entry : evidence_.proof.sets) {
            const auto [known, is_new] = settled.try_emplace(entry.sites, false);
            if (is_new) {
                known->second = is_settled(entry.sites, services);
            }
            if (!known->second) entries_.emplace_back(scenario_, evidence_, trunks_, entry);
        }
        reached_by_.resize(entries_.size());
    }

    /// Whether the first prices, and what sites ask of sets without an entry, bound this set so high.
    [[nodiscard]] bool is_settled(const std::vector<std::int32_t>& sites, const ServiceCosts& services) const {
        Wide sum = 0;
        std::vector<Wide> cheapest = services.direct;
        for (const std::int32_t site : sites) {
            const auto s = static_cast<std::size_t>(site);
            const Wide share = share_of_ask(scenario_, evidence_, evidence_.proof.asks[s]).value_or(0);
            sum += least_trunk(trunks_, s, evidence_.proof.asks[s]);
            lower(cheapest, services.from_site[s], share, multiples_);
        }
        for (const Wide cost : cheapest)
            sum += cost;
        return sum >= wanted_;
    }

    /// The first prices and those of the lowest entry, so that the evidence proves no more than is claimed; then again
    /// and again those that settle most of what is left, earlier ones first.
    void choose() {
        chosen_ = {0};
        if (lowest_ < never && own_prices(lowest_entry_) != 0) chosen_.push_back(own_prices(lowest_entry_));
        std::vector<std::size_t> left;
        for (std::size_t e = 0; e < entries_.size(); ++e) {
            if (prices_for(e) == chosen_.end()) left.push_back(e);
        }
        while (!left.empty()) {
            std::vector<std::size_t> settles(evidence_.proof.prices.size(), 0);
            for (const std::size_t e : left) {
                for (std::size_t p = 0; p < settles.size(); ++p)
                    settles[p] += static_cast<std::size_t>(reached_by_[e][p]);
            }
            const auto best =
                static_cast<std::size_t>(std::max_element(settles.begin(), settles.end()) - settles.begin());
            chosen_.push_back(best);
            std::erase_if(left, [&](std::size_t e) { return reached_by_[e][best] != 0; });
        }
    }

    [[nodiscard]] std::size_t own_prices(std::size_t entry) const {
        return static_cast<std::size_t>(entries_[entry].entry().prices);
    }

    /// Of the chosen prices the first that settle the entry; its own where it is the lowest.
    [[nodiscard]] std::vector<std::size_t>::const_iterator prices_for(std::size_t entry) const {
        const bool lowest = lowest_ < never && entry == lowest_entry_;
        return std::find_if(chosen_.begin(), chosen_.end(), [&](std::size_t p) {
            return lowest ? p == own_prices(entry) : reached_by_[entry][p] != 0;
        });
    }

    graph::TwoLevelCertificate result() {
        graph::TwoLevelCertificate proof{evidence_.proof.parts, {}, evidence_.proof.asks, {}};
        for (const std::size_t p : chosen_)
            proof.prices.push_back(evidence_.proof.prices[p]);
        for (std::size_t e = 0; e < entries_.size(); ++e) {
            SitesProof entry = entries_[e].entry();
            entry.prices = static_cast<std::int32_t>(prices_for(e) - chosen_.begin());
            proof.sets.push_back(std::move(entry));
        }
        std::sort(proof.sets.begin(), proof.sets.end());
        return proof;
    }

    const Scenario& scenario_;
    const TrunkEvidence& evidence_;
    Wide wanted_;
    TrunkCosts trunks_;
    std::vector<Wide> multiples_;
    std::vector<PricedEntry> entries_;
    std::vector<std::vector<char>> reached_by_;  ///< By entry, by set of prices.
    std::vector<std::size_t> chosen_;
    Wide lowest_ = never;  ///< What its own prices prove of the entry that they prove least of.
    std::size_t lowest_entry_ = 0;
};

}  // namespace

std::shared_ptr<const TrunkEvidence> pruned(const Scenario& scenario, const TrunkEvidence& evidence,
                                            Money direct_bound) {
    auto fewer = std::make_shared<TrunkEvidence>(evidence);
    if (!evidence.proof.prices.empty()) {
        fewer->proof = TrunkPruning(scenario, evidence, parts_wanted(evidence, direct_bound)).run();
    }
    return fewer;
}

}  // namespace spadework::certificate
