// Who hangs from which open site, on one given tree.

#include <algorithm>
#include <vector>

#include "graph/saturating.hpp"
#include "graph/two_level_siting.hpp"

namespace spadework::graph::two_level {

namespace {

constexpr Cost kOverload = Cost{1} << 58;  ///< What a feeder costs that no size can carry; no plan costs as much.
constexpr Cost kUnserved = Cost{1} << 60;  ///< What a demand counts that nothing serves yet.

}  // namespace

/// Moves demands one at a time between the open sites and the source while that pays.
class Assignment {
public:
    Assignment(const SitingTable& table, const std::vector<std::int32_t>& open)
        : table_(table), open_(open), units_(open.size(), 0), feeder_now_(open.size(), 0) {
        const std::size_t demands = table.problem_.demands.size();
        served_by_.resize(demands);
        service_.resize(demands * open.size());
        for (std::size_t k = 0; k < open.size(); ++k) {
            const std::vector<Cost>& by_demand = table.service_[open[k]];
            for (std::size_t d = 0; d < demands; ++d)
                service_[d * open.size() + k] = by_demand[d];
        }
        for (std::size_t d = 0; d < demands; ++d) {
            served_by_[d] = -1;
            Cost least = table.direct_[d];
            for (std::size_t k = 0; k < open.size(); ++k) {
                if (service_[d * open.size() + k] >= least) continue;
                least = service_[d * open.size() + k];
                served_by_[d] = static_cast<std::int32_t>(k);
            }
            if (served_by_[d] >= 0) units_[served_by_[d]] += table.problem_.demands[d].units;
        }
        for (std::size_t k = 0; k < open.size(); ++k)
            feeder_now_[k] = feeder(k, units_[k]);
    }

    void improve() {
        for (bool changed = true; changed;) {
            changed = false;
            for (std::size_t d = 0; d < served_by_.size(); ++d)
                changed = move(d) || changed;
        }
    }

    [[nodiscard]] std::optional<Siting> result() const {
        Siting siting{open_, served_by_, 0};
        for (std::size_t k = 0; k < open_.size(); ++k) {
            if (feeder_now_[k] >= kOverload) return std::nullopt;
            const Site& site = table_.problem_.sites[open_[k]];
            siting.cost += feeder_now_[k] + site.cost + table_.reach_[site.at].opening;
        }
        for (std::size_t d = 0; d < served_by_.size(); ++d) {
            if (service(d, served_by_[d]) == kLargestCost) return std::nullopt;
            siting.cost += service(d, served_by_[d]);
        }
        return siting;
    }

private:
    [[nodiscard]] Cost service(std::size_t d, std::int32_t by) const {
        return by < 0 ? table_.direct_[d] : service_[d * open_.size() + static_cast<std::size_t>(by)];
    }

    [[nodiscard]] Cost feeder(std::size_t k, std::int64_t units) const {
        if (const auto cost = table_.feeder_cost_to(open_[k], units)) return *cost;
        const std::int64_t most = table_.feeders_.empty() ? 0 : table_.feeders_.back().serves;
        return kOverload + std::min(units - most, kOverload / 64);
    }

    bool move(std::size_t d) {
        const std::int64_t units = table_.problem_.demands[d].units;
        const std::int32_t from = served_by_[d];
        const auto count = static_cast<std::int32_t>(open_.size());
        Cost best = 0;
        std::int32_t target = from;
        Cost leaving = -std::min(service(d, from), kUnserved);
        if (from >= 0) leaving += feeder(from, units_[from] - units) - feeder_now_[from];
        for (std::int32_t to = -1; to < count; ++to) {
            if (to == from || service(d, to) == kLargestCost) continue;
            Cost change = leaving + service(d, to);
            if (change >= best) continue;
            if (to >= 0) change += feeder(to, units_[to] + units) - feeder_now_[to];
            if (change >= best) continue;
            best = change;
            target = to;
        }
        if (target == from) return false;
        carry(from, -units);
        carry(target, units);
        served_by_[d] = target;
        return true;
    }

    void carry(std::int32_t k, std::int64_t units) {
        if (k < 0) return;
        units_[k] += units;
        feeder_now_[k] = feeder(k, units_[k]);
    }

    const SitingTable& table_;
    std::vector<std::int32_t> open_;
    std::vector<Cost> service_;  ///< By demand, by open site.
    std::vector<std::int32_t> served_by_;
    std::vector<std::int64_t> units_;
    std::vector<Cost> feeder_now_;
};

std::optional<Siting> SitingTable::assign(const std::vector<std::int32_t>& open) const {
    Assignment assignment(*this, open);
    assignment.improve();
    return assignment.result();
}

}  // namespace spadework::graph::two_level
