#include "graph/two_level_site_ascent.hpp"

#include <algorithm>

namespace spadework::graph::two_level {

namespace {

struct Offer {
    double cost = 0.0;
    std::size_t site = 0;
};

/// One demand's sites, cheapest first, and how far it has come.
struct Bidder {
    std::vector<Offer> offers;
    std::size_t paying = 0;  ///< It pays the first so many.
    double level = 0.0;      ///< What it would pay in all.
};

Bidder bidder_for(const Relaxation& relaxation, const pair_routes::Network& network, const RelaxedDemand& demand) {
    const std::vector<Cost> distance = distances_from(network, demand.at, demand.service);
    Bidder bidder;
    for (std::size_t s = 0; s < relaxation.sites.size(); ++s) {
        const RelaxedSite& site = relaxation.sites[s];
        if (distance[site.at] == kLargestCost) continue;
        const double units = static_cast<double>(site.per_unit) * static_cast<double>(demand.units);
        bidder.offers.push_back({static_cast<double>(distance[site.at]) + units, s});
    }
    std::sort(bidder.offers.begin(), bidder.offers.end(),
              [](const Offer& a, const Offer& b) { return a.cost < b.cost || (a.cost == b.cost && a.site < b.site); });
    if (!bidder.offers.empty()) bidder.level = bidder.offers.front().cost;
    return bidder;
}

/// Raises the bidder to its next offer; false when a site it pays is paid off, or none dearer is left.
bool raise(Bidder& bidder, std::vector<double>& unpaid) {
    while (bidder.paying < bidder.offers.size() && bidder.offers[bidder.paying].cost <= bidder.level)
        ++bidder.paying;
    if (bidder.paying == bidder.offers.size()) return false;
    double step = bidder.offers[bidder.paying].cost - bidder.level;
    bool blocked = false;
    for (std::size_t k = 0; k < bidder.paying; ++k) {
        const double left = unpaid[bidder.offers[k].site];
        if (left > step) continue;
        step = left;
        blocked = true;
    }
    for (std::size_t k = 0; k < bidder.paying; ++k)
        unpaid[bidder.offers[k].site] -= step;
    bidder.level += step;
    return !blocked;
}

}  // namespace

void set_site_prices(const SearchField& field, const pair_routes::Network& network, double toll, PriceTable& prices) {
    const Relaxation& relaxation = field.relaxation();
    std::vector<Bidder> bidders;
    for (const RelaxedDemand& d : relaxation.demands)
        bidders.push_back(bidder_for(relaxation, network, d));
    std::vector<double> unpaid;
    for (const RelaxedSite& s : relaxation.sites)
        unpaid.push_back(static_cast<double>(s.opening) + toll);
    std::vector<std::size_t> raising;
    for (std::size_t d = 0; d < bidders.size(); ++d)
        raising.push_back(d);
    while (!raising.empty()) {
        std::erase_if(raising, [&](std::size_t d) { return !raise(bidders[d], unpaid); });
    }
    for (std::size_t d = 0; d < bidders.size(); ++d) {
        for (std::size_t k = 0; k < bidders[d].paying; ++k) {
            const Offer& offer = bidders[d].offers[k];
            prices[d][field.first_site() + static_cast<Purse>(offer.site)] =
                static_cast<float>(std::max(0.0, bidders[d].level - offer.cost));
        }
    }
}

}  // namespace spadework::graph::two_level
