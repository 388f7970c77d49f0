#include "certificate/writer.hpp"

#include "certificate/seal.hpp"
#include "scenario/lookup.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

using report::JsonWriter;
using Shape = JsonWriter::Shape;

const std::string& id_at(const Scenario& scenario, PlaceIndex place) {
    return scenario.places[static_cast<std::size_t>(place)].id;
}

void write_edge(JsonWriter& json, const Scenario& scenario, const CertifiedEdge& edge) {
    json.begin_object(Shape::one_line);
    const Segment& segment = scenario.segments[static_cast<std::size_t>(edge.segment)];
    json.key("segment").text(segment.id);
    json.key("way").whole(edge.way);
    json.key("from").text(id_at(scenario, segment.from));
    json.key("to").text(id_at(scenario, segment.to));
    json.key("opening").whole(edge.opening);
    json.key("length").whole(edge.length);
    json.key("passage").whole(edge.passage);
    json.key("room").whole(edge.room);
    json.key("room_price").whole(edge.room_price);
    json.end();
}

void write_demands(JsonWriter& json, const Scenario& scenario, const std::vector<graph::Demand>& demands) {
    json.key("demands").begin_list();
    for (std::size_t d = 0; d < demands.size(); ++d) {
        json.begin_object(Shape::one_line);
        json.key("building");
        if (d < scenario.buildings.size()) {
            json.text(scenario.buildings[d].id);
        } else {
            json.null();  // The hub, at the other end of a trunk.
        }
        json.key("at").text(id_at(scenario, demands[d].at));
        json.key("weight").whole(demands[d].weight);
        json.key("multiplicity").whole(demands[d].multiplicity);
        json.end();
    }
    json.end();
}

void write_roots(JsonWriter& json, const Scenario& scenario, const std::vector<graph::RootOption>& roots) {
    json.key("roots").begin_list();
    for (const graph::RootOption& root : roots) {
        json.begin_object(Shape::one_line);
        json.key("at").text(id_at(scenario, root.at));
        json.key("cost").whole(root.cost);
        json.end();
    }
    json.end();
}

/// A list of triples for each demand.
void write_price_set(JsonWriter& json, const graph::EdgePriceSet& set) {
    json.begin_list();
    for (const std::vector<graph::EdgePrice>& prices : set) {
        json.begin_list(Shape::one_line);
        for (const graph::EdgePrice& price : prices) {
            json.whole(price.edge);
            json.whole(price.backwards ? 1 : 0);
            json.whole(price.price);
        }
        json.end();
    }
    json.end();
}

template <typename Number>
void write_numbers(JsonWriter& json, const std::vector<Number>& numbers) {
    json.begin_list(Shape::one_line);
    for (const Number number : numbers)
        json.whole(number);
    json.end();
}

void write_edges(JsonWriter& json, const Scenario& scenario, const std::vector<CertifiedEdge>& edges) {
    json.key("edges").begin_list();
    for (const CertifiedEdge& edge : edges)
        write_edge(json, scenario, edge);
    json.end();
}

void write_splits(JsonWriter& json, const std::vector<graph::PartProof>& splits) {
    if (splits.empty()) return;
    json.key("splits").begin_list();
    for (const graph::PartProof& part : splits) {
        json.begin_object();
        json.key("choices").begin_list(Shape::one_line);
        for (const graph::EdgeChoice choice : part.choices) {
            json.whole(choice.edge);
            json.whole(choice.used ? 1 : 0);
        }
        json.end();
        json.key("parts").whole(part.parts);
        json.key("prices");
        write_price_set(json, part.prices);
        json.end();
    }
    json.end();
}

void write_evidence(JsonWriter& json, const Scenario& scenario, const RoutesEvidence& evidence) {
    json.begin_object();
    json.key("constant").whole(evidence.constant.minor());
    json.key("units_a_minor").whole(evidence.units_a_minor);
    write_edges(json, scenario, evidence.edges);
    write_demands(json, scenario, evidence.demands);
    write_roots(json, scenario, evidence.roots);
    json.key("parts").whole(evidence.parts);
    json.key("prices").begin_list();
    for (const graph::EdgePriceSet& set : evidence.prices)
        write_price_set(json, set);
    json.end();
    write_splits(json, evidence.splits);
    json.end();
}

void write_chains(JsonWriter& json, const Scenario& scenario, const ChainEvidence& evidence) {
    json.begin_object();
    json.key("constant").whole(evidence.constant.minor());
    json.key("units_a_minor").whole(evidence.units_a_minor);
    write_edges(json, scenario, evidence.edges);
    json.key("weight").whole(evidence.weight);
    json.key("multiplicity").whole(evidence.multiplicity);
    json.key("chain_cost").whole(evidence.chain_cost);
    json.key("end_saving").whole(evidence.end_saving);
    json.key("parts").whole(evidence.proof.parts);
    json.key("hop_charges");
    write_numbers(json, evidence.proof.hop_charges);
    json.key("joining_prices");
    write_price_set(json, evidence.proof.joining_prices);
    json.key("arrival_prices");
    write_price_set(json, evidence.proof.arrival_prices);
    json.key("closing_prices");
    write_price_set(json, evidence.proof.closing_prices);
    json.key("pass_charges");
    write_numbers(json, evidence.proof.pass_charges);
    json.key("visit_prices");
    write_numbers(json, evidence.proof.visit_prices);
    json.key("entry_prices").begin_list();
    for (const graph::EntryPrice& entry : evidence.proof.entry_prices) {
        json.begin_object(Shape::one_line);
        json.key("buildings");
        write_numbers(json, entry.stops);
        json.key("price").whole(entry.price);
        json.end();
    }
    json.end();
    json.key("neighbours").begin_list();
    for (const std::vector<std::int32_t>& neighbours : evidence.proof.neighbours)
        write_numbers(json, neighbours);
    json.end();
    json.end();
}

void write_trunk_demands(JsonWriter& json, const Scenario& scenario, const TrunkEvidence& evidence) {
    json.key("demands").begin_list();
    for (std::size_t d = 0; d < evidence.demands.size(); ++d) {
        const graph::TwoLevelDemand& demand = evidence.demands[d];
        json.begin_object(Shape::one_line);
        json.key("building").text(scenario.buildings[d].id);
        json.key("at").text(id_at(scenario, demand.at));
        json.key("weight").whole(demand.weight);
        json.key("multiplicity").whole(demand.multiplicity);
        write_or_null(json, "home_run", demand.direct, [&](const auto& direct) { json.whole(direct.fixed); });
        json.end();
    }
    json.end();
}

void write_sites(JsonWriter& json, const Scenario& scenario, const TrunkEvidence& evidence) {
    json.key("sites").begin_list();
    for (std::size_t s = 0; s < evidence.sites.size(); ++s) {
        json.begin_object(Shape::one_line);
        json.key("at").text(id_at(scenario, evidence.sites[s].at));
        json.key("cost").whole(evidence.sites[s].cost);
        json.key("size_costs");
        write_numbers(json, evidence.sites[s].feeder_extra);
        json.key("ask").whole(evidence.proof.asks[s]);
        json.end();
    }
    json.end();
    json.key("sizes").begin_list();
    for (const graph::FeederSize& size : evidence.sizes) {
        json.begin_object(Shape::one_line);
        json.key("units").whole(size.units);
        json.key("weight").whole(size.weight);
        json.key("multiplicity").whole(size.multiplicity);
        json.key("fixed").whole(size.fixed);
        json.end();
    }
    json.end();
}

void write_sets(JsonWriter& json, const graph::TwoLevelCertificate& proof) {
    json.key("sets").begin_list();
    for (const auto& set : proof.sets) {
        json.begin_object(Shape::one_line);
        json.key("sites");
        write_numbers(json, set.sites);
        json.key("units").begin_list();
        for (const auto& units : set.units) {
            json.whole(units.least);
            json.whole(units.most);
        }
        json.end();
        json.key("asks");
        write_numbers(json, set.asks);
        json.key("prices").whole(set.prices);
        json.end();
    }
    json.end();
}

void write_trunks(JsonWriter& json, const Scenario& scenario, const TrunkEvidence& evidence) {
    json.begin_object();
    json.key("constant").whole(evidence.constant.minor());
    json.key("units_a_minor").whole(evidence.units_a_minor);
    write_edges(json, scenario, evidence.edges);
    write_trunk_demands(json, scenario, evidence);
    write_sites(json, scenario, evidence);
    json.key("parts").whole(evidence.proof.parts);
    json.key("prices").begin_list();
    for (const graph::EdgePriceSet& set : evidence.proof.prices)
        write_price_set(json, set);
    json.end();
    write_sets(json, evidence.proof);
    json.end();
}

void write_proof(JsonWriter& json, const Scenario& scenario, const BoundCertificate& proof) {
    json.key("proof").begin_object();
    write_or_null(json, "contained_in", proof.contained_in, [&](LayoutKind layout) { json.text(id_of(layout)); });
    json.key("evidence").begin_list();
    for (const auto& evidence : proof.routes)
        write_evidence(json, scenario, *evidence);
    json.end();
    write_or_null(json, "trunks", proof.trunks, [&](const auto& trunks) { write_trunks(json, scenario, trunks); });
    write_or_null(json, "chains", proof.chains, [&](const auto& chains) { write_chains(json, scenario, chains); });
    json.end();
}

void write_other_use(JsonWriter& json, const Scenario& scenario, const OtherUseProof& other) {
    json.key("other_strand_use").begin_object();
    json.key("strand_use").text(name_of(other.use));
    if (other.impossible) {
        json.key("proof").null();
    } else {
        write_proof(json, scenario, other.proof);
    }
    json.end();
}

void write_straight_lines(JsonWriter& json, const Scenario& scenario) {
    if (scenario.open_ground.straight.empty()) return;
    json.key("straight_lines").begin_list();
    for (const StraightSegment& straight : scenario.open_ground.straight) {
        const auto number = find_segment(scenario, straight.id);
        if (!number) continue;
        const Segment& segment = scenario.segments[static_cast<std::size_t>(*number)];
        json.begin_object(Shape::one_line);
        json.key("segment").text(straight.id);
        json.key("from").text(id_at(scenario, segment.from));
        json.key("to").text(id_at(scenario, segment.to));
        json.key("like").text(straight.like);
        json.end();
    }
    json.end();
}

void write_head(JsonWriter& json, const Scenario& scenario, const Certificate& certificate) {
    json.key("format").text("spadework-certificate");
    json.key("version").whole(format_version);
    json.key("site").begin_object(Shape::one_line);
    json.key("name").text(certificate.site_name);
    json.key("digest").text(certificate.site_digest);
    json.end();
    json.key("currency").text(scenario.currency.code);
    json.key("certified_together").begin_list(Shape::one_line);
    for (const LayoutKind layout : certificate.all)
        json.text(id_of(layout));
    json.end();
    write_straight_lines(json, scenario);
    json.key("layout").text(id_of(certificate.layout));
    if (certificate.other_use) json.key("strand_use").text(name_of(certificate.plan.strand_use));
    json.key("total").whole(certificate.total.minor());
    json.key("bound").whole(certificate.bound.minor());
    json.key("direct_bound").whole(certificate.direct_bound.minor());
}

}  // namespace

std::string to_json(const Scenario& scenario, const Certificate& certificate) {
    JsonWriter json;
    json.begin_object();
    write_head(json, scenario, certificate);
    json.key("plan");
    write_plan(json, scenario, certificate.plan);
    write_proof(json, scenario, certificate.proof);
    if (certificate.other_use) write_other_use(json, scenario, *certificate.other_use);
    json.key("seal").text("");
    json.end();
    std::string text = json.finished();
    const std::size_t seal = text.rfind(seal_key);
    return text.substr(0, seal) + std::string(seal_key) + ": \"" + checksum(std::string_view(text).substr(0, seal)) +
           "\"\n}\n";
}

}  // namespace spadework::certificate
