#include "graph/ring_links.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace spadework::graph::rings {

namespace {

bool dominated(const LinkWay& way, const std::vector<LinkWay>& ways) {
    return std::any_of(ways.begin(), ways.end(), [&](const LinkWay& other) {
        return other.opening <= way.opening && other.charge <= way.charge;
    });
}

/// One link for each cut, loops left out.
std::vector<Link> links_of_cuts(const RingProblem& problem) {
    std::map<std::int32_t, std::size_t> place;
    std::vector<Link> links;
    for (std::size_t e = 0; e < problem.edges.size(); ++e) {
        const SharedCostEdge& edge = problem.edges[e];
        if (edge.tail == edge.head) continue;
        const auto [entry, fresh] = place.try_emplace(problem.cut_of[e], links.size());
        if (fresh) links.push_back({edge.tail, edge.head, {}, false, problem.span_of.empty() ? 0 : problem.span_of[e]});
        std::vector<LinkWay>& ways = links[entry->second].ways;
        LinkWay way{
            edge.opening, problem.weight * edge.length + problem.multiplicity * edge.passage, {static_cast<EdgeId>(e)}};
        if (!dominated(way, ways)) ways.push_back(std::move(way));
    }
    return links;
}

/// Links by their ends, while links come and go.
class Meeting {
public:
    Meeting(VertexId vertex_count, const std::vector<Link>& links)
        : at_(static_cast<std::size_t>(vertex_count)), links_(links) {
        for (std::size_t l = 0; l < links.size(); ++l)
            add(static_cast<std::int32_t>(l));
    }
    void add(std::int32_t link) {
        at_[links_[link].tail].push_back(link);
        at_[links_[link].head].push_back(link);
    }
    void remove(std::int32_t link) {
        std::erase(at_[links_[link].tail], link);
        std::erase(at_[links_[link].head], link);
    }
    [[nodiscard]] const std::vector<std::int32_t>& at(VertexId v) const { return at_[v]; }
    [[nodiscard]] VertexId across(std::int32_t link, VertexId v) const {
        return links_[link].tail == v ? links_[link].head : links_[link].tail;
    }

private:
    std::vector<std::vector<std::int32_t>> at_;
    const std::vector<Link>& links_;
};

/// Depth-first search from the source: order of discovery, how far back each subtree reaches, stops in each subtree.
/// A tree link is a bridge when nothing below it reaches above it (Tarjan 1974).
class BridgeSearch {
public:
    BridgeSearch(const RingProblem& problem, const Meeting& meeting, std::size_t link_count)
        : meeting_(meeting),
          found_(problem.vertex_count, -1),
          back_(problem.vertex_count, 0),
          stops_below_(problem.vertex_count, 0),
          bridge_(link_count, 0),
          leads_nowhere_(link_count, 0) {
        for (const VertexId stop : problem.stops)
            ++stops_below_[stop];
        run(problem.source);
    }

    [[nodiscard]] bool reached(VertexId v) const { return found_[v] >= 0; }
    [[nodiscard]] bool bridge(std::size_t link) const { return bridge_[link] != 0; }
    /// A bridge with no stop behind it.
    [[nodiscard]] bool leads_nowhere(std::size_t link) const { return leads_nowhere_[link] != 0; }

private:
    struct Frame {
        VertexId at;
        std::int32_t by;
        std::size_t next;
    };

    void run(VertexId source) {
        std::vector<Frame> path{{source, -1, 0}};
        found_[source] = back_[source] = count_++;
        while (!path.empty()) {
            Frame& here = path.back();
            if (here.next == meeting_.at(here.at).size()) {
                const Frame done = here;
                path.pop_back();
                if (!path.empty()) leave(done, path.back().at);
                continue;
            }
            const std::int32_t link = meeting_.at(here.at)[here.next++];
            if (link == here.by) continue;
            const VertexId to = meeting_.across(link, here.at);
            if (found_[to] >= 0) {
                back_[here.at] = std::min(back_[here.at], found_[to]);
                continue;
            }
            found_[to] = back_[to] = count_++;
            path.push_back({to, link, 0});
        }
    }

    void leave(const Frame& done, VertexId above) {
        back_[above] = std::min(back_[above], back_[done.at]);
        stops_below_[above] += stops_below_[done.at];
        if (back_[done.at] <= found_[above]) return;
        bridge_[done.by] = 1;
        leads_nowhere_[done.by] = stops_below_[done.at] == 0;
    }

    const Meeting& meeting_;
    std::vector<std::int32_t> found_;
    std::vector<std::int32_t> back_;
    std::vector<std::int32_t> stops_below_;
    std::vector<char> bridge_;
    std::vector<char> leads_nowhere_;
    std::int32_t count_ = 0;
};

/// Marks bridges and leaves out those that lead nowhere; false when some stop cannot be reached.
bool mark_bridges(const RingProblem& problem, std::vector<Link>& links) {
    const Meeting meeting(problem.vertex_count, links);
    const BridgeSearch search(problem, meeting, links.size());
    for (const VertexId stop : problem.stops) {
        if (!search.reached(stop)) return false;
    }
    std::vector<Link> useful;
    for (std::size_t l = 0; l < links.size(); ++l) {
        links[l].bridge = search.bridge(l);
        if (!search.leads_nowhere(l)) useful.push_back(links[l]);
    }
    links = std::move(useful);
    return true;
}

/// Leaves out what is not joined to the source.
void keep_joined(const RingProblem& problem, std::vector<Link>& links) {
    const Meeting meeting(problem.vertex_count, links);
    std::vector<char> joined(problem.vertex_count, 0);
    std::vector<VertexId> waiting{problem.source};
    joined[problem.source] = 1;
    while (!waiting.empty()) {
        const VertexId v = waiting.back();
        waiting.pop_back();
        for (const std::int32_t link : meeting.at(v)) {
            const VertexId to = meeting.across(link, v);
            if (joined[to]) continue;
            joined[to] = 1;
            waiting.push_back(to);
        }
    }
    std::erase_if(links, [&](const Link& link) { return !joined[link.tail]; });
}

std::vector<EdgeId> edges_from(const Link& link, VertexId start) {
    std::vector<EdgeId> edges = link.ways.front().edges;
    if (link.tail != start) std::reverse(edges.begin(), edges.end());
    return edges;
}

/// Draws pairs of links together that meet where nothing else does, and drops loops, until there are none.
class Drawing {
public:
    Drawing(const RingProblem& problem, std::vector<Link>& links)
        : links_(links), meeting_(problem.vertex_count, links), kept_(problem.vertex_count, 0), gone_(links.size(), 0) {
        kept_[problem.source] = 1;
        for (const VertexId stop : problem.stops)
            kept_[stop] = 1;
    }

    void run() {
        std::vector<VertexId> waiting;
        for (VertexId v = static_cast<VertexId>(kept_.size()); v-- > 0;)
            waiting.push_back(v);
        while (!waiting.empty()) {
            const VertexId v = waiting.back();
            waiting.pop_back();
            if (kept_[v] || meeting_.at(v).size() != 2) continue;
            draw_together(v, waiting);
        }
        std::size_t left = 0;
        for (std::size_t l = 0; l < links_.size(); ++l) {
            if (gone_[l]) continue;
            if (left != l) links_[left] = std::move(links_[l]);
            ++left;
        }
        links_.resize(left);
    }

private:
    void draw_together(VertexId v, std::vector<VertexId>& waiting) {
        const std::int32_t a = meeting_.at(v)[0];
        const std::int32_t b = meeting_.at(v)[1];
        if (links_[a].ways.size() != 1 || links_[b].ways.size() != 1) return;
        const VertexId start = meeting_.across(a, v);
        const VertexId end = meeting_.across(b, v);
        std::vector<EdgeId> edges = edges_from(links_[a], start);
        const std::vector<EdgeId> more = edges_from(links_[b], v);
        edges.insert(edges.end(), more.begin(), more.end());
        const LinkWay way{links_[a].ways[0].opening + links_[b].ways[0].opening,
                          links_[a].ways[0].charge + links_[b].ways[0].charge, std::move(edges)};
        meeting_.remove(a);
        meeting_.remove(b);
        gone_[a] = gone_[b] = 1;
        if (start == end) return waiting.push_back(start);
        links_[a] = {start, end, {way}, links_[a].bridge, links_[a].span + links_[b].span};
        gone_[a] = 0;
        meeting_.add(a);
    }

    std::vector<Link>& links_;
    Meeting meeting_;
    std::vector<char> kept_;
    std::vector<char> gone_;
};

void number_vertices(const RingProblem& problem, LinkNetwork& network) {
    std::vector<VertexId> number(problem.vertex_count, -1);
    const auto numbered = [&](VertexId v) {
        if (number[v] < 0) number[v] = network.vertex_count++;
        return number[v];
    };
    network.source = numbered(problem.source);
    for (const VertexId stop : problem.stops)
        network.stops.push_back(numbered(stop));
    for (Link& link : network.links) {
        link.tail = numbered(link.tail);
        link.head = numbered(link.head);
    }
}

/// Floods each part over links that are no bridges, then goes on over the bridges.
void find_parts(LinkNetwork& network) {
    network.part.assign(network.vertex_count, -1);
    std::vector<std::pair<VertexId, std::int32_t>> entries{{network.source, -1}};
    for (std::size_t i = 0; i < entries.size(); ++i) {
        const auto [entry, up] = entries[i];
        const auto part = static_cast<std::int32_t>(network.part_up.size());
        network.part_up.push_back(up);
        network.depth.push_back(up < 0 ? 0 : network.depth[up] + 1);
        network.part[entry] = part;
        std::vector<VertexId> waiting{entry};
        while (!waiting.empty()) {
            const VertexId v = waiting.back();
            waiting.pop_back();
            for (const LinkStep& step : network.from(v)) {
                if (network.part[step.to] >= 0) continue;
                if (step.bridge) {
                    entries.emplace_back(step.to, part);
                } else {
                    network.part[step.to] = part;
                    waiting.push_back(step.to);
                }
            }
        }
    }
}

}  // namespace

void list_steps(LinkNetwork& network) {
    network.first.assign(static_cast<std::size_t>(network.vertex_count) + 1, 0);
    for (const Link& link : network.links) {
        ++network.first[link.tail + 1];
        ++network.first[link.head + 1];
    }
    for (VertexId v = 0; v < network.vertex_count; ++v)
        network.first[v + 1] += network.first[v];
    network.steps.resize(2 * network.links.size());
    std::vector<std::int32_t> next = network.first;
    for (std::size_t l = 0; l < network.links.size(); ++l) {
        const Link& link = network.links[l];
        network.steps[next[link.tail]++] = {link.head, static_cast<std::int32_t>(l), 1, link.bridge};
        network.steps[next[link.head]++] = {link.tail, static_cast<std::int32_t>(l), -1, link.bridge};
    }
}

std::size_t Link::cheapest_way(std::int64_t cables) const {
    std::size_t best = 0;
    for (std::size_t w = 1; w < ways.size(); ++w) {
        if (ways[w].opening + cables * ways[w].charge < ways[best].opening + cables * ways[best].charge) best = w;
    }
    return best;
}

Cost Link::cost(std::int64_t cables) const {
    if (cables == 0) return 0;
    const LinkWay& way = ways[cheapest_way(cables)];
    return way.opening + cables * way.charge;
}

std::int32_t LinkNetwork::meeting(std::int32_t a, std::int32_t b) const {
    while (a != b) {
        std::int32_t& deeper = depth[a] >= depth[b] ? a : b;
        deeper = part_up[deeper];
    }
    return a;
}

std::optional<LinkNetwork> link_network(const RingProblem& problem) {
    LinkNetwork network;
    network.links = links_of_cuts(problem);
    if (!mark_bridges(problem, network.links)) return std::nullopt;
    keep_joined(problem, network.links);
    Drawing(problem, network.links).run();
    number_vertices(problem, network);
    list_steps(network);
    find_parts(network);
    if (!problem.span_of.empty()) network.longest_hop = problem.longest_hop;
    return network;
}

}  // namespace spadework::graph::rings
