#include "certificate/trunk_check.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "certificate/set_bounds.hpp"

namespace spadework::certificate {

namespace {

using Sites = std::vector<std::int32_t>;
using SitesProof = graph::TwoLevelCertificate::SitesProof;

constexpr Wide most_money = 1'000'000'000'000'000'000;
constexpr double most_work = 1e9;  ///< Sets of places times buildings that are looked at.

std::vector<StepRange> ranges_of(const SitesProof& entry, const TrunkCosts& trunks) {
    std::vector<StepRange> ranges;
    for (const auto& units : entry.units)
        ranges.push_back(steps_of(units, trunks));
    return ranges;
}

/// Whether every way of sharing out the steps lies within one of the boxes. Looks at the cells that the boxes' sides
/// cut out, one site after another.
class Cover {
public:
    Cover(const std::vector<std::vector<StepRange>>& boxes, std::int64_t steps, bool all)
        : boxes_(boxes), steps_(steps), all_(all) {}

    [[nodiscard]] bool whole() const {
        std::vector<const std::vector<StepRange>*> left;
        for (const std::vector<StepRange>& box : boxes_)
            left.push_back(&box);
        return covered(0, 0, 0, left);
    }

private:
    /// The sites before `k` serve between `low` and `high` steps together, within all the boxes left.
    [[nodiscard]] bool covered(std::size_t k, std::int64_t low, std::int64_t high,
                               const std::vector<const std::vector<StepRange>*>& left) const {
        if (low > steps_) return true;  // Nobody can be served so much.
        if (k == boxes_.front().size()) return !left.empty() || (all_ && high < steps_);
        std::set<std::int64_t> starts = {0};
        for (const auto* box : left) {
            starts.insert((*box)[k].least);
            starts.insert((*box)[k].most + 1);
        }
        for (auto start = starts.begin(); start != starts.end() && *start <= steps_; ++start) {
            const auto next = std::next(start);
            const std::int64_t end = next == starts.end() ? steps_ : std::min(*next - 1, steps_);
            std::vector<const std::vector<StepRange>*> within;
            for (const auto* box : left) {
                if ((*box)[k].least <= *start && end <= (*box)[k].most) within.push_back(box);
            }
            if (!covered(k + 1, low + *start, high + end, within)) return false;
        }
        return true;
    }

    const std::vector<std::vector<StepRange>>& boxes_;
    std::int64_t steps_;
    bool all_;
};

bool sums_fit(const TrunkEvidence& evidence, const graph::EdgePriceSet& prices, std::string& segment,
              const Scenario& scenario) {
    const std::vector<Wide> none(evidence.edges.size(), 0);
    DirectedCharges sums = {none, none};
    for (const std::vector<graph::EdgePrice>& of_building : prices)
        add_prices(of_building, sums);
    for (std::size_t e = 0; e < evidence.edges.size(); ++e) {
        const CertifiedEdge& edge = evidence.edges[e];
        if (std::max(sums[0][e], sums[1][e]) <= static_cast<Wide>(edge.opening) * evidence.proof.parts) continue;
        segment = scenario.segments[static_cast<std::size_t>(edge.segment)].id;
        return false;
    }
    return true;
}

std::string entry_fault(const TrunkEvidence& evidence, const SitesProof& entry) {
    const std::size_t count = entry.sites.size();
    const auto site_count = static_cast<std::int32_t>(evidence.sites.size());
    const bool known =
        std::all_of(entry.sites.begin(), entry.sites.end(), [&](std::int32_t s) { return s >= 0 && s < site_count; });
    const bool ascending =
        std::adjacent_find(entry.sites.begin(), entry.sites.end(), std::greater_equal<>()) == entry.sites.end();
    if (!known || !ascending || entry.units.size() != count || entry.asks.size() != count) {
        return "a set does not name places in order, each with its units and what it asks";
    }
    if (entry.prices < 0 || static_cast<std::size_t>(entry.prices) >= evidence.proof.prices.size()) {
        return "a set rests on prices that are not there";
    }
    return "";
}

/// Bounds of sets of places, each from the entries that name it or from the first prices.
class SetBounds {
public:
    SetBounds(const Scenario& scenario, const TrunkEvidence& evidence, bool mixed)
        : scenario_(scenario),
          evidence_(evidence),
          mixed_(mixed),
          trunks_(trunk_costs(scenario, evidence)),
          multiples_(multiples_of(evidence)) {
        for (const SitesProof& entry : evidence.proof.sets)
            listed_[entry.sites].push_back(&entry);
    }

    /// The least of all sets' bounds, in parts; `never` where no plan is possible, nothing where a set has no bound.
    std::optional<Wide> least() {
        if (too_many()) return std::nullopt;
        for (const auto& [sites, entries] : listed_) {
            std::vector<std::vector<StepRange>> boxes;
            for (const SitesProof* entry : entries)
                boxes.push_back(ranges_of(*entry, trunks_));
            if (!Cover(boxes, trunks_.steps, !mixed_).whole()) return std::nullopt;
        }
        bool bounded = true;
        for (std::size_t p = 0; p < evidence_.proof.prices.size(); ++p) {
            const ServiceCosts services = service_costs(scenario_, evidence_, evidence_.proof.prices[p]);
            std::map<std::size_t, TrunkCosts> trunks;  // By number of places.
            for (const SitesProof& entry : evidence_.proof.sets) {
                if (static_cast<std::size_t>(entry.prices) != p) continue;
                const std::size_t places = entry.sites.size();
                if (!trunks.contains(places)) {
                    trunks[places] = trunk_costs(scenario_, evidence_, evidence_.proof.prices[p], places);
                }
                bounded = add_entry(entry, services, trunks[places]) && bounded;
            }
            if (p == 0) bounded = add_unlisted(services) && bounded;
        }
        if (!bounded) return std::nullopt;
        return least_;
    }

private:
    [[nodiscard]] bool too_many() const {
        double sets = 1;
        double sum = 1;
        for (int k = 0; k < scenario_.rules.most_enclosures && sets > 0; ++k) {
            sets *= (static_cast<double>(evidence_.sites.size()) - k) / (k + 1);
            sum += sets;
        }
        return sum * static_cast<double>(scenario_.buildings.size() + 1) > most_work;
    }

    bool add_entry(const SitesProof& entry, const ServiceCosts& services, const TrunkCosts& trunks) {
        std::vector<Wide> cheapest = services.direct;
        for (std::size_t k = 0; k < entry.sites.size(); ++k) {
            const auto share = share_of_ask(scenario_, evidence_, entry.asks[k]);
            if (!share) return false;
            lower(cheapest, services.from_site[static_cast<std::size_t>(entry.sites[k])], *share, multiples_);
        }
        const Wide split = cheapest_split(trunks, entry.sites, entry.asks, ranges_of(entry, trunks), !mixed_);
        if (split < never) note(sum_of(cheapest, split));
        return true;
    }

    /// `never` where some building cannot be served.
    static Wide sum_of(const std::vector<Wide>& cheapest, Wide more) {
        for (const Wide cost : cheapest) {
            if (cost >= never) return never;
            more += cost;
        }
        return more;
    }

    void note(Wide bound) { least_ = std::min(least_, bound); }

    /// Every set that no entry names, by these prices and what sites ask of all such sets.
    bool add_unlisted(const ServiceCosts& services) {
        std::vector<std::vector<Wide>> asked(evidence_.sites.size());
        std::vector<Wide> trunk(evidence_.sites.size(), never);
        for (std::size_t s = 0; s < asked.size(); ++s) {
            const graph::Cost ask = evidence_.proof.asks[s];
            const auto share = share_of_ask(scenario_, evidence_, ask);
            if (!share) return false;
            asked[s].assign(multiples_.size(), never);
            lower(asked[s], services.from_site[s], *share, multiples_);
            trunk[s] = least_trunk(trunks_, s, ask);
        }
        Sites chosen;
        walk(0, chosen, services.direct, 0, asked, trunk);
        return true;
    }

    void walk(std::size_t first, Sites& chosen, const std::vector<Wide>& cheapest, Wide trunks,
              const std::vector<std::vector<Wide>>& asked, const std::vector<Wide>& trunk) {
        const auto count = static_cast<int>(chosen.size());
        if (count >= (mixed_ ? 0 : 1) && !listed_.contains(chosen)) note(sum_of(cheapest, trunks));
        if (count == scenario_.rules.most_enclosures) return;
        for (std::size_t s = first; s < asked.size(); ++s) {
            if (trunk[s] >= never) continue;
            std::vector<Wide> next = cheapest;
            for (std::size_t b = 0; b < next.size(); ++b)
                next[b] = std::min(next[b], asked[s][b]);
            chosen.push_back(static_cast<std::int32_t>(s));
            walk(s + 1, chosen, next, trunks + trunk[s], asked, trunk);
            chosen.pop_back();
        }
    }

    const Scenario& scenario_;
    const TrunkEvidence& evidence_;
    bool mixed_;
    TrunkCosts trunks_;
    std::vector<Wide> multiples_;
    std::map<Sites, std::vector<const SitesProof*>> listed_;
    Wide least_ = never;
};

}  // namespace

std::string trunk_price_fault(const Scenario& scenario, const TrunkEvidence& evidence) {
    if (evidence.proof.prices.empty() || evidence.proof.asks.size() != evidence.sites.size()) {
        return "there are no prices, or not one ask for each place";
    }
    for (const graph::EdgePriceSet& prices : evidence.proof.prices) {
        std::string segment;
        if (prices.size() == evidence.demands.size() && sums_fit(evidence, prices, segment, scenario)) continue;
        return fmt::format("the prices on segment {} come to more than opening it", segment);
    }
    const std::vector<Wide> multiples = multiples_of(evidence);
    for (std::size_t b = 0; b < multiples.size(); ++b) {
        if (multiples[b] > 0 || !evidence.demands[b].direct) continue;
        return fmt::format("building {} pays nothing for its cable, which home runs may not", scenario.buildings[b].id);
    }
    for (const SitesProof& entry : evidence.proof.sets) {
        std::string fault = entry_fault(evidence, entry);
        if (!fault.empty()) return fault;
    }
    return "";
}

std::optional<Money> trunk_direct_bound(const Scenario& scenario, const TrunkEvidence& evidence, bool mixed) {
    const auto parts = SetBounds(scenario, evidence, mixed).least();
    if (!parts) return std::nullopt;
    Wide rebate = 0;
    for (const CertifiedEdge& edge : evidence.edges)
        rebate += static_cast<Wide>(edge.room_price) * std::max(0, edge.room);
    // A plan's cost is whole, so the parts are rounded up; what is below a minor unit is rounded down.
    const Wide whole = evidence.proof.parts;
    const Wide units = *parts / whole + (*parts % whole > 0 ? 1 : 0) - rebate;
    const Wide most = most_money * evidence.units_a_minor;
    const Wide within = std::clamp<Wide>(units, -most, most);
    const Wide minor = within / evidence.units_a_minor - (within % evidence.units_a_minor < 0 ? 1 : 0);
    const Wide direct = std::clamp<Wide>(evidence.constant.minor() + minor, -most_money, most_money);
    return Money::from_minor(static_cast<std::int64_t>(direct));
}

}  // namespace spadework::certificate
