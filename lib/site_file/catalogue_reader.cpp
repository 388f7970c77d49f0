#include <fmt/format.h>

#include "catalogue/standard_optics.hpp"
#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

constexpr GearKind gear_kinds[] = {GearKind::media_converter, GearKind::poe_switch, GearKind::ethernet_switch};
constexpr StrandUse strand_uses[] = {StrandUse::duplex, StrandUse::bidirectional};

/// Id and name of a product; the name is the id where none is given.
template <typename Product>
Product read_named(Fields& fields) {
    Product product;
    product.id = fields.id("id");
    product.name = fields.text("name");
    if (product.name.empty()) product.name = product.id;
    return product;
}

CableProduct read_cable(Fields& fields, Reading& /*reading*/) {
    auto cable = read_named<CableProduct>(fields);
    cable.strands = fields.whole("strands");
    cable.strands_per_tube = fields.whole("strands-per-tube");
    cable.price_per_metre = fields.price("price");
    cable.factory_end_price = fields.price("end");
    cable.length_step = fields.length("step");
    cable.longest = fields.length("longest");
    cable.diameter_mm = fields.number("diameter") * 1000;
    if (fields.has("tension")) cable.most_tension_n = fields.number("tension");
    return cable;
}

EnclosureProduct read_enclosure(Fields& fields, Reading& /*reading*/) {
    auto enclosure = read_named<EnclosureProduct>(fields);
    enclosure.adapters = fields.whole("adapters");
    enclosure.price = fields.price("price");
    enclosure.install_time = fields.hours("install-hours");
    return enclosure;
}

/// Replaces the figures that are given. Without a standard behind them, all but the penalties must be.
void read_figures(Fields fields, bool complete, OpticalFigures& figures, Reading& reading) {
    const auto take = [&](std::string_view key, double& figure, bool needed) {
        if (fields.has(key)) {
            figure = fields.number(key);
        } else if (needed) {
            reading.error(fields.position(), fmt::format("key '{}' is missing in optical figures", key),
                          "every figure, or key 'standard' in the optic");
        }
    };
    take("wavelength", figures.wavelength_nm, !complete);
    take("launch-min", figures.launch_min_dbm, !complete);
    take("launch-max", figures.launch_max_dbm, !complete);
    take("receive-min", figures.receive_min_dbm, !complete);
    take("receive-max", figures.receive_max_dbm, !complete);
    take("penalties", figures.penalties_db, false);
    if (figures.launch_min_dbm > figures.launch_max_dbm) {
        reading.error(fields.position(), "launch-min is above launch-max", "the smaller of the two first");
    }
    if (figures.receive_min_dbm > figures.receive_max_dbm) {
        reading.error(fields.position(), "receive-min is above receive-max", "the smaller of the two first");
    }
}

/// The standard transceiver that an optic names; nothing, and an error where the name is unknown.
std::optional<OpticProduct> named_standard(Fields& fields, Reading& reading) {
    if (!fields.has("standard")) return std::nullopt;
    const std::string name = fields.text("standard");
    auto standard = standard_optic(name);
    if (!standard && !name.empty()) {
        const auto known = standard_optic_names();
        reading.error(fields.position("standard"), fmt::format("no standard transceiver {}", quoted(name)),
                      fmt::format("one of {}", fmt::join(known, ", ")), reading.nearest(name, known));
    }
    return standard;
}

void read_directions(Fields& fields, bool complete, OpticProduct& optic, Reading& reading) {
    if (fields.has("to-building")) {
        read_figures(fields.record("to-building"), complete, optic.to_building, reading);
        if (!complete) optic.to_hub = optic.to_building;
    }
    if (fields.has("to-hub")) {
        read_figures(fields.record("to-hub"), complete || fields.has("to-building"), optic.to_hub, reading);
    }
}

OpticProduct read_optic(Fields& fields, Reading& reading) {
    const auto named = read_named<OpticProduct>(fields);
    const auto standard = named_standard(fields, reading);
    const bool complete = standard.has_value() || fields.has("standard");
    OpticProduct optic = standard.value_or(OpticProduct{});
    optic.id = named.id;
    optic.name = named.name;
    for (const std::string_view key : {"rate", "strand-use", "reach", "to-building"}) {
        if (!complete && !fields.has(key)) {
            reading.error(fields.position(), fmt::format("key '{}' is missing in an optic", key),
                          "key 'standard', or every figure of the transceiver");
        }
    }
    if (fields.has("rate")) optic.rate = fields.rate("rate").value_or(BitRate());
    if (fields.has("strand-use")) optic.strand_use = strand_uses[std::max(0, fields.choice("strand-use"))];
    if (fields.has("reach")) optic.reach = fields.length("reach");
    if (fields.has("least-length")) optic.least_length = fields.length("least-length");
    read_directions(fields, complete, optic, reading);
    if (optic.strand_use == StrandUse::bidirectional && optic.to_building.wavelength_nm == optic.to_hub.wavelength_nm) {
        reading.error(fields.position(),
                      fmt::format("both ends of a bidirectional optic transmit at {} nm", optic.to_hub.wavelength_nm),
                      "two wavelengths that are each other's counterpart, as one strand carries both directions");
    }
    optic.price_per_end = fields.price("price");
    const std::string source = fields.text("source");
    if (!source.empty()) optic.source = source;
    if (optic.source.empty()) optic.source = "the site file";
    if (optic.reach < optic.least_length) {
        reading.error(fields.position(), "reach is shorter than least-length", "a reach above the least length");
    }
    return optic;
}

AttenuatorProduct read_attenuator(Fields& fields, Reading& /*reading*/) {
    auto attenuator = read_named<AttenuatorProduct>(fields);
    attenuator.loss_db = fields.number("loss");
    attenuator.price = fields.price("price");
    return attenuator;
}

BuildingGearProduct read_building_gear(Fields& fields, Reading& /*reading*/) {
    auto gear = read_named<BuildingGearProduct>(fields);
    const int kind = fields.choice("kind");
    if (kind >= 0) gear.kind = gear_kinds[kind];
    gear.optic_ports = fields.whole("optic-ports");
    gear.copper_ports = fields.whole("copper-ports");
    gear.poe_budget_w = fields.number("poe-budget");
    gear.fastest_rate = fields.rate("fastest-rate").value_or(BitRate());
    gear.price = fields.price("price");
    gear.install_time = fields.hours("install-hours");
    return gear;
}

HubGearProduct read_hub_gear(Fields& fields, Reading& /*reading*/) {
    auto gear = read_named<HubGearProduct>(fields);
    gear.optic_ports = fields.whole("optic-ports");
    gear.copper_ports = fields.whole("copper-ports");
    gear.fastest_rate = fields.rate("fastest-rate").value_or(BitRate());
    gear.price = fields.price("price");
    gear.install_time = fields.hours("install-hours");
    return gear;
}

PatchCordProduct read_patch_cord(Fields& fields, Reading& /*reading*/) {
    auto cord = read_named<PatchCordProduct>(fields);
    cord.strands = fields.whole("strands");
    cord.price = fields.price("price");
    return cord;
}

/// One list of the catalogue, ids checked to be distinct.
template <typename Product>
std::vector<Product> read_products(Fields& catalogue, std::string_view key, std::string what,
                                   Product (*read)(Fields&, Reading&), Reading& reading) {
    std::vector<Product> products;
    NameIndex ids(std::move(what));
    const Document& document = catalogue.document();
    for (const NodeId item : catalogue.items(key)) {
        const NodeId id = document.find(item, "id");
        const bool has_id = id != no_node && document.at(id).kind == NodeKind::scalar;
        Fields fields = catalogue.item(key, item, has_id ? document.at(id).text : std::to_string(products.size()));
        products.push_back(read(fields, reading));
        if (!products.back().id.empty()) {
            ids.add(products.back().id, static_cast<int>(products.size()), fields.position("id"), reading);
        }
    }
    return products;
}

SplicingPrices read_splicing(Fields fields) {
    SplicingPrices splicing;
    splicing.pigtail_price = fields.price("pigtail");
    splicing.time_per_splice = fields.hours("hours-per-splice");
    splicing.set_up_time = fields.hours("set-up-hours");
    splicing.rate_per_hour = fields.price("rate");
    return splicing;
}

}  // namespace

Catalogue read_catalogue(Fields fields, Reading& reading) {
    Catalogue catalogue;
    catalogue.cables = read_products<CableProduct>(fields, "cables", "cable", read_cable, reading);
    catalogue.enclosures = read_products<EnclosureProduct>(fields, "enclosures", "enclosure", read_enclosure, reading);
    catalogue.optics = read_products<OpticProduct>(fields, "optics", "optic", read_optic, reading);
    catalogue.attenuators =
        read_products<AttenuatorProduct>(fields, "attenuators", "attenuator", read_attenuator, reading);
    catalogue.building_gear =
        read_products<BuildingGearProduct>(fields, "building-gear", "building gear", read_building_gear, reading);
    catalogue.hub_gear = read_products<HubGearProduct>(fields, "hub-gear", "hub gear", read_hub_gear, reading);
    catalogue.patch_cords =
        read_products<PatchCordProduct>(fields, "patch-cords", "patch cord", read_patch_cord, reading);
    if (fields.has("splicing")) catalogue.splicing = read_splicing(fields.record("splicing"));
    return catalogue;
}

}  // namespace spadework::site_file
