#include "sheets/labels.hpp"

#include <algorithm>
#include <tuple>

#include <fmt/format.h>

namespace spadework {

namespace {

const std::string& id_of_place(const Scenario& scenario, PlaceIndex place) {
    return scenario.places[static_cast<std::size_t>(place)].id;
}

void label_cables(const Scenario& scenario, const Plan& plan, std::vector<Label>& all) {
    for (const PlannedCable& cable : plan.cables) {
        const int strands = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)].strands;
        const auto end = [&](PlaceIndex here, PlaceIndex there) {
            all.push_back(
                {"cable end", here, cable.id, fmt::format("to {}, {} strands", id_of_place(scenario, there), strands)});
        };
        end(cable.from, cable.to);
        end(cable.to, cable.from);
    }
}

/// "mill link 1", "spare", "headroom".
std::string use_of(const Scenario& scenario, const Plan& plan, const MappedStrand& strand) {
    if (!strand.link) return name_of(strand.purpose);
    const PlannedLink& link = plan.links[static_cast<std::size_t>(*strand.link)];
    return fmt::format("{} link {}", scenario.buildings[static_cast<std::size_t>(link.building)].id, link.number);
}

void label_strands(const Scenario& scenario, const Plan& plan, const StrandMap& map, std::vector<Label>& all) {
    for (const MappedStrand& strand : map) {
        const PlannedCable& cable = plan.cables[static_cast<std::size_t>(strand.cable)];
        for (const StrandEnd* end : {&strand.near, &strand.far}) {
            if (end->holder == Holder::stored || end->holder == Holder::spliced) continue;
            all.push_back({"strand end", end->place, strand_label(cable, strand.number),
                           fmt::format("{}, {}", adapter_in_words(*end), use_of(scenario, plan, strand))});
        }
    }
}

void label_pieces(const std::string& marks, PlaceIndex place, const std::string& name, const std::string& product,
                  int count, std::vector<Label>& all) {
    for (int piece = 1; piece <= count; ++piece)
        all.push_back({marks, place, count == 1 ? name : fmt::format("{} {}", name, piece), product});
}

void label_gear(const Scenario& scenario, const Plan& plan, std::vector<Label>& all) {
    const Catalogue& shop = scenario.catalogue;
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        for (const Pieces& pieces : enclosure.products) {
            label_pieces("enclosure", enclosure.place, "enclosure " + id_of_place(scenario, enclosure.place),
                         shop.enclosures[static_cast<std::size_t>(pieces.product)].id, pieces.count, all);
        }
    }
    for (const PlannedGear& gear : plan.building_gear) {
        const Building& building = scenario.buildings[static_cast<std::size_t>(gear.building)];
        label_pieces("gear", building.place, building.id + " gear",
                     shop.building_gear[static_cast<std::size_t>(gear.pieces.product)].id, gear.pieces.count, all);
    }
    for (const Pieces& pieces : plan.hub_gear) {
        label_pieces("hub gear", scenario.hub.place, "hub switch",
                     shop.hub_gear[static_cast<std::size_t>(pieces.product)].id, pieces.count, all);
    }
}

}  // namespace

std::string strand_label(const PlannedCable& cable, int number) {
    return fmt::format("{}/{}", cable.id, number);
}

std::string adapter_in_words(const StrandEnd& end) {
    switch (end.holder) {
        case Holder::enclosure:
            return fmt::format("enclosure {} adapter {}", end.adapter.piece, end.adapter.number);
        case Holder::stored:
        case Holder::spliced:
            return name_of(end.holder);
        default:
            return fmt::format("{} {}", name_of(end.holder), end.adapter.number);
    }
}

std::string port_in_words(const StrandEnd& end) {
    if (!end.port) return "";
    if (end.port->piece == 0) return fmt::format("present gear port {}", end.port->number);
    return fmt::format("gear {} port {}", end.port->piece, end.port->number);
}

std::vector<Label> labels(const Scenario& scenario, const Plan& plan, const StrandMap& map) {
    std::vector<Label> all;
    label_gear(scenario, plan, all);
    label_cables(scenario, plan, all);
    label_strands(scenario, plan, map, all);
    std::ranges::stable_sort(all, {}, [](const Label& label) { return label.place; });
    return all;
}

}  // namespace spadework
