#include "graph/chain_orders.hpp"

#include <algorithm>
#include <cstdlib>
#include <limits>

#include "graph/saturating.hpp"

namespace spadework::graph::chains {

namespace {

using Chain = std::vector<std::int32_t>;

constexpr Cost kUphill = 100;  ///< Shaken orders may be dearer by this part of the least.
constexpr int kShakesFromBest = 25;

Cost cost_of_chain(const HopCosts& costs, const Chain& chain) {
    if (chain.empty()) return 0;
    Cost total = costs.a_chain;
    std::int32_t from = -1;
    for (const std::int32_t stop : chain) {
        total += costs.hop(from, stop);
        from = stop;
    }
    return total;
}

std::int32_t at_or_source(const Chain& chain, std::size_t place) {
    return place == 0 ? -1 : chain[place - 1];
}

/// What the hop out of `from` costs where the chain goes on at `place`; nothing is paid behind the end.
Cost hop_onwards(const HopCosts& costs, std::int32_t from, const Chain& chain, std::size_t place) {
    return place < chain.size() ? costs.hop(from, chain[place]) : 0;
}

class OrderSearch {
public:
    OrderSearch(const HopCosts& costs, Orders& orders) : costs_(costs), orders_(orders) {}

    void run() {
        while (relocate() || exchange_tails() || turn_round() || swap_stops()) {
        }
        std::erase_if(orders_, [](const Chain& c) { return c.empty(); });
    }

private:
    /// Moves one stretch of up to three stops, either way round, to a better place; true when one was found.
    bool relocate() {
        if (orders_.empty() || !orders_.back().empty()) orders_.emplace_back();  // A new chain is a place too.
        for (std::size_t a = 0; a < orders_.size(); ++a) {
            for (std::size_t i = 0; i < orders_[a].size(); ++i) {
                for (std::size_t length = 1; length <= 3 && i + length <= orders_[a].size(); ++length) {
                    if (relocate_stretch(a, i, length)) return true;
                }
            }
        }
        return false;
    }

    bool relocate_stretch(std::size_t a, std::size_t i, std::size_t length) {
        const Chain& from = orders_[a];
        const std::int32_t first = from[i];
        const std::int32_t last = from[i + length - 1];
        const std::int32_t before = at_or_source(from, i);
        Cost freed = costs_.hop(before, first) + hop_onwards(costs_, last, from, i + length) -
                     hop_onwards(costs_, before, from, i + length);
        if (length == from.size()) freed += costs_.a_chain;
        for (std::size_t b = 0; b < orders_.size(); ++b) {
            const Chain& to = orders_[b];
            if (a != b && to.size() + length > static_cast<std::size_t>(costs_.longest_chain)) continue;
            if (a == b && length == from.size()) continue;
            for (std::size_t j = 0; j <= to.size(); ++j) {
                if (a == b && j >= i && j <= i + length) continue;
                const std::int32_t left = at_or_source(to, j);
                const Cost base = (to.empty() ? costs_.a_chain : 0) - hop_onwards(costs_, left, to, j) - freed;
                const Cost same_way = base + costs_.hop(left, first) + hop_onwards(costs_, last, to, j);
                const Cost turned = base + costs_.hop(left, last) + hop_onwards(costs_, first, to, j);
                if (same_way >= 0 && turned >= 0) continue;
                move_stretch({a, i, length}, b, j, turned < same_way);
                return true;
            }
        }
        return false;
    }

    struct Stretch {
        std::size_t chain;
        std::size_t at;
        std::size_t length;
    };

    void move_stretch(Stretch s, std::size_t b, std::size_t j, bool turned) {
        Chain& from = orders_[s.chain];
        const auto begin = from.begin() + static_cast<std::ptrdiff_t>(s.at);
        Chain stretch(begin, begin + static_cast<std::ptrdiff_t>(s.length));
        if (turned) std::reverse(stretch.begin(), stretch.end());
        from.erase(begin, begin + static_cast<std::ptrdiff_t>(s.length));
        if (s.chain == b && j > s.at) j -= s.length;
        orders_[b].insert(orders_[b].begin() + static_cast<std::ptrdiff_t>(j), stretch.begin(), stretch.end());
    }

    /// Cuts two chains and joins each head to the other's tail.
    bool exchange_tails() {
        const auto longest = static_cast<std::size_t>(costs_.longest_chain);
        for (std::size_t a = 0; a < orders_.size(); ++a) {
            for (std::size_t b = a + 1; b < orders_.size(); ++b) {
                for (std::size_t i = 0; i <= orders_[a].size(); ++i) {
                    for (std::size_t j = 0; j <= orders_[b].size(); ++j) {
                        if (i + orders_[b].size() - j > longest || j + orders_[a].size() - i > longest) continue;
                        if (try_tails(a, i, b, j)) return true;
                    }
                }
            }
        }
        return false;
    }

    bool try_tails(std::size_t a, std::size_t i, std::size_t b, std::size_t j) {
        Chain& x = orders_[a];
        Chain& y = orders_[b];
        const std::int32_t x_head = at_or_source(x, i);
        const std::int32_t y_head = at_or_source(y, j);
        const std::size_t x_new = i + y.size() - j;
        const std::size_t y_new = j + x.size() - i;
        const auto chains = [](std::size_t p, std::size_t q) { return (p > 0 ? 1 : 0) + (q > 0 ? 1 : 0); };
        const Cost change = hop_onwards(costs_, x_head, y, j) + hop_onwards(costs_, y_head, x, i) -
                            hop_onwards(costs_, x_head, x, i) - hop_onwards(costs_, y_head, y, j) +
                            costs_.a_chain * (chains(x_new, y_new) - chains(x.size(), y.size()));
        if (change >= 0) return false;
        Chain x_tail(x.begin() + static_cast<std::ptrdiff_t>(i), x.end());
        x.resize(i);
        x.insert(x.end(), y.begin() + static_cast<std::ptrdiff_t>(j), y.end());
        y.resize(j);
        y.insert(y.end(), x_tail.begin(), x_tail.end());
        return true;
    }

    /// Turns a stretch of one chain round.
    bool turn_round() {
        for (Chain& chain : orders_) {
            for (std::size_t i = 0; i < chain.size(); ++i) {
                for (std::size_t j = i + 2; j <= chain.size(); ++j) {
                    const std::int32_t before = at_or_source(chain, i);
                    const Cost change = costs_.hop(before, chain[j - 1]) + hop_onwards(costs_, chain[i], chain, j) -
                                        costs_.hop(before, chain[i]) - hop_onwards(costs_, chain[j - 1], chain, j);
                    if (change >= 0) continue;
                    std::reverse(chain.begin() + static_cast<std::ptrdiff_t>(i),
                                 chain.begin() + static_cast<std::ptrdiff_t>(j));
                    return true;
                }
            }
        }
        return false;
    }

    /// Swaps two stops of different chains.
    bool swap_stops() {
        for (std::size_t a = 0; a < orders_.size(); ++a) {
            for (std::size_t b = a + 1; b < orders_.size(); ++b) {
                for (std::size_t i = 0; i < orders_[a].size(); ++i) {
                    for (std::size_t j = 0; j < orders_[b].size(); ++j) {
                        const Cost change =
                            replaced(orders_[a], i, orders_[b][j]) + replaced(orders_[b], j, orders_[a][i]);
                        if (change >= 0) continue;
                        std::swap(orders_[a][i], orders_[b][j]);
                        return true;
                    }
                }
            }
        }
        return false;
    }

    [[nodiscard]] Cost replaced(const Chain& chain, std::size_t i, std::int32_t by) const {
        const std::int32_t before = at_or_source(chain, i);
        return costs_.hop(before, by) + hop_onwards(costs_, by, chain, i + 1) - costs_.hop(before, chain[i]) -
               hop_onwards(costs_, chain[i], chain, i + 1);
    }

    const HopCosts& costs_;
    Orders& orders_;
};

void insert_cheapest(const HopCosts& costs, Orders& orders, std::int32_t stop) {
    Cost best = costs.a_chain + costs.from_source[stop];
    std::size_t best_chain = orders.size();
    std::size_t best_place = 0;
    for (std::size_t c = 0; c < orders.size(); ++c) {
        const Chain& chain = orders[c];
        if (chain.size() >= static_cast<std::size_t>(costs.longest_chain)) continue;
        for (std::size_t j = 0; j <= chain.size(); ++j) {
            const std::int32_t left = at_or_source(chain, j);
            const Cost change =
                costs.hop(left, stop) + hop_onwards(costs, stop, chain, j) - hop_onwards(costs, left, chain, j);
            if (change >= best) continue;
            best = change;
            best_chain = c;
            best_place = j;
        }
    }
    if (best_chain == orders.size()) orders.emplace_back();
    Chain& chain = orders[best_chain];
    chain.insert(chain.begin() + static_cast<std::ptrdiff_t>(best_place), stop);
}

}  // namespace

Cost cost_of_orders(const HopCosts& costs, const Orders& orders) {
    Cost total = 0;
    for (const Chain& chain : orders)
        total += cost_of_chain(costs, chain);
    return total;
}

Orders best_cut(const HopCosts& costs, const std::vector<std::int32_t>& sequence) {
    const std::size_t count = sequence.size();
    std::vector<Cost> least(count + 1, kLargestCost);  // Of the first so many stops, in whole chains.
    std::vector<std::size_t> last_cut(count + 1, 0);
    least[0] = 0;
    for (std::size_t start = 0; start < count; ++start) {
        Cost total = least[start] + costs.a_chain;
        std::int32_t from = -1;
        const std::size_t end = std::min(count, start + static_cast<std::size_t>(costs.longest_chain));
        for (std::size_t i = start; i < end; ++i) {
            total += costs.hop(from, sequence[i]);
            from = sequence[i];
            if (total >= least[i + 1]) continue;
            least[i + 1] = total;
            last_cut[i + 1] = start;
        }
    }
    Orders orders;
    for (std::size_t end = count; end > 0; end = last_cut[end]) {
        orders.emplace_back(sequence.begin() + static_cast<std::ptrdiff_t>(last_cut[end]),
                            sequence.begin() + static_cast<std::ptrdiff_t>(end));
    }
    std::reverse(orders.begin(), orders.end());
    return orders;
}

void improve_orders(const HopCosts& costs, Orders& orders) {
    OrderSearch(costs, orders).run();
}

void shake_orders(const HopCosts& costs, Orders& orders, std::mt19937_64& random) {
    if (costs.stops < 2) return;
    const auto all = static_cast<std::uint64_t>(costs.stops);
    const auto centre = static_cast<std::int32_t>(random() % all);
    const std::size_t take = std::min<std::size_t>(all, 2 + random() % 7);
    std::vector<std::int32_t> near(all);
    for (std::int32_t s = 0; s < costs.stops; ++s)
        near[s] = s;
    std::stable_sort(near.begin(), near.end(), [&](std::int32_t a, std::int32_t b) {
        return (a == centre ? -1 : costs.hop(centre, a)) < (b == centre ? -1 : costs.hop(centre, b));
    });
    near.resize(take);
    for (std::size_t i = take; i > 1; --i)
        std::swap(near[i - 1], near[random() % i]);
    std::vector<char> out(all, 0);
    for (const std::int32_t s : near)
        out[s] = 1;
    for (Chain& chain : orders)
        std::erase_if(chain, [&](std::int32_t s) { return out[s] != 0; });
    std::erase_if(orders, [](const Chain& c) { return c.empty(); });
    for (const std::int32_t s : near)
        insert_cheapest(costs, orders, s);
}

void settle_orders(const HopCosts& costs, Orders& orders, int shakes) {
    std::mt19937_64 random(1);
    Cost least = cost_of_orders(costs, orders);
    Orders current = orders;
    Cost current_cost = least;
    for (int i = 1; i <= shakes; ++i) {
        Orders other = current;
        shake_orders(costs, other, random);
        improve_orders(costs, other);
        const Cost cost = cost_of_orders(costs, other);
        if (cost <= current_cost + std::abs(least) / kUphill) {
            current = other;
            current_cost = cost;
        }
        if (cost < least) {
            least = cost;
            orders = std::move(other);
        }
        if (i % kShakesFromBest == 0) {
            current = orders;
            current_cost = least;
        }
    }
}

}  // namespace spadework::graph::chains
