#include <fmt/format.h>

#include "certificate/reader.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

/// Small enough for a product of two and a sum of such products in 128 bits.
constexpr Range costs{0, std::int64_t{1} << 62U};
constexpr Range any_money{-1'000'000'000'000'000'000, 1'000'000'000'000'000'000};
constexpr std::int64_t most_units_a_minor = 1'000'000'000;
constexpr std::int64_t most_parts = std::int64_t{1} << 40U;

/// A place that the site gives already.
void expect_place(const JsonValue& value, const Scenario& scenario, PlaceIndex place, Problems& problems) {
    const std::string& id = scenario.places[static_cast<std::size_t>(place)].id;
    if (text(value, problems) != id) problems.add(value, in_words(value), "'" + id + "', as in the site");
}

CertifiedEdge read_edge(const JsonValue& value, const Scenario& scenario, Problems& problems) {
    const Fields fields(value, {"segment", "way", "from", "to", "opening", "length", "passage", "room", "room_price"},
                        problems);
    CertifiedEdge edge;
    edge.segment = index_of_sorted(fields["segment"], scenario.segments, "a segment", problems);
    edge.way = static_cast<int>(whole(fields["way"], {0, 1'000'000}, problems));
    edge.opening = whole(fields["opening"], costs, problems);
    edge.length = whole(fields["length"], costs, problems);
    edge.passage = whole(fields["passage"], costs, problems);
    edge.room = static_cast<int>(whole(fields["room"], {-1, 1'000'000}, problems));
    edge.room_price = whole(fields["room_price"], costs, problems);
    const Segment& segment = scenario.segments[static_cast<std::size_t>(edge.segment)];
    expect_place(fields["from"], scenario, segment.from, problems);
    expect_place(fields["to"], scenario, segment.to, problems);
    return edge;
}

/// A building each, in the site's order; then, where there is one more, the hub.
void read_demands(const JsonValue& value, const Scenario& scenario, RoutesEvidence& evidence, Problems& problems) {
    const std::vector<JsonValue>& list = items(value, problems);
    const std::size_t buildings = scenario.buildings.size();
    if (list.size() != buildings && list.size() != buildings + 1) {
        problems.add(value, in_words(value),
                     fmt::format("{} buildings, and the hub where there is a trunk", buildings));
        return;
    }
    for (std::size_t d = 0; d < list.size(); ++d) {
        const Fields fields(list[d], {"building", "at", "weight", "multiplicity"}, problems);
        const JsonValue& building = fields["building"];
        const bool right = d < buildings ? building.text == scenario.buildings[d].id : building.kind == JsonKind::null;
        if (!right) {
            problems.add(list[d], "a demand of " + in_words(building),
                         d < buildings ? "building '" + scenario.buildings[d].id + "'" : "null, for the hub");
        }
        const PlaceIndex at = d < buildings ? scenario.buildings[d].place : scenario.hub.place;
        expect_place(fields["at"], scenario, at, problems);
        evidence.demands.push_back(
            {at, whole(fields["weight"], costs, problems), whole(fields["multiplicity"], costs, problems)});
    }
}

void read_roots(const JsonValue& value, const Scenario& scenario, RoutesEvidence& evidence, Problems& problems) {
    for (const JsonValue& item : items(value, problems)) {
        const Fields fields(item, {"at", "cost"}, problems);
        evidence.roots.push_back({index_of_sorted(fields["at"], scenario.places, "a place", problems),
                                  whole(fields["cost"], costs, problems)});
    }
}

std::vector<graph::EdgePrice> read_price_list(const JsonValue& value, std::size_t edges, Problems& problems) {
    const std::vector<std::int64_t> list = numbers(value, costs, problems);
    std::vector<graph::EdgePrice> prices;
    if (list.size() % 3 != 0) problems.add(value, in_words(value), "triples of edge, direction and price");
    for (std::size_t i = 0; i + 2 < list.size(); i += 3) {
        if (list[i] >= static_cast<std::int64_t>(edges) || list[i + 1] > 1) {
            problems.add(value, fmt::format("edge {}, direction {}", list[i], list[i + 1]),
                         fmt::format("edges from 0 to {}, directions 0 or 1", edges));
            return {};
        }
        prices.push_back({static_cast<graph::EdgeId>(list[i]), list[i + 2], list[i + 1] == 1});
    }
    return prices;
}

graph::EdgePriceSet read_price_set(const JsonValue& value, std::size_t edges, std::size_t demands, Problems& problems) {
    graph::EdgePriceSet prices;
    for (const JsonValue& list : items(value, problems))
        prices.push_back(read_price_list(list, edges, problems));
    if (prices.size() != demands) {
        problems.add(value, in_words(value), fmt::format("a list for each of {} demands", demands));
    }
    return prices;
}

std::vector<CertifiedEdge> read_edges(const JsonValue& value, const Scenario& scenario, Problems& problems) {
    std::vector<CertifiedEdge> edges;
    for (const JsonValue& edge : items(value, problems))
        edges.push_back(read_edge(edge, scenario, problems));
    return edges;
}

/// Pairs of edge and whether it is used.
std::vector<graph::EdgeChoice> read_choices(const JsonValue& value, std::size_t edges, Problems& problems) {
    const std::vector<std::int64_t> list = numbers(value, {0, 1'000'000'000}, problems);
    std::vector<graph::EdgeChoice> choices;
    if (list.size() % 2 != 0) problems.add(value, in_words(value), "pairs of edge and 1 where it is used, else 0");
    for (std::size_t i = 0; i + 1 < list.size(); i += 2) {
        if (list[i] >= static_cast<std::int64_t>(edges) || list[i + 1] > 1) {
            problems.add(value, fmt::format("edge {}, use {}", list[i], list[i + 1]),
                         fmt::format("edges from 0 to {}, uses 0 or 1", edges - 1));
            return {};
        }
        choices.push_back({static_cast<graph::EdgeId>(list[i]), list[i + 1] == 1});
    }
    return choices;
}

void read_splits(const JsonValue& value, RoutesEvidence& evidence, Problems& problems) {
    if (value.kind == JsonKind::null) return;
    for (const JsonValue& item : items(value, problems)) {
        const Fields fields(item, {"choices", "parts", "prices"}, problems);
        graph::PartProof part;
        part.choices = read_choices(fields["choices"], evidence.edges.size(), problems);
        part.parts = whole(fields["parts"], {1, most_parts}, problems);
        part.prices = read_price_set(fields["prices"], evidence.edges.size(), evidence.demands.size(), problems);
        evidence.splits.push_back(std::move(part));
    }
}

RoutesEvidence read_evidence(const JsonValue& value, const Scenario& scenario, Problems& problems) {
    const Fields fields(value, {"constant", "units_a_minor", "edges", "demands", "roots", "parts", "prices"}, problems,
                        {"splits"});
    RoutesEvidence evidence;
    evidence.constant = Money::from_minor(whole(fields["constant"], any_money, problems));
    evidence.units_a_minor = whole(fields["units_a_minor"], {1, most_units_a_minor}, problems);
    evidence.edges = read_edges(fields["edges"], scenario, problems);
    read_demands(fields["demands"], scenario, evidence, problems);
    read_roots(fields["roots"], scenario, evidence, problems);
    evidence.parts = whole(fields["parts"], {1, most_parts}, problems);
    for (const JsonValue& set : items(fields["prices"], problems)) {
        evidence.prices.push_back(read_price_set(set, evidence.edges.size(), evidence.demands.size(), problems));
    }
    read_splits(fields["splits"], evidence, problems);
    return evidence;
}

std::vector<std::int32_t> read_positions(const JsonValue& value, Problems& problems) {
    const std::vector<std::int64_t> stops = numbers(value, {0, 1'000'000'000}, problems);
    return {stops.begin(), stops.end()};
}

std::vector<std::vector<std::int32_t>> read_neighbours(const JsonValue& value, Problems& problems) {
    std::vector<std::vector<std::int32_t>> all;
    for (const JsonValue& list : items(value, problems))
        all.push_back(read_positions(list, problems));
    return all;
}

std::vector<graph::EntryPrice> read_entries(const JsonValue& value, Problems& problems) {
    std::vector<graph::EntryPrice> entries;
    for (const JsonValue& item : items(value, problems)) {
        const Fields fields(item, {"buildings", "price"}, problems);
        entries.push_back({read_positions(fields["buildings"], problems), whole(fields["price"], costs, problems)});
    }
    return entries;
}

ChainEvidence read_chains(const JsonValue& value, const Scenario& scenario, Problems& problems) {
    const Fields fields(value,
                        {"constant", "units_a_minor", "edges", "weight", "multiplicity", "chain_cost", "end_saving",
                         "parts", "hop_charges", "joining_prices", "arrival_prices", "closing_prices", "pass_charges",
                         "visit_prices", "entry_prices", "neighbours"},
                        problems);
    ChainEvidence evidence;
    evidence.constant = Money::from_minor(whole(fields["constant"], any_money, problems));
    evidence.units_a_minor = whole(fields["units_a_minor"], {1, most_units_a_minor}, problems);
    evidence.edges = read_edges(fields["edges"], scenario, problems);
    evidence.weight = whole(fields["weight"], costs, problems);
    evidence.multiplicity = whole(fields["multiplicity"], costs, problems);
    evidence.chain_cost = whole(fields["chain_cost"], costs, problems);
    evidence.end_saving = whole(fields["end_saving"], costs, problems);
    evidence.proof.parts = whole(fields["parts"], {1, most_parts}, problems);
    evidence.proof.hop_charges = numbers(fields["hop_charges"], costs, problems);
    const std::size_t edges = evidence.edges.size();
    const std::size_t stops = scenario.buildings.size();
    evidence.proof.joining_prices = read_price_set(fields["joining_prices"], edges, stops, problems);
    evidence.proof.arrival_prices = read_price_set(fields["arrival_prices"], edges, stops, problems);
    if (!items(fields["closing_prices"], problems).empty()) {
        evidence.proof.closing_prices = read_price_set(fields["closing_prices"], edges, stops, problems);
    }
    evidence.proof.pass_charges = numbers(fields["pass_charges"], costs, problems);
    evidence.proof.visit_prices = numbers(fields["visit_prices"], {-costs.most, costs.most}, problems);
    evidence.proof.entry_prices = read_entries(fields["entry_prices"], problems);
    evidence.proof.neighbours = read_neighbours(fields["neighbours"], problems);
    return evidence;
}

void read_trunk_demands(const JsonValue& value, const Scenario& scenario, TrunkEvidence& evidence, Problems& problems) {
    const std::vector<JsonValue>& list = items(value, problems);
    if (list.size() != scenario.buildings.size()) {
        return problems.add(value, in_words(value), fmt::format("{} buildings", scenario.buildings.size()));
    }
    for (std::size_t d = 0; d < list.size(); ++d) {
        const Building& building = scenario.buildings[d];
        const Fields fields(list[d], {"building", "at", "weight", "multiplicity", "home_run"}, problems);
        if (fields["building"].text != building.id) {
            problems.add(list[d], "a demand of " + in_words(fields["building"]), "building '" + building.id + "'");
        }
        expect_place(fields["at"], scenario, building.place, problems);
        graph::TwoLevelDemand demand;
        demand.at = building.place;
        demand.weight = whole(fields["weight"], costs, problems);
        demand.multiplicity = whole(fields["multiplicity"], costs, problems);
        demand.units = strands_in_use(building, scenario.rules);
        if (fields["home_run"].kind != JsonKind::null) {
            const graph::Cost fixed = whole(fields["home_run"], {-costs.most, costs.most}, problems);
            demand.direct = graph::DirectService{demand.weight, demand.multiplicity, fixed};
        }
        evidence.demands.push_back(demand);
    }
}

void read_sites(const JsonValue& value, const Scenario& scenario, TrunkEvidence& evidence, Problems& problems) {
    for (const JsonValue& item : items(value, problems)) {
        const Fields fields(item, {"at", "cost", "size_costs", "ask"}, problems);
        evidence.sites.push_back({index_of_sorted(fields["at"], scenario.places, "a place", problems),
                                  whole(fields["cost"], costs, problems),
                                  numbers(fields["size_costs"], costs, problems)});
        evidence.proof.asks.push_back(whole(fields["ask"], {-costs.most, costs.most}, problems));
    }
}

void read_sizes(const JsonValue& value, TrunkEvidence& evidence, Problems& problems) {
    for (const JsonValue& item : items(value, problems)) {
        const Fields fields(item, {"units", "weight", "multiplicity", "fixed"}, problems);
        evidence.sizes.push_back(
            {whole(fields["units"], {0, 1'000'000'000}, problems), whole(fields["weight"], costs, problems),
             whole(fields["multiplicity"], costs, problems), whole(fields["fixed"], costs, problems)});
    }
}

graph::TwoLevelCertificate::SitesProof read_set(const JsonValue& value, Problems& problems) {
    constexpr Range positions{0, 1'000'000'000};
    const Fields fields(value, {"sites", "units", "asks", "prices"}, problems);
    graph::TwoLevelCertificate::SitesProof set;
    const std::vector<std::int64_t> sites = numbers(fields["sites"], positions, problems);
    set.sites.assign(sites.begin(), sites.end());
    const std::vector<std::int64_t> units = numbers(fields["units"], positions, problems);
    if (units.size() % 2 != 0) problems.add(fields["units"], in_words(fields["units"]), "least and most for each site");
    for (std::size_t i = 0; i + 1 < units.size(); i += 2)
        set.units.push_back({units[i], units[i + 1]});
    set.asks = numbers(fields["asks"], {-costs.most, costs.most}, problems);
    set.prices = static_cast<std::int32_t>(whole(fields["prices"], positions, problems));
    return set;
}

TrunkEvidence read_trunks(const JsonValue& value, const Scenario& scenario, Problems& problems) {
    const Fields fields(value,
                        {"constant", "units_a_minor", "edges", "demands", "sites", "sizes", "parts", "prices", "sets"},
                        problems);
    TrunkEvidence evidence;
    evidence.constant = Money::from_minor(whole(fields["constant"], any_money, problems));
    evidence.units_a_minor = whole(fields["units_a_minor"], {1, most_units_a_minor}, problems);
    evidence.edges = read_edges(fields["edges"], scenario, problems);
    read_trunk_demands(fields["demands"], scenario, evidence, problems);
    read_sites(fields["sites"], scenario, evidence, problems);
    read_sizes(fields["sizes"], evidence, problems);
    evidence.proof.parts = whole(fields["parts"], {1, most_parts}, problems);
    for (const JsonValue& set : items(fields["prices"], problems)) {
        evidence.proof.prices.push_back(read_price_set(set, evidence.edges.size(), evidence.demands.size(), problems));
    }
    for (const JsonValue& set : items(fields["sets"], problems))
        evidence.proof.sets.push_back(read_set(set, problems));
    return evidence;
}

}  // namespace

BoundCertificate read_proof(const JsonValue& value, const Scenario& scenario, Problems& problems) {
    const Fields fields(value, {"contained_in", "evidence", "trunks", "chains"}, problems);
    BoundCertificate proof;
    if (fields["contained_in"].kind != JsonKind::null) {
        proof.contained_in = read_layout(fields["contained_in"], problems);
    }
    for (const JsonValue& item : items(fields["evidence"], problems))
        proof.routes.push_back(std::make_shared<const RoutesEvidence>(read_evidence(item, scenario, problems)));
    if (fields["trunks"].kind != JsonKind::null) {
        proof.trunks = std::make_shared<const TrunkEvidence>(read_trunks(fields["trunks"], scenario, problems));
    }
    if (fields["chains"].kind != JsonKind::null) {
        proof.chains = std::make_shared<const ChainEvidence>(read_chains(fields["chains"], scenario, problems));
    }
    return proof;
}

}  // namespace spadework::certificate
