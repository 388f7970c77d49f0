#include "plan_file/plan_on_site.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "diagnostics/shown_text.hpp"
#include "open_ground/straight_lines.hpp"
#include "plan_file/ways.hpp"
#include "scenario/lookup.hpp"

namespace spadework::plan_file {

namespace {

template <typename Item>
int index_of(const std::vector<Item>& items, const std::string& id) {
    const auto found = std::ranges::find_if(items, [&](const Item& item) { return item.id == id; });
    return found == items.end() ? -1 : static_cast<int>(found - items.begin());
}

/// Looks one kind of thing after another up. Indices of what is missing are 0: the plan is not handed out then.
class Finder {
public:
    Finder(const Scenario& scenario, const PlanFile& file) : scenario_(scenario), file_(file) {}

    PlanOnSite run() {
        Plan plan;
        plan.layout = file_.layout;
        for (const UsedSegment& segment : file_.segments)
            plan.trenches.push_back(trench(segment));
        number_cables_and_enclosures();
        for (const NamedCable& cable : file_.cables)
            plan.cables.push_back(found(cable));
        for (const NamedEnclosure* enclosure : enclosures_)
            plan.enclosures.push_back(found(*enclosure));
        for (const NamedLink& link : file_.links)
            plan.links.push_back(found(link));
        const bool one_strand = !plan.links.empty() && plan.links.front().strands == 1;
        plan.strand_use = one_strand ? StrandUse::bidirectional : StrandUse::duplex;
        for (const NamedGear& gear : file_.building_gear) {
            plan.building_gear.push_back(
                {building(gear.building),
                 {product(scenario_.catalogue.building_gear, gear.pieces.product, "building gear"),
                  gear.pieces.count}});
        }
        plan.hub_gear = pieces(file_.hub_gear, scenario_.catalogue.hub_gear, "hub gear");
        plan.hub_ports = file_.hub_ports;
        for (const std::vector<std::string>& chain : file_.chains)
            plan.chains.push_back(buildings(chain));
        put_in_order(plan);
        if (missing_.empty()) result_.plan = std::move(plan);
        result_.missing.assign(missing_.begin(), missing_.end());
        return std::move(result_);
    }

private:
    void miss(const char* what, const std::string& id) {
        missing_.insert(fmt::format("The site has no {} {}.", what, shown(id, 80)));
    }

    PlaceIndex place(const std::string& id) {
        const auto index = find_place(scenario_, id);
        if (!index) miss("place", id);
        return index.value_or(0);
    }
    BuildingIndex building(const std::string& id) {
        const auto index = find_building(scenario_, id);
        if (!index) miss("building", id);
        return index.value_or(0);
    }
    std::optional<BuildingIndex> building_or_none(const std::string& id) {
        if (id.empty()) return std::nullopt;
        return building(id);
    }
    std::vector<BuildingIndex> buildings(const std::vector<std::string>& ids) {
        std::vector<BuildingIndex> list;
        for (const std::string& id : ids)
            list.push_back(building(id));
        return list;
    }

    template <typename Product>
    int product(const std::vector<Product>& products, const std::string& id, const char* what) {
        const int index = index_of(products, id);
        if (index < 0) miss(what, id);
        return std::max(index, 0);
    }

    template <typename Product>
    std::vector<Pieces> pieces(const std::vector<NamedPieces>& list, const std::vector<Product>& products,
                               const char* what) {
        std::vector<Pieces> found;
        for (const NamedPieces& one : list)
            found.push_back({product(products, one.product, what), one.count});
        return found;
    }

    Step step(const NamedStep& named) {
        const auto segment = find_segment(scenario_, named.segment);
        if (!segment) {
            miss("segment", named.segment);
            return {};
        }
        const std::vector<std::string> ways = way_names(scenario_, *segment);
        const auto way = std::ranges::find(ways, named.way);
        if (way == ways.end()) {
            missing_.insert(
                fmt::format("Segment {} can no longer be used by {}.", shown(named.segment, 80), shown(named.way, 80)));
            return {};
        }
        return {*segment, static_cast<int>(way - ways.begin())};
    }

    Step trench(const UsedSegment& used) {
        const Step found = step(used.step);
        const auto index = find_segment(scenario_, used.step.segment);
        if (!index) return found;
        const Segment& segment = scenario_.segments[static_cast<std::size_t>(*index)];
        const std::set<PlaceIndex> ends = {segment.from, segment.to};
        if (ends != std::set<PlaceIndex>{place(used.from), place(used.to)}) {
            missing_.insert(fmt::format("Segment {} no longer leads from {} to {}.", shown(segment.id, 80),
                                        shown(used.from, 80), shown(used.to, 80)));
        }
        if (segment.length != used.length) {
            result_.changed.push_back(fmt::format("Segment {} is {} mm long now, {} mm in the plan.",
                                                  shown(segment.id, 80), segment.length.millimetres(),
                                                  used.length.millimetres()));
        }
        return found;
    }

    /// Cables as in the file, enclosures by place.
    void number_cables_and_enclosures() {
        for (std::size_t c = 0; c < file_.cables.size(); ++c)
            number_of_cable_[file_.cables[c].id] = static_cast<int>(c);
        for (const NamedEnclosure& enclosure : file_.enclosures)
            enclosures_.push_back(&enclosure);
        std::ranges::sort(enclosures_, {}, &NamedEnclosure::place);
        for (std::size_t e = 0; e < enclosures_.size(); ++e)
            number_of_enclosure_[enclosures_[e]->place] = static_cast<int>(e);
    }

    std::vector<int> cable_numbers(const std::vector<std::string>& ids) const {
        std::vector<int> numbers;
        for (const std::string& id : ids) {
            const auto found = number_of_cable_.find(id);
            if (found != number_of_cable_.end()) numbers.push_back(found->second);
        }
        return numbers;
    }

    PlannedCable found(const NamedCable& named) {
        PlannedCable cable;
        cable.id = named.id;
        cable.role = named.role;
        cable.from = place(named.from);
        cable.to = place(named.to);
        for (const NamedStep& one : named.steps)
            cable.steps.push_back(step(one));
        cable.product = product(scenario_.catalogue.cables, named.product, "cable product");
        const int strands = scenario_.catalogue.cables[static_cast<std::size_t>(cable.product)].strands;
        if (index_of(scenario_.catalogue.cables, named.product) >= 0 && strands != named.strands) {
            missing_.insert(fmt::format("Cable product {} has {} strands now, {} in the plan.",
                                        shown(named.product, 80), strands, named.strands));
        }
        cable.need = named.need;
        cable.lengths = named.lengths;
        cable.building = building_or_none(named.building);
        const auto enclosure = number_of_enclosure_.find(named.enclosure);
        if (enclosure != number_of_enclosure_.end()) cable.enclosure = enclosure->second;
        const auto before = number_of_cable_.find(named.spliced_to);
        if (before != number_of_cable_.end()) cable.spliced_to = before->second;
        return cable;
    }

    PlannedEnclosure found(const NamedEnclosure& named) {
        PlannedEnclosure enclosure;
        enclosure.place = place(named.place);
        enclosure.products = pieces(named.products, scenario_.catalogue.enclosures, "enclosure product");
        enclosure.need = named.need;
        enclosure.trunks = cable_numbers(named.trunks);
        enclosure.serves = buildings(named.serves);
        std::ranges::sort(enclosure.serves);
        return enclosure;
    }

    PlannedLink found(const NamedLink& named) {
        PlannedLink link;
        link.building = building(named.building);
        link.from = building_or_none(named.from);
        link.number = named.number;
        link.rate = named.rate;
        link.optic = product(scenario_.catalogue.optics, named.optic, "optic");
        if (!named.attenuator_at_start.empty())
            link.attenuator_at_start =
                product(scenario_.catalogue.attenuators, named.attenuator_at_start, "attenuator");
        if (!named.attenuator_at_end.empty())
            link.attenuator_at_end = product(scenario_.catalogue.attenuators, named.attenuator_at_end, "attenuator");
        link.strands = named.strands;
        link.cables = cable_numbers(named.cables);
        link.glass = named.glass;
        link.mated_pairs = named.mated_pairs;
        link.splices = named.splices;
        return link;
    }

    static void put_in_order(Plan& plan) {
        std::ranges::sort(plan.trenches);
        std::ranges::stable_sort(plan.links, {},
                                 [](const PlannedLink& link) { return std::pair(link.building, link.number); });
        std::ranges::stable_sort(plan.building_gear, {}, &PlannedGear::building);
    }

    const Scenario& scenario_;
    const PlanFile& file_;
    PlanOnSite result_;
    std::set<std::string> missing_;
    std::map<std::string, int> number_of_cable_;
    std::vector<const NamedEnclosure*> enclosures_;
    std::map<std::string, int> number_of_enclosure_;
};

}  // namespace

std::shared_ptr<const Scenario> site_with_lines(std::shared_ptr<const Scenario> scenario, const PlanFile& file) {
    std::vector<open_ground::StraightLine> lines;
    for (const NamedLine& line : file.straight_lines) {
        const auto from = find_place(*scenario, line.from);
        const auto to = find_place(*scenario, line.to);
        const auto like = find_segment(*scenario, line.like);
        if (!from || !to || !like || *from == *to) return scenario;
        if (!scenario->segments[static_cast<std::size_t>(*like)].area) return scenario;
        lines.push_back({*from, *to, *like});
    }
    if (lines.empty()) return scenario;
    return std::make_shared<const Scenario>(open_ground::with_straight_lines(*scenario, lines));
}

PlanOnSite plan_of(const Scenario& scenario, const PlanFile& file) {
    return Finder(scenario, file).run();
}

}  // namespace spadework::plan_file
