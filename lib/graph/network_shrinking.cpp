#include "graph/network_shrinking.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace spadework::graph {

namespace {

/// Parallel pieces looked at when a new one appears; more are left as they are.
constexpr std::size_t kParallelsLookedAt = 64;

/// Parallel pieces that an edge is compared with when all edges are sorted.
constexpr std::size_t kRivals = 8;

bool no_worse(const Piece& a, const Piece& b) {
    return a.opening <= b.opening && a.length <= b.length && a.passage <= b.passage;
}

std::pair<VertexId, VertexId> ends(const Piece& piece) {
    return std::minmax(piece.tail, piece.head);
}

}  // namespace

ShrinkingNetwork::ShrinkingNetwork(const SharedCostProblem& problem, std::vector<char> kept)
    : pieces_at_(problem.vertex_count),
      degree_(problem.vertex_count, 0),
      kept_(std::move(kept)),
      demands_at_(problem.vertex_count),
      fates_(problem.demands.size()) {
    for (std::size_t e = 0; e < problem.edges.size(); ++e) {
        const SharedCostEdge& edge = problem.edges[e];
        Piece piece{edge.tail, edge.head, edge.opening, edge.length, edge.passage};
        piece.original = static_cast<EdgeId>(e);
        add_piece(piece);
    }
    for (std::size_t d = 0; d < problem.demands.size(); ++d) {
        demands_at_[problem.demands[d].at].push_back(static_cast<std::int32_t>(d));
    }
}

void ShrinkingNetwork::add_piece(Piece piece) {
    const auto id = static_cast<std::int32_t>(pieces_.size());
    pieces_.push_back(piece);
    alive_.push_back(piece.tail != piece.head);
    if (piece.tail == piece.head) return;
    for (const VertexId end : {piece.tail, piece.head}) {
        pieces_at_[end].push_back(id);
        ++degree_[end];
    }
}

void ShrinkingNetwork::remove(std::int32_t piece) {
    alive_[piece] = 0;
    for (const VertexId end : {pieces_[piece].tail, pieces_[piece].head}) {
        --degree_[end];
        look_again(end);
    }
}

void ShrinkingNetwork::beat(std::int32_t winner, std::int32_t loser) {
    remove(loser);
    pieces_[loser].beaten_turned = pieces_[loser].tail != pieces_[winner].tail;
    pieces_[loser].next_beaten = pieces_[winner].beaten;
    pieces_[winner].beaten = loser;
}

void ShrinkingNetwork::look_again(VertexId vertex) {
    if (degree_[vertex] <= 2) to_visit_.push_back(vertex);
}

std::vector<std::int32_t>& ShrinkingNetwork::live_pieces_at(VertexId vertex) {
    std::vector<std::int32_t>& list = pieces_at_[vertex];
    list.erase(std::remove_if(list.begin(), list.end(), [this](std::int32_t p) { return !alive_[p]; }), list.end());
    return list;
}

void ShrinkingNetwork::drop_beaten_parallels() {
    std::vector<std::int32_t> order;
    for (std::size_t p = 0; p < pieces_.size(); ++p) {
        if (alive_[p]) order.push_back(static_cast<std::int32_t>(p));
    }
    const auto rank = [this](std::int32_t p) {
        return std::tuple(ends(pieces_[p]), pieces_[p].opening, pieces_[p].length, pieces_[p].passage, p);
    };
    std::sort(order.begin(), order.end(), [&](auto a, auto b) { return rank(a) < rank(b); });
    std::vector<std::int32_t> rivals;
    for (const std::int32_t p : order) {
        if (!rivals.empty() && ends(pieces_[rivals.back()]) != ends(pieces_[p])) rivals.clear();
        const auto winner =
            std::find_if(rivals.begin(), rivals.end(), [&](auto r) { return no_worse(pieces_[r], pieces_[p]); });
        if (winner != rivals.end()) {
            beat(*winner, p);
        } else if (rivals.size() < kRivals) {
            rivals.push_back(p);
        }
    }
}

void ShrinkingNetwork::shrink_to_forks() {
    to_visit_.clear();
    for (std::size_t v = degree_.size(); v-- > 0;)
        look_again(static_cast<VertexId>(v));
    while (!to_visit_.empty()) {
        const VertexId vertex = to_visit_.back();
        to_visit_.pop_back();
        visit(vertex);
    }
}

void ShrinkingNetwork::visit(VertexId vertex) {
    if (kept_[vertex]) return;
    if (degree_[vertex] == 1) cut_leaf(vertex);
    if (degree_[vertex] == 2 && demands_at_[vertex].empty()) join_through(vertex);
}

void ShrinkingNetwork::cut_leaf(VertexId leaf) {
    const std::int32_t piece = live_pieces_at(leaf).front();
    const VertexId inner = across(piece, leaf);
    std::vector<std::int32_t> moving = std::exchange(demands_at_[leaf], {});
    const PieceUse use{piece, pieces_[piece].tail != inner};
    for (const std::int32_t d : moving)
        fates_[d].lead_in.push_back(use);
    if (!moving.empty()) forced_.push_back({use, moving.front()});
    std::vector<std::int32_t>& there = demands_at_[inner];
    there.insert(there.end(), moving.begin(), moving.end());
    remove(piece);
}

void ShrinkingNetwork::join_through(VertexId vertex) {
    const std::vector<std::int32_t>& both = live_pieces_at(vertex);
    const std::int32_t first = both[0];
    const std::int32_t second = both[1];
    const VertexId from = across(first, vertex);
    const VertexId to = across(second, vertex);
    Piece chain;
    chain.tail = from;
    chain.head = to;
    chain.opening = add(pieces_[first].opening, pieces_[second].opening);
    chain.length = add(pieces_[first].length, pieces_[second].length);
    chain.passage = add(pieces_[first].passage, pieces_[second].passage);
    chain.first = first;
    chain.second = second;
    chain.first_turned = pieces_[first].tail != from;
    chain.second_turned = pieces_[second].head != to;
    remove(first);
    remove(second);
    if (from == to) return;
    add_piece(chain);
    settle_parallels(static_cast<std::int32_t>(pieces_.size()) - 1);
}

void ShrinkingNetwork::settle_parallels(std::int32_t added) {
    const auto [a, b] = ends(pieces_[added]);
    const VertexId less_met = degree_[a] <= degree_[b] ? a : b;
    const std::vector<std::int32_t>& around = live_pieces_at(less_met);
    const std::size_t looked_at = std::min(around.size(), kParallelsLookedAt);
    for (std::size_t i = 0; i < looked_at; ++i) {
        const std::int32_t other = around[i];
        if (other == added || !alive_[other] || ends(pieces_[other]) != ends(pieces_[added])) continue;
        if (no_worse(pieces_[other], pieces_[added])) return beat(other, added);
        if (no_worse(pieces_[added], pieces_[other])) beat(added, other);
    }
}

}  // namespace spadework::graph
