#include <fmt/format.h>

#include "comparison/verification_parts.hpp"

namespace spadework::verification {

namespace {

/// Gathers complaints about numbers that point outside their list.
class References {
public:
    explicit References(const Scenario& scenario, const Plan& plan) : scenario_(scenario), plan_(plan) {}

    void place(PlaceIndex index, const std::string& of) { within(index, scenario_.places.size(), of, "place"); }
    void building(BuildingIndex index, const std::string& of) {
        within(index, scenario_.buildings.size(), of, "building");
    }
    void cable(int index, const std::string& of) { within(index, plan_.cables.size(), of, "cable"); }

    void earlier_cable(int index, std::int64_t than, const std::string& of) {
        if (index < 0 || index >= than) found_.push_back(fmt::format("{} is spliced to no earlier cable.", of));
    }

    void step(const Step& step, const std::string& of) {
        if (!within(step.segment, scenario_.segments.size(), of, "segment")) return;
        const Segment& segment = item(scenario_.segments, step.segment);
        if (!segment.ban.empty()) {
            found_.push_back(fmt::format("{} uses segment {}, which is banned.", of, segment.id));
        } else if (opened_way(scenario_, step).method == nullptr) {
            found_.push_back(fmt::format("{} uses segment {} in a way it does not have.", of, segment.id));
        }
    }

    template <typename Product>
    void pieces(const Pieces& pieces, const std::vector<Product>& products, const std::string& of) {
        within(pieces.product, products.size(), of, "product");
        if (pieces.count <= 0) found_.push_back(fmt::format("{} has no pieces of a product it lists.", of));
    }

    bool within(std::int64_t index, std::size_t size, const std::string& of, const char* what) {
        if (index >= 0 && index < static_cast<std::int64_t>(size)) return true;
        found_.push_back(fmt::format("{} refers to a {} that does not exist.", of, what));
        return false;
    }

    [[nodiscard]] Sentences found() const { return found_; }

private:
    const Scenario& scenario_;
    const Plan& plan_;
    Sentences found_;
};

void refer_cables(References& refer, const Scenario& scenario, const Plan& plan) {
    for (const PlannedCable& cable : plan.cables) {
        const std::string name = "Cable " + cable.id;
        refer.place(cable.from, name);
        refer.place(cable.to, name);
        refer.within(cable.product, scenario.catalogue.cables.size(), name, "product");
        if (cable.building) refer.building(*cable.building, name);
        if (cable.enclosure) refer.within(*cable.enclosure, plan.enclosures.size(), name, "enclosure");
        // An earlier cable, so that following it from part to part comes to an end.
        if (cable.spliced_to) refer.earlier_cable(*cable.spliced_to, &cable - plan.cables.data(), name);
        for (const Step& step : cable.steps)
            refer.step(step, name);
    }
}

void refer_enclosures(References& refer, const Scenario& scenario, const Plan& plan) {
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        const std::string name = "An enclosure";
        refer.place(enclosure.place, name);
        for (const Pieces& pieces : enclosure.products)
            refer.pieces(pieces, scenario.catalogue.enclosures, name);
        for (const int trunk : enclosure.trunks)
            refer.cable(trunk, name);
        for (const BuildingIndex building : enclosure.serves)
            refer.building(building, name);
    }
}

void refer_links(References& refer, const Scenario& scenario, const Plan& plan) {
    for (const PlannedLink& link : plan.links) {
        const std::string name = "A link";
        refer.building(link.building, name);
        if (link.from) refer.building(*link.from, name);
        refer.within(link.optic, scenario.catalogue.optics.size(), name, "optic");
        for (const auto& attenuator : {link.attenuator_at_start, link.attenuator_at_end}) {
            if (attenuator) refer.within(*attenuator, scenario.catalogue.attenuators.size(), name, "attenuator");
        }
        for (const int cable : link.cables)
            refer.cable(cable, name);
    }
    for (const auto& chain : plan.chains) {
        for (const BuildingIndex building : chain)
            refer.building(building, "A chain");
    }
}

}  // namespace

OpenedWay opened_way(const Scenario& scenario, const Step& step) {
    const Segment& segment = item(scenario.segments, step.segment);
    const Ground& ground = item(scenario.grounds, segment.ground);
    if (!segment.ban.empty() || step.way < 0) return {};
    std::vector<OpenedWay> ways;
    for (const OpeningMethod& method : ground.methods)
        ways.push_back({&method, ground.id, -1, true});
    if (segment.duct_room.value_or(0) > 0) {
        ways.push_back({&scenario.existing_duct, "existing duct", *segment.duct_room, false});
    }
    if (segment.pole_line) ways.push_back({&scenario.pole_line, "pole line", -1, false});
    if (step.way >= static_cast<int>(ways.size())) return {};
    return item(ways, step.way);
}

Sentences reference_violations(const Scenario& scenario, const Plan& plan) {
    References refer(scenario, plan);
    for (const Step& step : plan.trenches)
        refer.step(step, "The list of trenches");
    refer_cables(refer, scenario, plan);
    refer_enclosures(refer, scenario, plan);
    refer_links(refer, scenario, plan);
    for (const PlannedGear& gear : plan.building_gear) {
        refer.building(gear.building, "Building gear");
        refer.pieces(gear.pieces, scenario.catalogue.building_gear, "Building gear");
    }
    for (const Pieces& pieces : plan.hub_gear)
        refer.pieces(pieces, scenario.catalogue.hub_gear, "Hub gear");
    return refer.found();
}

}  // namespace spadework::verification
