// Moves that better rings: hops led another way, links closed, stops taken out and put back.

#include <algorithm>
#include <iterator>
#include <numeric>

#include "graph/ring_search.hpp"

namespace spadework::graph::rings {

namespace {

constexpr std::size_t kMostMoved = 8;  ///< Stops taken out together.
constexpr int kShakesFromBest = 12;
constexpr Cost kUphill = 1000;  ///< A step may be dearer by this part of the best.

}  // namespace

/// Leads one hop another way where that is cheaper.
bool Search::reroute(std::size_t r, std::size_t h) {
    Round& round = rounds_[r];
    const Cost before = cost_;
    use(round.hops[h], -1);
    for (std::size_t other = 0; other < round.hops.size(); ++other) {
        if (other != h) ban(round.hops[other]);
    }
    auto path = ways_.one_way(end_before(round, h), end_after(round, h), price_);
    for (const LinkPath& hop : round.hops)
        allow(hop);
    LinkPath old = std::move(round.hops[h]);
    round.hops[h] = path ? std::move(*path) : old;
    use(round.hops[h], 1);
    if (cost_ < before) {
        round.settled = false;
        return true;
    }
    use(round.hops[h], -1);
    round.hops[h] = std::move(old);
    use(round.hops[h], 1);
    return false;
}

/// Leads every hop over the link another way where that is cheaper for all together.
bool Search::close(std::int32_t link) {
    struct Moved {
        std::size_t round;
        std::size_t hop;
        LinkPath old;
    };
    const Cost before = cost_;
    std::vector<Moved> moved;
    for (std::size_t r = 0; r < rounds_.size(); ++r) {
        for (std::size_t h = 0; h < rounds_[r].hops.size(); ++h) {
            LinkPath& hop = rounds_[r].hops[h];
            if (std::find(hop.begin(), hop.end(), link) == hop.end()) continue;
            use(hop, -1);
            moved.push_back({r, h, std::move(hop)});
            hop.clear();
        }
    }
    bool joined = true;
    for (const Moved& m : moved) {
        Round& round = rounds_[m.round];
        for (const LinkPath& hop : round.hops)
            ban(hop);
        price_[link] = -1;
        auto path = joined ? ways_.one_way(end_before(round, m.hop), end_after(round, m.hop), price_) : std::nullopt;
        for (const LinkPath& hop : round.hops)
            allow(hop);
        allow({link});
        joined = path.has_value();
        if (!joined) break;
        round.hops[m.hop] = std::move(*path);
        use(round.hops[m.hop], 1);
    }
    if (joined && cost_ < before) {
        for (const Moved& m : moved)
            rounds_[m.round].settled = false;
        return true;
    }
    for (const Moved& m : moved)
        use(rounds_[m.round].hops[m.hop], -1);
    for (Moved& m : moved) {
        use(m.old, 1);
        rounds_[m.round].hops[m.hop] = std::move(m.old);
    }
    return false;
}

std::vector<std::int32_t> Search::links_of_unsettled() const {
    std::vector<std::int32_t> links;
    for (const Round& round : rounds_) {
        if (round.settled) continue;
        for (const LinkPath& hop : round.hops)
            std::copy_if(hop.begin(), hop.end(), std::back_inserter(links),
                         [&](std::int32_t l) { return !network_.links[l].bridge; });
    }
    std::sort(links.begin(), links.end());
    links.erase(std::unique(links.begin(), links.end()), links.end());
    return links;
}

void Search::improve() {
    while (!stop_->reached()) {
        const std::vector<std::int32_t> links = links_of_unsettled();
        if (links.empty()) return;
        for (std::size_t r = 0; r < rounds_.size(); ++r) {
            if (rounds_[r].settled) continue;
            rounds_[r].settled = true;
            for (std::size_t h = 0; h < rounds_[r].hops.size() && !stop_->reached(); ++h)
                reroute(r, h);
        }
        for (const std::int32_t link : links) {
            if (uses_[link] > 0 && !stop_->reached()) close(link);
        }
    }
}

/// Some stop with those nearest to it, in random order.
std::vector<std::int32_t> Search::stops_to_move() {
    const auto all = network_.stops.size();
    const auto centre = static_cast<std::int32_t>(random_() % all);
    const std::size_t take = std::min<std::size_t>(all, 2 + random_() % (kMostMoved - 1));
    std::vector<std::int32_t> near(all);
    std::iota(near.begin(), near.end(), 0);
    std::stable_sort(near.begin(), near.end(),
                     [&](std::int32_t a, std::int32_t b) { return apart(centre, a) < apart(centre, b); });
    near.resize(take);
    for (std::size_t i = take; i > 1; --i)
        std::swap(near[i - 1], near[random_() % i]);
    return near;
}

void Search::shake(int times) {
    if (network_.stops.empty()) return;
    Rounds best = rounds_;
    Cost least = cost_;
    Rounds current = rounds_;
    Cost now = cost_;
    for (int i = 0; i < times && !stop_->reached(); ++i) {
        if (i % kShakesFromBest == 0) {
            current = best;
            now = least;
        }
        start_from(current);
        std::vector<std::int32_t> moved = stops_to_move();
        std::erase_if(moved, [&](std::int32_t stop) { return !take_out(stop); });
        for (const std::int32_t stop : moved)
            put_in(stop);
        if (cost_ < now + least / kUphill) {
            improve();
        }
        if (cost_ < least) {
            least = cost_;
            best = rounds_;
        }
        if (cost_ < now + least / kUphill) {
            current = rounds_;
            now = cost_;
        }
    }
    start_from(best);
}

}  // namespace spadework::graph::rings
