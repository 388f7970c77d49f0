#include "graph/two_level_prices.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "graph/simplex_projection.hpp"

namespace spadework::graph::two_level {

namespace {

// Found by trial on generated site maps.
constexpr double kFirstWeight = 0.3;   ///< What a pass's ways count in the averaged flows at first, ...
constexpr double kLeastWeight = 0.02;  ///< ... at last, ...
constexpr double kHalvedAfter = 10.0;  ///< ... and half as much as at first after so many passes.
constexpr int kStepsTakenOver = 10;    ///< So many count where a descent goes on from another.
constexpr double kDecay = 0.9;         ///< Of the step factor, ...
constexpr int kPatience = 20;          ///< ... after so many passes without a better bound, ...
constexpr int kPatienceTogether = 5;   ///< ... or without more reached by all prices together.
constexpr float kFlowKept = 1e-4F;     ///< Smaller averaged flows are dropped.

}  // namespace

PriceDescent::PriceDescent(std::vector<double> rooms, std::size_t demands, WorkerTeam& team)
    : team_(team),
      rooms_(std::move(rooms)),
      best_bound_(-std::numeric_limits<double>::infinity()),
      reached_(best_bound_) {
    const std::size_t purses = rooms_.size();
    prices_.assign(demands, std::vector<float>(purses, 0.0F));
    flows_ = prices_;
    listed_.assign(demands, std::vector<char>(purses, 0));
    used_.resize(demands);
    fresh_.resize(demands);
    ways_.resize(demands);
    payers_.resize(purses);
    squares_.assign(demands, 0.0);
}

void PriceDescent::start(PriceTable prices) {
    prices_ = std::move(prices);
    for (Purse p = 0; p < payers_.size(); ++p) {
        for (std::size_t d = 0; d < prices_.size(); ++d) {
            if (prices_[d][p] <= 0.0F) continue;
            listed_[d][p] = 1;
            payers_[p].push_back(static_cast<std::int32_t>(d));
        }
        project(p, 0.0);
    }
}

void PriceDescent::go_on_from(const PriceDescent& other) {
    const std::size_t purses = rooms_.size();
    for (std::size_t d = 0; d < other.prices_.size(); ++d) {
        for (const Purse p : other.used_[d]) {
            if (p >= purses) continue;
            flows_[d][p] = other.flows_[d][p];
            used_[d].push_back(p);
        }
        for (Purse p = 0; p < purses; ++p) {
            prices_[d][p] = other.best_prices_[d][p];
            if (prices_[d][p] <= 0.0F && flows_[d][p] <= 0.0F) continue;
            listed_[d][p] = 1;
            payers_[p].push_back(static_cast<std::int32_t>(d));
        }
    }
    first_pass_ = false;
    steps_ = kStepsTakenOver;
}

void PriceDescent::judge(double bound) {
    bound_ = bound;
    if (bound_ > best_bound_) {
        const bool worth_keeping = bound_ > best_bound_ + 1e-6 * std::abs(bound_);
        best_bound_ = bound_;
        best_prices_ = prices_;
        if (worth_keeping) passes_without_gain_ = 0;
    } else if (++passes_without_gain_ >= kPatience) {
        factor_ *= kDecay;
        passes_without_gain_ = 0;
    }
}

void PriceDescent::judge(double bound, double reached) {
    bound_ = bound;
    if (reached > reached_ + 1e-5 * std::abs(reached)) {
        reached_ = reached;
        passes_without_gain_ = 0;
    } else if (++passes_without_gain_ >= kPatienceTogether) {
        factor_ *= kDecay;
        passes_without_gain_ = 0;
    }
}

double PriceDescent::move_flows(std::size_t d) {
    const double weight_now = std::max(kLeastWeight, kFirstWeight / (1.0 + steps_ / kHalvedAfter));
    const float weight = first_pass_ ? 1.0F : static_cast<float>(weight_now);
    std::vector<float>& flow = flows_[d];
    std::vector<Purse>& used = used_[d];
    std::size_t kept = 0;
    for (const Purse p : used) {
        flow[p] *= 1.0F - weight;
        if (flow[p] < kFlowKept) {
            flow[p] = 0.0F;
        } else {
            used[kept++] = p;
        }
    }
    used.resize(kept);
    fresh_[d].clear();
    for (const auto& [p, share] : ways_[d]) {
        if (rooms_[p] <= 0.0) continue;
        if (flow[p] <= 0.0F) used.push_back(p);
        flow[p] += weight * share;
        if (listed_[d][p]) continue;
        listed_[d][p] = 1;
        fresh_[d].push_back(p);
    }
    double squares = 0.0;
    for (const Purse p : used)
        squares += static_cast<double>(flow[p]) * static_cast<double>(flow[p]);
    return squares;
}

void PriceDescent::project(Purse purse, double length) {
    struct Wish {
        double price;
        bool flows;
    };
    thread_local std::vector<Wish> of_payers;
    thread_local std::vector<double> wishes;
    of_payers.clear();
    wishes.clear();
    std::vector<std::int32_t>& payers = payers_[purse];
    for (const std::int32_t d : payers) {
        const auto flow = static_cast<double>(flows_[d][purse]);
        of_payers.push_back({static_cast<double>(prices_[d][purse]) + length * flow, flow > 0.0});
        wishes.push_back(of_payers.back().price);
    }
    const double cut = cut_to_fit(wishes, rooms_[purse]);
    std::size_t kept = 0;
    for (std::size_t k = 0; k < of_payers.size(); ++k) {
        const std::int32_t d = payers[k];
        const double price = std::max(of_payers[k].price - cut, 0.0);
        prices_[d][purse] = static_cast<float>(price);
        if (price > 0.0 || of_payers[k].flows) {
            payers[kept++] = d;
        } else {
            listed_[d][purse] = 0;
        }
    }
    payers.resize(kept);
}

void PriceDescent::step(double target) {
    ++steps_;
    team_.run(prices_.size(), 4, [&](std::size_t d, std::size_t) { squares_[d] = move_flows(d); });
    first_pass_ = false;
    double squares = 0.0;
    for (std::size_t d = 0; d < prices_.size(); ++d) {
        squares += squares_[d];
        for (const Purse p : fresh_[d])
            payers_[p].push_back(static_cast<std::int32_t>(d));
    }
    if (squares <= 0.0) return;
    const double length = factor_ * std::max(target - bound_, 0.0) / squares;
    team_.run(payers_.size(), 256, [&](std::size_t p, std::size_t) {
        if (!payers_[p].empty()) project(static_cast<Purse>(p), length);
    });
}

double PriceDescent::use_of(Purse purse) const {
    double use = 0.0;
    for (const std::int32_t d : payers_[purse])
        use = std::max(use, static_cast<double>(flows_[d][purse]));
    return use;
}

std::vector<double> PriceDescent::edge_use(std::size_t edges) const {
    std::vector<double> use(edges, 0.0);
    for (std::size_t d = 0; d < used_.size(); ++d) {
        for (const Purse p : used_[d]) {
            if (p < 2 * edges) use[p / 2] = std::max(use[p / 2], static_cast<double>(flows_[d][p]));
        }
    }
    return use;
}

}  // namespace spadework::graph::two_level
