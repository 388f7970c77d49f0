#pragma once

// The network of a RingProblem as a search wants it: parts that lead to no stop left out, stretches without a junction
// drawn together, bridges marked.

#include <optional>
#include <span>
#include <vector>

#include "graph/hop_charge.hpp"
#include "graph/ring_problem.hpp"

namespace spadework::graph::rings {

/// One way of using a link: what opening it costs, what every cable on it pays, and the edges, tail's end first.
struct LinkWay {
    Cost opening = 0;
    Cost charge = 0;
    std::vector<EdgeId> edges;
};

/// One cut, or several in a row with no junction between them, which are used all together.
struct Link {
    VertexId tail = 0;
    VertexId head = 0;
    std::vector<LinkWay> ways;  ///< At least one.
    bool bridge = false;
    Length span = 0;

    /// The least that so many cables on the link cost, all by one way, which is how they cost least.
    [[nodiscard]] Cost cost(std::int64_t cables) const;
    /// Which way that is; the first of equals.
    [[nodiscard]] std::size_t cheapest_way(std::int64_t cables) const;
};

struct LinkStep {
    VertexId to = 0;
    std::int32_t link = 0;
    std::int8_t along = 1;  ///< 1 from the link's tail to its head, -1 against that.
    bool bridge = false;
};

/// Vertices are numbered anew, those left over only.
struct LinkNetwork {
    VertexId vertex_count = 0;
    std::vector<Link> links;
    VertexId source = 0;
    std::vector<VertexId> stops;        ///< Parallel to the problem's.
    std::vector<std::int32_t> part;     ///< For each vertex: vertices in one part stay joined whatever is cut.
    std::vector<std::int32_t> part_up;  ///< For each part the one next to it on the way to the source; -1 there.
    std::vector<std::int32_t> depth;    ///< For each part the number of bridges to the source.
    Length longest_hop = kAnyLength;    ///< Most that the links of one hop may span together.

    [[nodiscard]] std::span<const LinkStep> from(VertexId v) const {
        return {steps.data() + first[v], static_cast<std::size_t>(first[v + 1] - first[v])};
    }
    /// The part where the ways of two parts to the source meet.
    [[nodiscard]] std::int32_t meeting(std::int32_t a, std::int32_t b) const;

    std::vector<std::int32_t> first;
    std::vector<LinkStep> steps;
};

/// Lists the steps that links make from each vertex.
void list_steps(LinkNetwork& network);

/// Nothing when some stop cannot be reached from the source. The problem is well formed.
std::optional<LinkNetwork> link_network(const RingProblem& problem);

}  // namespace spadework::graph::rings
