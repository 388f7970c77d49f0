#include <set>

#include <fmt/format.h>

#include "catalogue/fibre_colour.hpp"
#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

LossRules read_loss(Fields fields) {
    LossRules loss;
    loss.attenuation_1310_db_per_km = fields.number("attenuation-1310");
    loss.attenuation_1550_db_per_km = fields.number("attenuation-1550");
    loss.mated_pair_db = fields.number("mated-pair");
    loss.splice_db = fields.number("splice");
    loss.spare_margin_db = fields.number("spare-margin");
    return loss;
}

SlackRules read_slack(Fields fields) {
    SlackRules slack;
    slack.rise_per_end = fields.length("rise");
    slack.coil_per_end = fields.length("coil");
    slack.coil_per_handhole = fields.length("handhole-coil");
    slack.ordering_allowance = fields.percent("ordering-allowance");
    return slack;
}

SpareRules read_spare(Fields fields) {
    SpareRules spare;
    spare.trunk_spare = fields.percent("trunk");
    spare.trunk_spare_least = fields.whole("trunk-least");
    spare.drop_spare_least = fields.whole("drop-least");
    return spare;
}

FillRules read_duct_fill(Fields fields) {
    return {fields.percent("one"), fields.percent("two"), fields.percent("more")};
}

OpenGroundRules read_open_ground(Fields fields, Reading& reading) {
    OpenGroundRules rules;
    if (fields.has("spacing")) rules.spacing = fields.length("spacing");
    rules.directions = fields.whole("directions");
    rules.reach = fields.length("reach");
    if (rules.directions != 8 && rules.directions != 16 && rules.directions != 32) {
        reading.error(fields.position("directions"), fmt::format("directions is {}", rules.directions), "8, 16 or 32");
    }
    return rules;
}

/// A list of the site's own may name no colour twice: strands of one tube have to be told apart.
ColourOrder read_colours(Fields& fields, Reading& reading) {
    const NodeId node = fields.node("strand-colours");
    if (node == no_node || fields.document().at(node).kind == NodeKind::scalar)
        return fields.choice("strand-colours") == 1 ? din_vde_0888_order() : tia_598_order();
    ColourOrder own{"the site's own order", fields.texts("strand-colours")};
    const std::set<std::string> different(own.colours.begin(), own.colours.end());
    if (different.size() < own.colours.size())
        reading.error(fields.position("strand-colours"), "a colour twice in strand-colours", "each colour once");
    return own.colours.empty() ? tia_598_order() : own;
}

FailureRate read_rate(Fields& fields, const char* a_year, const char* repair) {
    return {fields.number(a_year), fields.number(repair)};
}

FailureRules read_failures(Fields fields) {
    FailureRules rules;
    rules.cut_per_km = read_rate(fields, "cuts-per-km", "cut-repair");
    rules.enclosure = read_rate(fields, "enclosure", "enclosure-repair");
    rules.building_gear = read_rate(fields, "gear", "gear-repair");
    rules.hub = read_rate(fields, "hub", "hub-repair");
    return rules;
}

FutureBuilding read_future_building(Fields& fields, Reading& reading, const Draft& draft) {
    FutureBuilding building;
    building.id = fields.id("id");
    building.name = fields.text("name");
    if (building.name.empty()) building.name = building.id;
    if (fields.has("place")) {
        const std::string place = fields.id("place");
        const bool known = !place.empty() && draft.has_map && !draft.skipped_places.contains(place);
        const int number = !known ? -1 : draft.places.find(place, fields.position("place"), reading);
        if (number >= 0) building.place = number;
    }
    building.chance = fields.number("chance");
    building.year = fields.whole("year");
    building.links = fields.whole("links");
    return building;
}

}  // namespace

Labour read_labour(Fields fields) {
    Labour labour;
    labour.groundworks_rate = fields.price("groundworks-rate");
    labour.installer_rate = fields.price("installer-rate");
    labour.plug_time = fields.minutes("plug-minutes");
    labour.test_time = fields.minutes("test-minutes");
    labour.mobilisation = fields.money("mobilisation");
    labour.hours_per_day = fields.number("hours-per-day");
    return labour;
}

Rules read_rules(Fields fields, Reading& reading, Draft& draft) {
    Rules rules;
    rules.termination = fields.choice("termination") == 1 ? Termination::spliced : Termination::factory;
    const int strand_use = fields.choice("strand-use");
    rules.strand_use = strand_use == 1 ? StrandUse::bidirectional : StrandUse::duplex;
    rules.either_strand_use = strand_use == 2;
    rules.most_enclosures = fields.whole("max-enclosures");
    rules.hop_limit = fields.whole("hop-limit");
    draft.enclosure_kinds = fields.choices("enclosure-kinds");
    rules.loss = read_loss(fields.record("loss"));
    rules.slack = read_slack(fields.record("slack"));
    rules.spare = read_spare(fields.record("spare"));
    rules.contingency = fields.percent("contingency");
    rules.tax = fields.percent("tax");
    draft.open_ground_position = fields.position("open-ground");
    rules.open_ground = read_open_ground(fields.record("open-ground"), reading);
    rules.failures = read_failures(fields.record("failures"));
    rules.colours = read_colours(fields, reading);
    rules.spare_copper_ports = fields.whole("spare-copper-ports");
    rules.longest_copper = fields.length("copper-length");
    rules.duct_fill = read_duct_fill(fields.record("duct-fill"));
    return rules;
}

Growth read_growth(Fields fields, Reading& reading, Draft& draft) {
    Growth growth;
    growth.headroom = fields.percent("headroom");
    growth.horizon_years = fields.whole("horizon");
    growth.unnamed_links_per_year = fields.number("unnamed-links-per-year");
    growth.discount_rate = fields.percent("discount-rate");
    for (const NodeId item : fields.items("buildings")) {
        const NodeId id = fields.document().find(item, "id");
        const bool has_id = id != no_node && fields.document().at(id).kind == NodeKind::scalar;
        Fields building = fields.item("buildings", item,
                                      has_id ? fields.document().at(id).text : std::to_string(growth.buildings.size()));
        growth.buildings.push_back(read_future_building(building, reading, draft));
        const std::string& future_id = growth.buildings.back().id;
        if (!future_id.empty()) draft.buildings.add(future_id, -1, building.position("id"), reading);
    }
    return growth;
}

}  // namespace spadework::site_file
