#include "graph/two_level_sets.hpp"

#include <algorithm>
#include <map>
#include <numeric>

#include "graph/saturating.hpp"

namespace spadework::graph::two_level {

using pair_routes::Network;

namespace {

constexpr double kMostWork = 1e8;          ///< Sets times demands that are looked at in a pass.
constexpr Cost kRounding = Cost{1} << 20;  ///< Prices are exact to this part, as sums of floats.
constexpr std::size_t kMostFits = 60;      ///< Of sets in a pass.

// Found by trial on generated site maps; shares of the plan's value.
constexpr double kLossWorthSplit = 0.0001;  ///< A set is split for so much.
constexpr double kRaisedTogether = 0.0005;  ///< Sets so near to the lowest so far are raised together.
constexpr double kLookedAt = 0.003;         ///< Sets so near to the lowest so far are looked at in a pass.
constexpr double kAim = 0.09;               ///< How much higher the steps aim than the present prices reach.

Cost share_of(Cost value, double share) {
    return static_cast<Cost>(SiteSets::scale_of(value) * share);
}

double count_of_sets(std::size_t sites, std::int32_t fewest, std::int32_t most) {
    double sum = 0.0;
    double sets = 1.0;
    for (std::int32_t k = 0; k <= most; ++k) {
        if (k >= fewest) sum += sets;
        sets *= (static_cast<double>(sites) - k) / (k + 1);
    }
    return sum;
}

/// Prices of the demands, who come first, as whole parts: in order paid out of each arc until its edge's opening cost
/// is spent. What rounding leaves of an opening that was all but spent goes to the demand that pays most, the first of
/// these.
ArcPrices whole_prices(const Relaxation& relaxation, const PriceTable& prices) {
    const std::size_t arcs = 2 * relaxation.opening.size();
    ArcPrices whole(relaxation.demands.size(), std::vector<Cost>(arcs, 0));
    std::vector<Cost> left;  // By arc.
    for (const Cost opening : relaxation.opening)
        left.insert(left.end(), 2, opening);
    std::vector<std::uint32_t> dearest(arcs, 0);  // By arc: the demand that pays most.
    for (std::size_t d = 0; d < whole.size(); ++d) {
        for (std::size_t a = 0; a < arcs; ++a) {
            const auto wish = static_cast<double>(prices[d][a]);
            if (!(wish >= 1.0)) continue;
            const Cost price = wish >= static_cast<double>(left[a]) ? left[a] : static_cast<Cost>(wish);
            whole[d][a] = price;
            left[a] -= price;
            if (price > whole[dearest[a]][a]) dearest[a] = static_cast<std::uint32_t>(d);
        }
    }
    for (std::size_t a = 0; a < arcs && !whole.empty(); ++a) {
        Cost& highest = whole[dearest[a]][a];
        if (highest > 0 && left[a] <= relaxation.opening[a / 2] / kRounding) highest += left[a];
    }
    return whole;
}

Relaxation asking_nothing(Relaxation lines, const EvenShares& shares) {
    for (RelaxedSite& site : lines.sites) {
        site.opening = 0;
        site.per_unit = 0;
    }
    lines.weight = lines.multiplicity = lines.fixed = {};
    return made_even(std::move(lines), shares);
}

/// By arc, what all pay for it.
std::vector<Cost> sums_of(const ArcPrices& prices, std::size_t arcs) {
    std::vector<Cost> sums(arcs, 0);
    for (const std::vector<Cost>& own : prices) {
        for (std::size_t a = 0; a < arcs; ++a)
            sums[a] += own[a];
    }
    return sums;
}

std::vector<double> arc_rooms(const Relaxation& relaxation) {
    std::vector<double> rooms;
    for (const Cost opening : relaxation.opening)
        rooms.insert(rooms.end(), 2, static_cast<double>(opening));
    return rooms;
}

}  // namespace

std::optional<SiteSets> SiteSets::make(const TwoLevelProblem& problem, const Network& network, const Relaxation& lines,
                                       const EvenShares& shares, WorkerTeam& team) {
    const double sets = count_of_sets(lines.sites.size(), problem.fewest_sites, problem.most_sites);
    if (!(sets * static_cast<double>(problem.demands.size()) <= kMostWork)) return std::nullopt;
    return std::optional<SiteSets>(std::in_place, Private{}, problem, network, lines, shares, team);
}

SiteSets::SiteSets(Private /*only_make*/, const TwoLevelProblem& problem, const Network& network,
                   const Relaxation& lines, const EvenShares& shares, WorkerTeam& team)
    : problem_(problem),
      network_(network),
      shares_(shares),
      team_(team),
      even_(asking_nothing(lines, shares)),
      feeders_(problem, network, lines),
      service_(even_, network),
      pricing_(problem_, even_, shares_, feeders_, service_),
      descent_(arc_rooms(lines), problem.demands.size() + 1, team),
      asked_(lines.sites.size()),
      base_(lines.sites.size(), 0) {
    for (const RelaxedSite& site : lines.sites)
        asks_.push_back(pricing_.least_ask(site.per_unit));
    for (std::size_t s = 0; s < problem.sites.size(); ++s) {
        if (lines.source_length[problem.sites[s].at] < kLargestCost) site_of_.push_back(static_cast<std::int32_t>(s));
    }
}

void SiteSets::start(const PriceDescent& from) {
    descent_.go_on_from(from);
}

/// Lists the set unless its bound in the first pass, with each feeder as suits it, excludes it.
void SiteSets::consider(const std::vector<std::int32_t>& chosen, const std::vector<Cost>& least, Cost target) {
    WideCost sum = even_.constant;
    for (const Cost c : least)
        sum += c;
    for (const std::int32_t s : chosen)
        sum += base_[s];
    if (sum >= target) return;
    waiting_.push_back({static_cast<Cost>(sum), waiting_sites_.size(), chosen.size()});
    waiting_sites_.insert(waiting_sites_.end(), chosen.begin(), chosen.end());
}

void SiteSets::list_from(std::size_t first, std::vector<std::int32_t>& chosen, const std::vector<Cost>& least,
                         Cost target) {
    const auto count = static_cast<std::int32_t>(chosen.size());
    if (count >= problem_.fewest_sites) consider(chosen, least, target);
    if (count == problem_.most_sites) return;
    std::vector<Cost> next(least.size());
    for (std::size_t s = first; s < asked_.size(); ++s) {
        for (std::size_t d = 0; d < least.size(); ++d)
            next[d] = std::min(least[d], asked_[s][d]);
        chosen.push_back(static_cast<std::int32_t>(s));
        list_from(s + 1, chosen, next, target);
        chosen.pop_back();
    }
}

void SiteSets::list_sets(Cost target) {
    for (std::size_t s = 0; s < asked_.size(); ++s) {
        asked_[s] = service_.by_demand(s);
        for (std::size_t d = 0; d < asked_[s].size(); ++d)
            asked_[s][d] += pricing_.share(asks_[s]) * even_.demands[d].units;
        base_[s] = pricing_.least_of_feeder(static_cast<std::int32_t>(s), asks_[s]);
    }
    std::vector<std::int32_t> chosen;
    list_from(0, chosen, service_.direct(), target);
    std::ranges::sort(waiting_, std::ranges::greater(), [](const Waiting& w) { return std::pair(w.bound, w.first); });
}

/// Begins to look at sets that have waited and lie no higher than `most`.
void SiteSets::take_up(Cost most) {
    for (; !waiting_.empty() && waiting_.back().bound <= most; waiting_.pop_back()) {
        const Waiting& next = waiting_.back();
        SiteSet set;
        const auto first = waiting_sites_.begin() + static_cast<std::ptrdiff_t>(next.first);
        set.sites.assign(first, first + static_cast<std::ptrdiff_t>(next.count));
        set.loads.assign(next.count, {0, feeders_.steps()});
        for (const std::int32_t s : set.sites)
            set.asks.push_back(asks_[s]);
        set.proved_with = set.asks;
        set.bound = next.bound;
        sets_.push_back(std::move(set));
    }
}

/// The lowest bound of any set, no higher than `target`.
Cost SiteSets::lowest_bound(Cost target) const {
    Cost lowest = waiting_.empty() ? target : std::min(target, waiting_.back().bound);
    for (const SiteSet& set : sets_)
        lowest = std::min(lowest, set.bound);
    return lowest;
}

/// Lets feeders of the sets that lie no higher than `most` pay dues at this pass's prices.
void SiteSets::pay_dues(Cost most) {
    std::vector<Cost> unspent;
    for (std::size_t e = 0; e < even_.opening.size(); ++e)
        unspent.push_back(even_.opening[e] - std::max(spent_[2 * e], spent_[2 * e + 1]));
    std::vector<char> counts(feeders_.most_sites() + 1, 0);
    for (const SiteSet& set : sets_) {
        if (set.bound <= most) counts[set.sites.size()] = 1;
    }
    feeders_.pay_dues(unspent, counts, team_);
}

/// Raises the sets that are low enough to matter by this pass's prices, as their sites ask already.
void SiteSets::raise_sets(Cost target) {
    const auto pass = static_cast<std::int32_t>(prices_.size()) - 1;
    const Cost most = add(lowest_bound(target), share_of(target, kLookedAt));
    take_up(most);
    pay_dues(most);
    team_.run(sets_.size(), 256, [&](std::size_t s, std::size_t) {
        SiteSet& set = sets_[s];
        if (set.bound > most || pricing_.rough_bound(set) <= set.bound) return;
        set.raise(pricing_.bound(set), pass, set.asks);
    });
}

/// Those whose bounds are the lowest so far, in the order listed.
std::vector<std::size_t> SiteSets::lowest_so_far(Cost target) const {
    std::vector<std::size_t> lowest(sets_.size());
    std::iota(lowest.begin(), lowest.end(), std::size_t{0});
    const auto lower = [this](std::size_t a, std::size_t b) {
        return std::pair(sets_[a].bound, a) < std::pair(sets_[b].bound, b);
    };
    const auto count = static_cast<std::ptrdiff_t>(std::min(lowest.size(), kMostFits));
    std::partial_sort(lowest.begin(), lowest.begin() + count, lowest.end(), lower);
    const Cost most = add(sets_[lowest.front()].bound, share_of(target, kRaisedTogether));
    lowest.resize(static_cast<std::size_t>(count));
    std::erase_if(lowest, [&](std::size_t s) { return sets_[s].bound > most; });
    return lowest;
}

/// Fits what the sites of each set ask, and splits sets where that pays. Returns what the present prices prove of each.
std::vector<Cost> SiteSets::fit(const std::vector<std::size_t>& sets, Cost target) {
    const auto pass = static_cast<std::int32_t>(prices_.size()) - 1;
    std::vector<Cost> now(sets.size());
    team_.run(sets.size(), 4, [&](std::size_t i, std::size_t) {
        SiteSet& set = sets_[sets[i]];
        now[i] = pricing_.fit(set, target);
        set.raise(now[i], pass, set.asks);
    });
    for (std::size_t i = 0; i < sets.size(); ++i) {
        if (now[i] >= target) continue;
        auto more = pricing_.split(sets_[sets[i]], share_of(target, kLossWorthSplit));
        if (more) sets_.push_back(std::move(*more));
    }
    return now;
}

bool SiteSets::pass(Cost plan) {
    const Cost target = plan * even_.parts;
    const ArcPrices prices = whole_prices(even_, descent_.prices());
    spent_ = sums_of(prices, 2 * even_.opening.size());
    service_.measure(prices, team_);
    if (prices_.empty()) list_sets(target);
    prices_.push_back(listed(prices));
    bound_ = lowest_bound(target);
    if (bound_ >= target) return false;
    raise_sets(target);
    const std::vector<std::size_t> lowest = lowest_so_far(target);
    follow(lowest, fit(lowest, target), target);
    put_aside(target);
    forget_prices();
    bound_ = lowest_bound(target);
    if (bound_ >= target) return false;
    const double worth = descent_.bound();
    descent_.step(worth + kAim * scale_of(target));
    return true;
}

/// Keeps those below the target.
void SiteSets::put_aside(Cost target) {
    const auto left =
        std::stable_partition(sets_.begin(), sets_.end(), [&](const SiteSet& set) { return set.bound < target; });
    std::move(left, sets_.end(), std::back_inserter(put_aside_));
    sets_.erase(left, sets_.end());
}

/// Forgets the prices of passes that no set rests on. The first pass's stay: sets not listed rest on them.
void SiteSets::forget_prices() {
    std::vector<char> needed(prices_.size(), 0);
    needed.front() = 1;
    for (const auto* sets : {&sets_, &put_aside_}) {
        for (const SiteSet& set : *sets)
            needed[static_cast<std::size_t>(set.proved_in)] = 1;
    }
    for (std::size_t p = 0; p < needed.size(); ++p) {
        if (needed[p] == 0) prices_[p] = {};
    }
}

Cost SiteSets::bound() const {
    return bound_ / even_.parts + (bound_ % even_.parts > 0 ? 1 : 0);
}

std::vector<std::int32_t> SiteSets::lowest_set() const {
    std::vector<std::int32_t> sites;
    for (const std::int32_t s : lowest_sites_)
        sites.push_back(site_of_[s]);
    return sites;
}

std::vector<std::vector<std::int32_t>> SiteSets::lowest_sets(std::size_t most) const {
    std::map<std::vector<std::int32_t>, Cost> bounds;  // Of sets that were split, the lowest part's.
    for (const SiteSet& set : sets_) {
        const auto [entry, fresh] = bounds.try_emplace(set.sites, set.bound);
        if (!fresh) entry->second = std::min(entry->second, set.bound);
    }
    std::vector<std::pair<Cost, std::vector<std::int32_t>>> order;
    for (const auto& [sites, bound] : bounds)
        order.emplace_back(bound, sites);
    std::sort(order.begin(), order.end());
    std::vector<std::vector<std::int32_t>> lowest;
    for (const auto& [bound, sites] : order) {
        if (lowest.size() == most) break;
        lowest.emplace_back();
        for (const std::int32_t s : sites)
            lowest.back().push_back(site_of_[s]);
    }
    return lowest;
}

EdgePriceSet SiteSets::listed(const ArcPrices& prices) const {
    EdgePriceSet list(prices.size());
    for (std::size_t d = 0; d < prices.size(); ++d) {
        list[d].reserve(prices[d].size() - static_cast<std::size_t>(std::ranges::count(prices[d], 0)));
        for (std::size_t a = 0; a < prices[d].size(); ++a) {
            if (prices[d][a] > 0) list[d].push_back({static_cast<EdgeId>(a / 2), prices[d][a], a % 2 == 1});
        }
    }
    return list;
}

TwoLevelCertificate SiteSets::certificate() const {
    TwoLevelCertificate certificate;
    certificate.parts = even_.parts;
    certificate.asks.assign(problem_.sites.size(), 0);
    for (std::size_t s = 0; s < site_of_.size(); ++s)
        certificate.asks[site_of_[s]] = asks_[s];
    if (prices_.empty()) return certificate;
    std::map<std::int32_t, std::int32_t> number_of{{0, 0}};  // By pass: its prices' place in the certificate.
    certificate.prices.push_back(prices_.front());
    for (const auto* sets : {&sets_, &put_aside_}) {
        for (const SiteSet& set : *sets) {
            const auto [entry, fresh] =
                number_of.try_emplace(set.proved_in, static_cast<std::int32_t>(certificate.prices.size()));
            if (fresh) certificate.prices.push_back(prices_[set.proved_in]);
            TwoLevelCertificate::SitesProof proof{{}, {}, set.proved_with, entry->second};
            for (std::size_t k = 0; k < set.sites.size(); ++k) {
                proof.sites.push_back(site_of_[set.sites[k]]);
                proof.units.push_back(
                    {set.loads[k].least * feeders_.units_a_step(), set.loads[k].most * feeders_.units_a_step()});
            }
            certificate.sets.push_back(std::move(proof));
        }
    }
    std::sort(certificate.sets.begin(), certificate.sets.end());
    return certificate;
}

}  // namespace spadework::graph::two_level
