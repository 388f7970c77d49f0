#pragma once

// The network while it shrinks: pieces come and go, demands move inwards.

#include <vector>

#include "graph/way_back.hpp"

namespace spadework::graph {

class ShrinkingNetwork {
public:
    /// `kept` marks vertices that must stay as they are (roots).
    ShrinkingNetwork(const SharedCostProblem& problem, std::vector<char> kept);

    void drop_beaten_parallels();
    void shrink_to_forks();

    [[nodiscard]] bool alive(std::int32_t piece) const { return alive_[piece] != 0; }
    [[nodiscard]] const std::vector<Piece>& pieces() const { return pieces_; }
    [[nodiscard]] const std::vector<std::vector<std::int32_t>>& demands_at() const { return demands_at_; }
    [[nodiscard]] const std::vector<DemandFate>& fates() const { return fates_; }
    [[nodiscard]] const std::vector<ForcedPiece>& forced() const { return forced_; }

private:
    void visit(VertexId vertex);
    void cut_leaf(VertexId leaf);
    void join_through(VertexId vertex);
    void add_piece(Piece piece);
    void settle_parallels(std::int32_t added);
    void beat(std::int32_t winner, std::int32_t loser);
    void remove(std::int32_t piece);
    void look_again(VertexId vertex);
    std::vector<std::int32_t>& live_pieces_at(VertexId vertex);
    [[nodiscard]] VertexId across(std::int32_t piece, VertexId from) const {
        return pieces_[piece].tail == from ? pieces_[piece].head : pieces_[piece].tail;
    }

    std::vector<Piece> pieces_;
    std::vector<char> alive_;
    std::vector<std::vector<std::int32_t>> pieces_at_;
    std::vector<std::int32_t> degree_;
    std::vector<char> kept_;
    std::vector<std::vector<std::int32_t>> demands_at_;
    std::vector<DemandFate> fates_;
    std::vector<ForcedPiece> forced_;
    std::vector<VertexId> to_visit_;
};

}  // namespace spadework::graph
