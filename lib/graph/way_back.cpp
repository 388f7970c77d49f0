#include "graph/way_back.hpp"

#include <algorithm>

namespace spadework::graph {

namespace {

/// Tells `visit` of each piece in a piece that is an original edge, in the order of travel.
template <class Visit>
void for_each_original(const std::vector<Piece>& pieces, PieceUse use, Visit visit) {
    std::vector<PieceUse> rest{use};
    while (!rest.empty()) {
        const PieceUse next = rest.back();
        rest.pop_back();
        const Piece& piece = pieces[next.piece];
        if (piece.original >= 0) {
            visit(next);
            continue;
        }
        const PieceUse at_tail{piece.first, piece.first_turned != next.turned};
        const PieceUse at_head{piece.second, piece.second_turned != next.turned};
        rest.push_back(next.turned ? at_tail : at_head);
        rest.push_back(next.turned ? at_head : at_tail);
    }
}

/// Appends the original edges of a piece in the order of travel.
void append_edges(const std::vector<Piece>& pieces, PieceUse use, std::vector<EdgeId>& path) {
    for_each_original(pieces, use, [&](PieceUse edge) { path.push_back(pieces[edge.piece].original); });
}

/// Where an original edge lies in the reduced problem.
struct PlaceInReduced {
    EdgeId edge = -1;  ///< -1 for nowhere.
    bool turned = false;
};

std::vector<PlaceInReduced> places_in_reduced(const WayBack& way_back) {
    std::vector<PlaceInReduced> places;
    for (std::size_t e = 0; e < way_back.piece_of_edge.size(); ++e) {
        for_each_original(way_back.pieces, {way_back.piece_of_edge[e], false}, [&](PieceUse use) {
            const auto original = static_cast<std::size_t>(way_back.pieces[use.piece].original);
            if (places.size() <= original) places.resize(original + 1);
            places[original] = {static_cast<EdgeId>(e), use.turned};
        });
    }
    return places;
}

/// Prices on one arc added up.
void add_up(std::vector<EdgePrice>& prices) {
    const auto same = [](const EdgePrice& a, const EdgePrice& b) {
        return a.edge == b.edge && a.backwards == b.backwards;
    };
    std::sort(prices.begin(), prices.end(), [](const EdgePrice& a, const EdgePrice& b) {
        return a.edge != b.edge ? a.edge < b.edge : a.backwards < b.backwards;
    });
    std::size_t kept = 0;
    for (const EdgePrice& price : prices) {
        if (kept > 0 && same(prices[kept - 1], price)) {
            prices[kept - 1].price = add(prices[kept - 1].price, price.price);
        } else {
            prices[kept++] = price;
        }
    }
    prices.resize(kept);
}

/// A price put on a whole piece `top`, to be spread over what it is made of.
struct PriceToSpread {
    PieceUse use;
    Cost price = 0;
    Cost top_opening = 0;
};

/// Part of the price that falls on an opening cost, rounded down.
Cost portion(Cost price, Cost opening, Cost of_opening) {
    if (of_opening == 0) return 0;
    return static_cast<Cost>(static_cast<WideCost>(price) * opening / of_opening);
}

void spread(const std::vector<Piece>& pieces, PieceUse top, Cost top_price, std::vector<EdgePrice>& prices) {
    if (top_price <= 0) return;
    std::vector<PriceToSpread> rest{{top, top_price, pieces[top.piece].opening}};
    while (!rest.empty()) {
        const PriceToSpread next = rest.back();
        rest.pop_back();
        const Piece& piece = pieces[next.use.piece];
        const Cost price = portion(next.price, piece.opening, next.top_opening);
        if (price == 0) continue;
        for (std::int32_t b = piece.beaten; b >= 0; b = pieces[b].next_beaten) {
            rest.push_back({{b, pieces[b].beaten_turned != next.use.turned}, price, pieces[b].opening});
        }
        if (piece.original >= 0) {
            prices.push_back({piece.original, price, next.use.turned});
            continue;
        }
        rest.push_back({{piece.first, piece.first_turned != next.use.turned}, next.price, next.top_opening});
        rest.push_back({{piece.second, piece.second_turned != next.use.turned}, next.price, next.top_opening});
    }
}

Cost share_of(Cost price, const DemandFate& fate) {
    return static_cast<Cost>(static_cast<WideCost>(price) * fate.share / fate.share_sum);
}

}  // namespace

std::vector<EdgeId> edges_of(const WayBack& way_back, EdgeId reduced) {
    std::vector<EdgeId> edges;
    append_edges(way_back.pieces, {way_back.piece_of_edge[reduced], false}, edges);
    return edges;
}

SharedCostPlan expanded(const WayBack& way_back, const SharedCostPlan& reduced,
                        const std::vector<SharedCostEdge>& reduced_edges,
                        const std::vector<RootOption>& reduced_roots) {
    SharedCostPlan plan;
    plan.root = way_back.root_of[reduced.root];
    for (const DemandFate& fate : way_back.fates) {
        std::vector<EdgeId>& path = plan.paths.emplace_back();
        if (fate.reduced >= 0) {
            VertexId here = reduced_roots[reduced.root].at;
            for (const EdgeId e : reduced.paths[fate.reduced]) {
                const bool turned = reduced_edges[e].tail != here;
                append_edges(way_back.pieces, {way_back.piece_of_edge[e], turned}, path);
                here = turned ? reduced_edges[e].tail : reduced_edges[e].head;
            }
        }
        std::for_each(fate.lead_in.rbegin(), fate.lead_in.rend(),
                      [&](const PieceUse& use) { append_edges(way_back.pieces, use, path); });
    }
    return plan;
}

EdgePriceSet expanded(const WayBack& way_back, const EdgePriceSet& reduced, std::int64_t parts) {
    EdgePriceSet prices(way_back.fates.size());
    for (std::size_t d = 0; d < way_back.fates.size(); ++d) {
        const DemandFate& fate = way_back.fates[d];
        if (fate.reduced < 0) continue;
        for (const EdgePrice& price : reduced[fate.reduced]) {
            const PieceUse use{way_back.piece_of_edge[price.edge], price.backwards};
            spread(way_back.pieces, use, share_of(price.price, fate), prices[d]);
        }
    }
    for (const ForcedPiece& forced : way_back.forced) {
        const Cost price = times(way_back.pieces[forced.use.piece].opening, parts);
        if (price < kLargestCost) spread(way_back.pieces, forced.use, price, prices[forced.payer]);
    }
    return prices;
}

EdgePriceSet contracted(const WayBack& way_back, const EdgePriceSet& original, std::size_t reduced_demands) {
    const std::vector<PlaceInReduced> places = places_in_reduced(way_back);
    EdgePriceSet reduced(reduced_demands);
    for (std::size_t d = 0; d < original.size(); ++d) {
        const std::int32_t demand = way_back.fates[d].reduced;
        if (demand < 0) continue;
        for (const EdgePrice& price : original[d]) {
            const auto edge = static_cast<std::size_t>(price.edge);
            if (edge >= places.size() || places[edge].edge < 0) continue;
            reduced[demand].push_back({places[edge].edge, price.price, price.backwards != places[edge].turned});
        }
    }
    for (std::vector<EdgePrice>& of_demand : reduced)
        add_up(of_demand);
    return reduced;
}

}  // namespace spadework::graph
