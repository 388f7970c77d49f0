#include "layout/cable_pieces.hpp"

#include <algorithm>

#include "layout/cable_choice.hpp"

namespace spadework {

namespace {

constexpr int most_extra_strands = 64;

int room_left(const Scenario& scenario, const CablePiece& piece) {
    return scenario.catalogue.cables[static_cast<std::size_t>(piece.product)].strands - piece.need.total();
}

/// Puts each link into the first piece with room for all its strands; false when one does not fit.
bool place_links(const Scenario& scenario, std::vector<CablePiece>& pieces, int links, int strands) {
    for (int link = 0; link < links; ++link) {
        const auto fits = [&](const CablePiece& piece) { return room_left(scenario, piece) >= strands; };
        const auto piece = std::find_if(pieces.begin(), pieces.end(), fits);
        if (piece == pieces.end()) return false;
        piece->links.push_back(link);
        piece->need.in_use += strands;
    }
    return true;
}

/// Spreads strands that no link needs yet over what room is left, in order.
void place_rest(const Scenario& scenario, std::vector<CablePiece>& pieces, int strands, int StrandNeed::*kind) {
    for (CablePiece& piece : pieces) {
        const int here = std::min(strands, room_left(scenario, piece));
        piece.need.*kind += here;
        strands -= here;
    }
}

}  // namespace

std::optional<std::vector<CablePiece>> pieces_for(const Scenario& scenario, StrandNeed need, int links, Length route,
                                                  Money passage) {
    const int strands = strands_per_link(scenario.rules.strand_use);
    for (int extra = 0; extra <= most_extra_strands; ++extra) {
        const auto products = cheapest_cables(scenario, need.total() + extra, route, passage);
        if (!products) return std::nullopt;
        std::vector<CablePiece> pieces;
        for (const int product : *products)
            pieces.push_back({product, {}, {}});
        if (!place_links(scenario, pieces, links, strands)) continue;
        place_rest(scenario, pieces, need.spare, &StrandNeed::spare);
        place_rest(scenario, pieces, need.headroom, &StrandNeed::headroom);
        return pieces;
    }
    return std::nullopt;
}

}  // namespace spadework
