#include <fmt/format.h>

#include "certificate/reader.hpp"
#include "plan_file/plan_words.hpp"

namespace spadework::certificate {

namespace {

constexpr Range millimetres{0, 1'000'000'000'000};
constexpr Range counts{0, 1'000'000};

/// Reads one kind of thing after another of a plan.
class PlanReader {
public:
    PlanReader(const Scenario& scenario, Problems& problems) : scenario_(scenario), problems_(problems) {}

    Plan plan(const JsonValue& value) {
        const Fields fields(
            value, {"trenches", "cables", "enclosures", "links", "building_gear", "hub_gear", "hub_ports", "chains"},
            problems_);
        Plan plan;
        plan.trenches = steps(fields["trenches"]);
        for (const JsonValue& item : items(fields["cables"], problems_))
            plan.cables.push_back(cable(item));
        for (const JsonValue& item : items(fields["enclosures"], problems_))
            plan.enclosures.push_back(enclosure(item));
        for (const JsonValue& item : items(fields["links"], problems_))
            plan.links.push_back(link(item));
        for (const JsonValue& item : items(fields["building_gear"], problems_))
            plan.building_gear.push_back(gear(item));
        plan.hub_gear = pieces(fields["hub_gear"], scenario_.catalogue.hub_gear);
        plan.hub_ports = count(fields["hub_ports"]);
        for (const JsonValue& item : items(fields["chains"], problems_))
            plan.chains.push_back(buildings(item));
        return plan;
    }

private:
    int count(const JsonValue& value) { return static_cast<int>(whole(value, counts, problems_)); }
    Length length(const JsonValue& value) { return Length::from_millimetres(whole(value, millimetres, problems_)); }
    PlaceIndex place(const JsonValue& value) { return index_of_sorted(value, scenario_.places, "a place", problems_); }
    BuildingIndex building(const JsonValue& value) {
        return index_of_sorted(value, scenario_.buildings, "a building", problems_);
    }
    std::optional<BuildingIndex> building_or_none(const JsonValue& value) {
        if (value.kind == JsonKind::null) return std::nullopt;
        return building(value);
    }

    std::vector<BuildingIndex> buildings(const JsonValue& value) {
        std::vector<BuildingIndex> list;
        for (const JsonValue& item : items(value, problems_))
            list.push_back(building(item));
        return list;
    }

    std::vector<int> positions(const JsonValue& value) {
        const std::vector<std::int64_t> list = numbers(value, counts, problems_);
        return {list.begin(), list.end()};
    }

    /// A list of two: an id, and a number that goes with it.
    template <typename Take>
    void pairs(const JsonValue& value, Take take) {
        for (const JsonValue& item : items(value, problems_)) {
            if (item.kind == JsonKind::list && item.items.size() == 2) {
                take(item.items[0], item.items[1]);
            } else {
                problems_.add(item, in_words(item), "a list of an id and a number");
            }
        }
    }

    std::vector<Step> steps(const JsonValue& value) {
        std::vector<Step> list;
        pairs(value, [&](const JsonValue& segment, const JsonValue& way) {
            list.push_back({index_of_sorted(segment, scenario_.segments, "a segment", problems_), count(way)});
        });
        return list;
    }

    template <typename Product>
    std::vector<Pieces> pieces(const JsonValue& value, const std::vector<Product>& products) {
        std::vector<Pieces> list;
        pairs(value, [&](const JsonValue& product, const JsonValue& number) {
            list.push_back({index_of(product, products, "a product", problems_), count(number)});
        });
        return list;
    }

    StrandNeed need(const Fields& fields) {
        return {count(fields["in_use"]), count(fields["spare"]), count(fields["headroom"])};
    }

    CableRole role(const JsonValue& value) {
        const std::vector<std::string>& words = plan_file::role_words();
        for (std::size_t i = 0; i < words.size(); ++i) {
            if (value.kind == JsonKind::text && value.text == words[i]) return static_cast<CableRole>(i);
        }
        problems_.add(value, in_words(value), "what the cable is for");
        return CableRole::home_run;
    }

    PlannedCable cable(const JsonValue& value) {
        const Fields fields(value,
                            {"id", "role", "from", "to", "steps", "product", "in_use", "spare", "headroom", "route",
                             "with_slack", "ordered", "joints", "building", "enclosure"},
                            problems_);
        PlannedCable cable;
        cable.id = text(fields["id"], problems_);
        cable.role = role(fields["role"]);
        cable.from = place(fields["from"]);
        cable.to = place(fields["to"]);
        cable.steps = steps(fields["steps"]);
        cable.product = index_of(fields["product"], scenario_.catalogue.cables, "a cable", problems_);
        cable.need = need(fields);
        cable.lengths = {length(fields["route"]), length(fields["with_slack"]), length(fields["ordered"]),
                         count(fields["joints"])};
        cable.building = building_or_none(fields["building"]);
        const auto enclosure = static_cast<int>(whole(fields["enclosure"], {-1, counts.most}, problems_));
        if (enclosure >= 0) cable.enclosure = enclosure;
        return cable;
    }

    PlannedEnclosure enclosure(const JsonValue& value) {
        const Fields fields(value, {"place", "products", "in_use", "spare", "headroom", "trunks", "serves"}, problems_);
        return {place(fields["place"]), pieces(fields["products"], scenario_.catalogue.enclosures), need(fields),
                positions(fields["trunks"]), buildings(fields["serves"])};
    }

    /// None where the key is not there.
    std::optional<int> attenuator(const JsonValue& value) {
        if (value.kind == JsonKind::null) return std::nullopt;
        return index_of(value, scenario_.catalogue.attenuators, "an attenuator", problems_);
    }

    PlannedLink link(const JsonValue& value) {
        const Fields fields(
            value,
            {"building", "from", "number", "megabits", "optic", "strands", "cables", "glass", "mated_pairs", "splices"},
            problems_, {"attenuator_at_start", "attenuator_at_end"});
        PlannedLink link;
        link.building = building(fields["building"]);
        link.from = building_or_none(fields["from"]);
        link.number = count(fields["number"]);
        link.rate = BitRate::from_megabits(whole(fields["megabits"], {0, 2'000'000'000}, problems_));
        link.optic = index_of(fields["optic"], scenario_.catalogue.optics, "an optic", problems_);
        link.attenuator_at_start = attenuator(fields["attenuator_at_start"]);
        link.attenuator_at_end = attenuator(fields["attenuator_at_end"]);
        link.strands = count(fields["strands"]);
        link.cables = positions(fields["cables"]);
        link.glass = length(fields["glass"]);
        link.mated_pairs = count(fields["mated_pairs"]);
        link.splices = count(fields["splices"]);
        return link;
    }

    PlannedGear gear(const JsonValue& value) {
        const Fields fields(value, {"building", "product", "pieces"}, problems_);
        return {building(fields["building"]),
                {index_of(fields["product"], scenario_.catalogue.building_gear, "gear", problems_),
                 count(fields["pieces"])}};
    }

    const Scenario& scenario_;
    Problems& problems_;
};

}  // namespace

Plan read_plan(const JsonValue& value, const Scenario& scenario, LayoutKind layout, Problems& problems) {
    Plan plan = PlanReader(scenario, problems).plan(value);
    plan.layout = layout;
    return plan;
}

}  // namespace spadework::certificate
