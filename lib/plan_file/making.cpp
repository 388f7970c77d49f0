#include "plan_file/making.hpp"

#include "plan_file/ways.hpp"
#include "scenario/lookup.hpp"
#include "sheets/test_sheet.hpp"

namespace spadework::plan_file {

namespace {

template <typename Item, typename Index>
const Item& at(const std::vector<Item>& items, Index index) {
    return items[static_cast<std::size_t>(index)];
}

/// Names the things of one plan, one kind after another.
class Naming {
public:
    Naming(const Scenario& scenario, const LayoutResult& result)
        : scenario_(scenario), plan_(*result.plan), map_(result.strand_map) {}

    void name_routes(PlanFile& file) const {
        for (const StraightSegment& straight : scenario_.open_ground.straight)
            file.straight_lines.push_back(line(straight));
        for (const Step& trench : plan_.trenches)
            file.segments.push_back(segment(trench));
        for (const PlannedCable& one : plan_.cables)
            file.cables.push_back(cable(one));
    }

    void name_what_stands(PlanFile& file) const {
        for (const PlannedEnclosure& one : plan_.enclosures)
            file.enclosures.push_back(enclosure(one));
        for (const PlannedGear& gear : plan_.building_gear) {
            const std::string& product = at(scenario_.catalogue.building_gear, gear.pieces.product).id;
            file.building_gear.push_back({building(gear.building), {product, gear.pieces.count}});
        }
        file.hub_gear = pieces(plan_.hub_gear, scenario_.catalogue.hub_gear);
        file.hub_ports = plan_.hub_ports;
    }

    void name_links(PlanFile& file) const {
        for (const PlannedLink& one : plan_.links)
            file.links.push_back(link(one));
        for (const std::vector<BuildingIndex>& chain : plan_.chains)
            file.chains.push_back(buildings(chain));
    }

    void name_strands(PlanFile& file) const {
        const std::vector<KeptStrand> kept = kept_strands(scenario_, plan_, map_);
        for (std::size_t s = 0; s < map_.size(); ++s)
            file.strands.push_back({kept[s], map_[s].colour, map_[s].purpose, map_[s].near.holder, map_[s].far.holder});
    }

    void name_sheets(PlanFile& file) const {
        for (const StrandTest& one : test_sheet(scenario_, plan_, map_))
            file.tests.push_back(test(one));
        for (const Label& one : labels(scenario_, plan_, map_))
            file.labels.push_back({one.marks, place(one.place), one.line_1, one.line_2});
    }

private:
    const std::string& place(PlaceIndex index) const { return at(scenario_.places, index).id; }
    const std::string& building(BuildingIndex index) const { return at(scenario_.buildings, index).id; }
    std::string building_or_none(const std::optional<BuildingIndex>& index) const {
        return index ? building(*index) : "";
    }
    std::vector<std::string> buildings(const std::vector<BuildingIndex>& list) const {
        std::vector<std::string> ids;
        for (const BuildingIndex index : list)
            ids.push_back(building(index));
        return ids;
    }
    std::vector<std::string> cables(const std::vector<int>& list) const {
        std::vector<std::string> ids;
        for (const int index : list)
            ids.push_back(at(plan_.cables, index).id);
        return ids;
    }

    template <typename Product>
    static std::vector<NamedPieces> pieces(const std::vector<Pieces>& list, const std::vector<Product>& products) {
        std::vector<NamedPieces> named;
        for (const Pieces& one : list)
            named.push_back({at(products, one.product).id, one.count});
        return named;
    }

    NamedStep step(const Step& one) const {
        const std::vector<std::string> names = way_names(scenario_, one.segment);
        return {at(scenario_.segments, one.segment).id, at(names, one.way)};
    }

    UsedSegment segment(const Step& trench) const {
        const Segment& one = at(scenario_.segments, trench.segment);
        return {step(trench), place(one.from), place(one.to), at(scenario_.grounds, one.ground).id, one.length};
    }

    NamedLine line(const StraightSegment& straight) const {
        const auto index = find_segment(scenario_, straight.id);
        if (!index) return {straight.id, "", "", straight.like};
        const Segment& one = at(scenario_.segments, *index);
        return {straight.id, place(one.from), place(one.to), straight.like};
    }

    NamedCable cable(const PlannedCable& one) const {
        const CableProduct& product = at(scenario_.catalogue.cables, one.product);
        NamedCable named;
        named.id = one.id;
        named.role = one.role;
        named.from = place(one.from);
        named.to = place(one.to);
        for (const Step& passed : one.steps)
            named.steps.push_back(step(passed));
        named.product = product.id;
        named.strands = product.strands;
        named.need = one.need;
        named.lengths = one.lengths;
        named.building = building_or_none(one.building);
        if (one.spliced_to) named.spliced_to = at(plan_.cables, *one.spliced_to).id;
        if (one.enclosure) named.enclosure = place(at(plan_.enclosures, *one.enclosure).place);
        return named;
    }

    NamedEnclosure enclosure(const PlannedEnclosure& one) const {
        return {place(one.place), pieces(one.products, scenario_.catalogue.enclosures), one.need, cables(one.trunks),
                buildings(one.serves)};
    }

    NamedLink link(const PlannedLink& one) const {
        NamedLink named;
        named.building = building(one.building);
        named.from = building_or_none(one.from);
        named.number = one.number;
        named.rate = one.rate;
        named.optic = at(scenario_.catalogue.optics, one.optic).id;
        if (one.attenuator_at_start)
            named.attenuator_at_start = at(scenario_.catalogue.attenuators, *one.attenuator_at_start).id;
        if (one.attenuator_at_end)
            named.attenuator_at_end = at(scenario_.catalogue.attenuators, *one.attenuator_at_end).id;
        named.strands = one.strands;
        named.cables = cables(one.cables);
        named.glass = one.glass;
        named.mated_pairs = one.mated_pairs;
        named.splices = one.splices;
        return named;
    }

    NamedTest test(const StrandTest& one) const {
        const PlannedLink& tested = at(plan_.links, one.link);
        NamedTest named;
        named.building = building(tested.building);
        named.link = tested.number;
        named.leg = one.leg;
        named.from = tested.from ? building(*tested.from) : "hub";
        for (const std::size_t s : one.strands)
            named.way.push_back(strand_label(at(plan_.cables, map_[s].cable), map_[s].number));
        named.glass = one.glass;
        for (const LossLimit& limit : one.limits) {
            named.limits.push_back({thousandths(limit.wavelength_nm), thousandths(limit.calculated_db),
                                    thousandths(limit.optics_db), thousandths(limit.pass_db),
                                    thousandths(limit.least_db)});
        }
        for (const TraceEvent& event : one.events)
            named.events.push_back({event.what, event.where, event.distance});
        return named;
    }

    const Scenario& scenario_;
    const Plan& plan_;
    const StrandMap& map_;
};

NamedCosts costs_of(const Scenario& scenario, const LayoutResult& result) {
    NamedCosts costs;
    costs.currency = scenario.currency.code;
    costs.digits = scenario.currency.minor_digits;
    for (int c = 0; c < category_count; ++c) {
        const auto category = static_cast<Category>(c);
        costs.categories.emplace_back(id_of(category), result.bill.total(category));
    }
    costs.total = result.total;
    return costs;
}

}  // namespace

PlanFile plan_file_of(const Scenario& scenario, const LayoutResult& result) {
    PlanFile file;
    file.site_name = scenario.name;
    file.site_digest = scenario.digest;
    file.feet = scenario.feet;
    file.termination = scenario.rules.termination;
    file.layout = result.layout;
    const Naming naming(scenario, result);
    naming.name_routes(file);
    naming.name_what_stands(file);
    naming.name_links(file);
    naming.name_strands(file);
    naming.name_sheets(file);
    file.costs = costs_of(scenario, result);
    return file;
}

}  // namespace spadework::plan_file
