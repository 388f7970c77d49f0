// Re-walks a plan with code of its own: nothing here is shared with what finds plans but the meaning of units.

#include <algorithm>

#include "graph/saturating.hpp"
#include "graph/two_level_figures.hpp"
#include "graph/two_level_solver.hpp"

namespace spadework::graph {

namespace {

/// Walks paths, adds up what they pay, and remembers which edges they opened.
class Walker {
public:
    explicit Walker(const TwoLevelProblem& problem)
        : problem_(problem), opened_(problem.edges.size(), 0), last_visit_(problem.vertex_count, -1) {}

    /// False when the edges do not lead from one vertex to the other or pass a vertex twice.
    bool walk(VertexId from, VertexId to, const std::vector<EdgeId>& path, pair_routes::Charge charge) {
        ++visit_;
        last_visit_[from] = visit_;
        for (const EdgeId id : path) {
            if (id < 0 || static_cast<std::size_t>(id) >= problem_.edges.size()) return false;
            const SharedCostEdge& edge = problem_.edges[id];
            if (edge.tail != from && edge.head != from) return false;
            from = edge.tail == from ? edge.head : edge.tail;
            if (last_visit_[from] == visit_) return false;
            last_visit_[from] = visit_;
            total += static_cast<WideCost>(charge.weight) * edge.length;
            total += static_cast<WideCost>(charge.multiplicity) * edge.passage;
            if (!opened_[id]) total += edge.opening;
            opened_[id] = 1;
        }
        return from == to;
    }

    WideCost total = 0;

private:
    const TwoLevelProblem& problem_;
    std::vector<char> opened_;
    std::vector<std::int32_t> last_visit_;
    std::int32_t visit_ = -1;
};

bool walk_feeders(const TwoLevelProblem& problem, const TwoLevelPlan& plan, Walker& walker) {
    std::vector<WideCost> units(plan.open.size(), 0);
    for (std::size_t d = 0; d < problem.demands.size(); ++d) {
        if (plan.served_by[d] >= 0) units[plan.served_by[d]] += problem.demands[d].units;
    }
    for (std::size_t k = 0; k < plan.open.size(); ++k) {
        const TwoLevelPlan::OpenSite& open = plan.open[k];
        if (open.site < 0 || static_cast<std::size_t>(open.site) >= problem.sites.size()) return false;
        if (k > 0 && plan.open[k - 1].site >= open.site) return false;
        if (open.size < 0 || static_cast<std::size_t>(open.size) >= problem.sizes.size()) return false;
        const FeederSize& size = problem.sizes[open.size];
        if (units_needed(problem, saturated(units[k])) > size.units) return false;
        const Site& site = problem.sites[open.site];
        walker.total += static_cast<WideCost>(site.cost) + size.fixed + two_level::feeder_extra(site, open.size);
        if (!walker.walk(problem.source, site.at, open.feeder, {size.weight, size.multiplicity})) return false;
    }
    return true;
}

bool walk_demands(const TwoLevelProblem& problem, const TwoLevelPlan& plan, Walker& walker) {
    for (std::size_t d = 0; d < problem.demands.size(); ++d) {
        const TwoLevelDemand& demand = problem.demands[d];
        const std::int32_t by = plan.served_by[d];
        if (by < 0 && !demand.direct) return false;
        const VertexId from = by < 0 ? problem.source : problem.sites[plan.open[by].site].at;
        const auto charge = by < 0 ? two_level::direct_charge(*demand.direct) : two_level::service_charge(demand);
        if (by < 0) walker.total += demand.direct->fixed;
        if (!walker.walk(from, demand.at, plan.paths[d], charge)) return false;
    }
    return true;
}

}  // namespace

std::optional<Cost> cost_of(const TwoLevelProblem& problem, const TwoLevelPlan& plan) {
    if (!two_level::well_formed(problem)) return std::nullopt;
    if (plan.served_by.size() != problem.demands.size() || plan.paths.size() != problem.demands.size()) {
        return std::nullopt;
    }
    const auto count = static_cast<std::int64_t>(plan.open.size());
    if (count < problem.fewest_sites || count > problem.most_sites) return std::nullopt;
    const auto known = [&](std::int32_t by) { return by >= -1 && by < count; };
    if (!std::all_of(plan.served_by.begin(), plan.served_by.end(), known)) return std::nullopt;
    Walker walker(problem);
    if (!walk_feeders(problem, plan, walker) || !walk_demands(problem, plan, walker)) return std::nullopt;
    return saturated(walker.total);
}

}  // namespace spadework::graph
