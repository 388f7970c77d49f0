#include "extension/description.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "rates/opening_rates.hpp"
#include "strand_map/strand_map_check.hpp"

namespace spadework {

namespace {

class Description {
public:
    Description(const Scenario& scenario, const BuiltPlan& built, Extension& extension)
        : scenario_(scenario), built_(built), plan_(extension.extended.plan), result_(extension) {}

    void run(const std::vector<KeptStrand>& kept, const RoutedExtension& routed) {
        describe_additions(routed);
        measure_ways();
        for (const int c : result_.extended.cables)
            result_.cable_ordered += cable_at(c).lengths.ordered;
        for (const LitStrands& lit : result_.extended.lit)
            result_.strands_taken += lit.strands;
        result_.strand_map = map_strands(scenario_, plan_, tia_598_order(), kept);
        result_.link_budgets = link_budgets(scenario_, plan_);
        result_.violations = strand_map_violations(scenario_, plan_, result_.strand_map);
        compare_with_built();
    }

private:
    const PlannedCable& cable_at(int index) const { return plan_.cables[static_cast<std::size_t>(index)]; }
    Length length_of(const Step& step) const {
        return scenario_.segments[static_cast<std::size_t>(step.segment)].length;
    }

    void describe_additions(const RoutedExtension& routed) {
        std::map<Step, int> uses;
        for (const RoutedAddition& addition : routed.additions) {
            for (const Step& step : addition.route.steps)
                uses[step] += addition.source.cable < 0 ? 1 : 0;
        }
        for (const RoutedAddition& one : routed.additions) {
            Addition addition{one.building, one.source, one.route.from, {}, {}};
            for (const Step& step : one.route.steps) {
                addition.route += length_of(step);
                if (uses[step] > 1) addition.shared += length_of(step);
            }
            result_.additions.push_back(addition);
        }
    }

    bool is_dug(const Step& step) const {
        const Way way = ways_of(scenario_, step.segment)[static_cast<std::size_t>(step.way)];
        return way.method->kind != MethodKind::existing_duct && way.method->kind != MethodKind::pole_line;
    }

    void measure_ways() {
        std::set<Step> used;
        for (const int c : result_.extended.cables)
            used.insert(cable_at(c).steps.begin(), cable_at(c).steps.end());
        for (const Step& step : used) {
            if (!is_dug(step)) {
                result_.reused += length_of(step);
            } else if (dug_before(step.segment)) {
                result_.opened_again += length_of(step);
            } else {
                result_.new_trench += length_of(step);
            }
        }
    }

    bool dug_before(SegmentIndex segment) const {
        return std::any_of(built_.plan.trenches.begin(), built_.plan.trenches.end(),
                           [&](const Step& step) { return step.segment == segment && is_dug(step); });
    }

    std::vector<std::string> gone_buildings(const std::vector<KeptStrand>& before) const {
        std::set<std::string> present;
        for (const Building& building : scenario_.buildings)
            present.insert(building.id);
        std::set<std::string> gone;
        for (const KeptStrand& strand : before) {
            if (!strand.building.empty() && !present.contains(strand.building)) gone.insert(strand.building);
        }
        return {gone.begin(), gone.end()};
    }

    /// Links that may be down, by names.
    std::set<LinkName> interrupted() const {
        std::set<LinkName> links;
        if (!result_.interruption) return links;
        for (const int l : result_.interruption->links) {
            const PlannedLink& link = built_.plan.links[static_cast<std::size_t>(l)];
            links.insert({scenario_.buildings[static_cast<std::size_t>(link.building)].id, link.number});
        }
        return links;
    }

    void compare_with_built() {
        const std::vector<KeptStrand>& before = built_.before.empty() ? built_.strands : built_.before;
        const std::vector<std::string> gone = gone_buildings(before);
        const auto after = kept_strands(scenario_, plan_, result_.strand_map);
        const std::set<LinkName> down = interrupted();
        const auto is_down = [&](const KeptStrand& strand) { return down.contains({strand.building, strand.link}); };
        std::vector<KeptStrand> up;
        std::vector<KeptStrand> taken_down;
        for (const KeptStrand& strand : before)
            (is_down(strand) ? taken_down : up).push_back(strand);
        result_.untouched = compare_strands(up, after, gone);
        note_touched(result_.untouched);
        if (down.empty()) return;
        if (result_.interruption->made_anew) return compare_made_anew(taken_down, after);
        const bool cut = !result_.interruption->cut_near.empty();
        result_.restored = compare_strands(
            taken_down, cut ? rejoined(after, result_.interruption->cut_near, result_.interruption->cut_far) : after,
            gone);
        note_touched(result_.restored);
    }

    /// Links that run in other cables now keep their numbers, and the ports of the buildings that they end in.
    void compare_made_anew(const std::vector<KeptStrand>& before, const std::vector<KeptStrand>& after) {
        for (const KeptStrand& strand : before) {
            const bool ends = strand.far_port > 0;
            const auto same = [&](const KeptStrand& now) {
                return now.building == strand.building && now.link == strand.link && now.leg == strand.leg &&
                       now.far_port == strand.far_port;
            };
            if (!ends) continue;
            if (std::any_of(after.begin(), after.end(), same)) {
                ++result_.restored.strands;
            } else {
                result_.violations.push_back("Link " + std::to_string(strand.link) + " to " + strand.building +
                                             " does not come back to its port.");
            }
        }
        result_.restored.links = static_cast<int>(interrupted().size());
    }

    void note_touched(const Untouched& compared) {
        for (const TouchedLink& link : compared.touched)
            result_.violations.push_back("Link " + std::to_string(link.link) + " to " + link.building +
                                         " is touched: " + link.how + ".");
    }

    const Scenario& scenario_;
    const BuiltPlan& built_;
    const Plan& plan_;
    Extension& result_;
};

}  // namespace

void describe_extension(const Scenario& scenario, const BuiltPlan& built, const std::vector<KeptStrand>& kept,
                        const RoutedExtension& routed, Extension& extension) {
    Description(scenario, built, extension).run(kept, routed);
}

}  // namespace spadework
