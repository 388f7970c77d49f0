#include "support/flow_model.hpp"

#include <cstdint>
#include <iterator>

#include <fmt/format.h>

namespace spadework::bench {

namespace {

class FlowModel {
public:
    FlowModel(const graph::SharedCostProblem& problem, OpeningVariables variables)
        : problem_(problem), each_direction_(variables == OpeningVariables::each_direction) {}

    std::string text() {
        text_ = "NAME flow FREE\nROWS\n N cost\n";
        for_each_demand([&](std::size_t d) { add_rows(d); });
        text_ += "COLUMNS\n m1 'MARKER' 'INTORG'\n";
        for (std::size_t e = 0; e < problem_.edges.size(); ++e) {
            add_opening(e, 0);
            if (each_direction_) add_opening(e, 1);
        }
        text_ += " m2 'MARKER' 'INTEND'\n";
        for_each_demand([&](std::size_t d) { add_flows(d); });
        text_ += "RHS\n";
        for_each_demand([&](std::size_t d) { add_supply(d); });
        text_ += "BOUNDS\n";
        for (std::size_t e = 0; e < problem_.edges.size(); ++e) {
            put(" BV b y{}_0\n", e);
            if (each_direction_) put(" BV b y{}_1\n", e);
        }
        return text_ + "ENDATA\n";
    }

private:
    template <class... Values>
    void put(fmt::string_view form, const Values&... values) {
        fmt::vformat_to(std::back_inserter(text_), form, fmt::make_format_args(values...));
    }

    template <class Do>
    void for_each_demand(Do action) {
        for (std::size_t d = 0; d < problem_.demands.size(); ++d) {
            if (problem_.demands[d].at != root()) action(d);
        }
    }

    [[nodiscard]] graph::VertexId root() const { return problem_.roots.front().at; }

    /// Flow leaving less flow arriving at each vertex, and the opening that each arc needs.
    void add_rows(std::size_t d) {
        for (graph::VertexId v = 0; v < problem_.vertex_count; ++v)
            put(" E n{}_{}\n", d, v);
        for (std::size_t e = 0; e < problem_.edges.size(); ++e)
            put(" L u{0}_{1}_0\n L u{0}_{1}_1\n", d, e);
    }

    void add_opening(std::size_t e, int direction) {
        put(" y{}_{} cost {}\n", e, direction, problem_.edges[e].opening);
        for_each_demand([&](std::size_t d) {
            put(" y{}_{} u{}_{}_{} -1\n", e, direction, d, e, direction);
            if (!each_direction_) put(" y{}_0 u{}_{}_1 -1\n", e, d, e);
        });
    }

    void add_flows(std::size_t d) {
        const graph::Demand& demand = problem_.demands[d];
        for (std::size_t e = 0; e < problem_.edges.size(); ++e) {
            const graph::SharedCostEdge& edge = problem_.edges[e];
            if (edge.tail == edge.head) continue;
            const std::int64_t charge = demand.weight * edge.length + demand.multiplicity * edge.passage;
            for (int direction = 0; direction < 2; ++direction) {
                const graph::VertexId from = direction == 0 ? edge.tail : edge.head;
                const graph::VertexId to = direction == 0 ? edge.head : edge.tail;
                put(" x{0}_{1}_{2} cost {3} u{0}_{1}_{2} 1\n", d, e, direction, charge);
                put(" x{0}_{1}_{2} n{0}_{3} 1 n{0}_{4} -1\n", d, e, direction, from, to);
            }
        }
    }

    void add_supply(std::size_t d) { put(" r n{0}_{1} 1 n{0}_{2} -1\n", d, root(), problem_.demands[d].at); }

    const graph::SharedCostProblem& problem_;
    bool each_direction_;
    std::string text_;
};

}  // namespace

std::string flow_model_mps(const graph::SharedCostProblem& problem, OpeningVariables variables) {
    return FlowModel(problem, variables).text();
}

}  // namespace spadework::bench
