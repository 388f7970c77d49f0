// Closing links that several hops pass, so that all of these are led another way together.

#include <algorithm>

#include "graph/ring_search.hpp"

namespace spadework::graph::rings {

namespace {

/// Spreads numbers so that sums of different ones are hardly ever the same.
std::uint64_t spread(std::uint64_t number) {
    number = (number + 1) * 0x9e3779b97f4a7c15ULL;
    number = (number ^ (number >> 32)) * 0xd6e8feb86659fd93ULL;
    return number ^ (number >> 32);
}

}  // namespace

/// Of every run of links that the same hops pass one, where these are two or more and one of them is fresh: what only
/// one hop passes is not worth closing once the hop has its cheapest way.
std::vector<std::int32_t> Search::links_worth_closing() const {
    std::vector<std::uint64_t> hops_on(network_.links.size(), 0);
    std::vector<std::int32_t> count(network_.links.size(), 0);
    std::vector<char> fresh(network_.links.size(), 0);
    std::uint64_t number = 0;
    for (const Round& round : rounds_) {
        for (std::size_t h = 0; h < round.hops.size(); ++h, ++number) {
            for (const std::int32_t l : round.hops[h]) {
                hops_on[l] += spread(number);
                ++count[l];
                fresh[l] |= round.fresh[h];
            }
        }
    }
    std::vector<std::int32_t> links;
    for (const Round& round : rounds_) {
        for (const LinkPath& hop : round.hops) {
            for (std::size_t i = 0; i < hop.size(); ++i) {
                const std::int32_t l = hop[i];
                const bool run_goes_on = i > 0 && hops_on[hop[i - 1]] == hops_on[l];
                if (!run_goes_on && fresh[l] != 0 && count[l] > 1 && !network_.links[l].bridge) links.push_back(l);
                fresh[l] = 0;
            }
        }
    }
    std::sort(links.begin(), links.end());
    return links;
}

std::vector<Search::Led> Search::hops_over(std::int32_t link) const {
    std::vector<Led> hops;
    for (std::size_t r = 0; r < rounds_.size(); ++r) {
        for (std::size_t h = 0; h < rounds_[r].hops.size(); ++h) {
            const LinkPath& hop = rounds_[r].hops[h];
            if (std::find(hop.begin(), hop.end(), link) == hop.end()) continue;
            hops.push_back({r, h, end_before(rounds_[r], h), hop, {}, {}, 0, 0});
        }
    }
    return hops;
}

/// Says of each hop what it does before and after the links in a row that all of them pass.
void Search::split_at_run(std::int32_t link, std::vector<Led>& hops) {
    for (const Led& hop : hops) {
        for (const std::int32_t l : hop.old)
            ++led_on_[l];
    }
    const auto all = static_cast<std::int32_t>(hops.size());
    for (Led& hop : hops) {
        auto first = std::find(hop.old.begin(), hop.old.end(), link);
        auto last = first + 1;
        while (first != hop.old.begin() && led_on_[*(first - 1)] == all)
            --first;
        while (last != hop.old.end() && led_on_[*last] == all)
            ++last;
        hop.head.assign(hop.old.begin(), first);
        hop.tail.assign(last, hop.old.end());
        hop.enters = hop.from;
        for (const std::int32_t l : hop.head)
            hop.enters = across(l, hop.enters);
        hop.leaves = hop.enters;
        for (auto l = first; l != last; ++l)
            hop.leaves = across(*l, hop.leaves);
    }
    for (const Led& hop : hops) {
        for (const std::int32_t l : hop.old)
            led_on_[l] = 0;
    }
}

/// The cheapest way for all cables of the hops together from one end of their run to the other, off the link and off
/// the other hops of their rings. What they do before and after the run counts as in use.
std::optional<LinkPath> Search::way_for_all(std::int32_t link, const std::vector<Led>& hops, Cost below) {
    const auto cables = static_cast<std::int64_t>(hops.size());
    for (const Led& led : hops) {
        for (const LinkPath& hop : rounds_[led.round].hops)
            ban(hop);
    }
    price_for_all_ = price_;
    for (std::size_t l = 0; l < price_.size(); ++l) {
        const Link& on = network_.links[l];
        if (price_[l] < 0) continue;
        price_for_all_[l] = on.ways.size() == 1 ? price_[l] + (cables - 1) * on.ways.front().charge
                                                : on.cost(uses_[l] + cables) - on.cost(uses_[l]);
    }
    price_for_all_[link] = -1;
    auto way = ways_.one_way(hops.front().enters, hops.front().leaves, price_for_all_, below);
    for (const Led& led : hops) {
        for (const LinkPath& hop : rounds_[led.round].hops)
            allow(hop);
    }
    return way;
}

/// The hop by another way than its run, round trips left out.
LinkPath Search::led_by(const Led& led, const LinkPath& way) const {
    LinkPath whole = led.head;
    const bool forwards =
        way.empty() || network_.links[way.front()].tail == led.enters || network_.links[way.front()].head == led.enters;
    if (forwards) {
        whole.insert(whole.end(), way.begin(), way.end());
    } else {
        whole.insert(whole.end(), way.rbegin(), way.rend());
    }
    whole.insert(whole.end(), led.tail.begin(), led.tail.end());
    LinkPath path;
    std::vector<VertexId> passed{led.from};
    for (const std::int32_t l : whole) {
        const VertexId at = across(l, passed.back());
        const auto before = std::find(passed.begin(), passed.end(), at);
        path.push_back(l);
        if (before == passed.end()) {
            passed.push_back(at);
            continue;
        }
        path.resize(static_cast<std::size_t>(before - passed.begin()));
        passed.erase(before + 1, passed.end());
    }
    return path;
}

/// Leads all hops over the link another way together.
bool Search::lead_together(std::int32_t link, std::vector<Led>& hops, Cost below) {
    split_at_run(link, hops);
    for (const Led& led : hops) {
        use(led.head, 1);
        use(led.tail, 1);
    }
    const auto way = way_for_all(link, hops, below - cost_);
    for (const Led& led : hops) {
        use(led.head, -1);
        use(led.tail, -1);
        if (!way) continue;
        Round& round = rounds_[led.round];
        round.hops[led.hop] = led_by(led, *way);
        use(round.hops[led.hop], 1);
    }
    return way.has_value();
}

/// Leads all hops over the link another way where that is cheaper for all together.
bool Search::close(std::int32_t link) {
    std::vector<Led> hops = hops_over(link);
    if (hops.size() < 2) return false;
    const Cost before = cost_;
    for (const Led& led : hops) {
        use(led.old, -1);
        rounds_[led.round].hops[led.hop].clear();
    }
    if (lead_together(link, hops, before) && cost_ < before) {
        for (const Led& hop : hops)
            rounds_[hop.round].fresh[hop.hop] = 1;
        return true;
    }
    for (Led& hop : hops) {
        LinkPath& now = rounds_[hop.round].hops[hop.hop];
        use(now, -1);
        now = std::move(hop.old);
        use(now, 1);
    }
    return false;
}

}  // namespace spadework::graph::rings
