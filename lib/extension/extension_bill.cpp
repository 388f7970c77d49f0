#include "extension/extension_bill.hpp"

#include "costing/line.hpp"
#include "costing/lines.hpp"
#include "layout/cut_trunk.hpp"
#include "rates/cable_rates.hpp"

namespace spadework {

namespace {

template <class Item>
std::vector<Item> picked(const std::vector<Item>& all, const std::vector<int>& indices) {
    std::vector<Item> some;
    for (const int i : indices)
        some.push_back(all[static_cast<std::size_t>(i)]);
    return some;
}

/// The new parts as a plan of their own. Only what the lines of a bill look at is right in it.
Plan new_parts(const ExtendedPlan& extended) {
    Plan parts;
    parts.layout = extended.plan.layout;
    parts.trenches = extended.opened;
    parts.cables = picked(extended.plan.cables, extended.cables);
    parts.enclosures = picked(extended.plan.enclosures, extended.enclosures);
    parts.links = picked(extended.plan.links, extended.links);
    parts.building_gear = picked(extended.plan.building_gear, extended.gear);
    for (const PlannedGear& gear : picked(extended.plan.building_gear, extended.swapped))
        parts.building_gear.push_back(gear);
    parts.hub_gear = extended.hub_gear;
    return parts;
}

/// What a strand that was dark takes at the cut where it ends now: a pigtail, and its splice, unless all strands of the
/// trunk are spliced for this cut.
void add_ends_at_cut(const Scenario& scenario, const ExtendedPlan& extended, const LitStrands& lit,
                     std::vector<CostLine>& lines) {
    const Cause cause{CauseKind::cable, extended.plan.cables[static_cast<std::size_t>(lit.cable)].id};
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    add_unless_empty(line_of_pieces(Category::terminations, "pigtail", lit.strands, splicing.pigtail_price, cause),
                     lines);
    if (extended.cut == lit.cable) return;
    const WorkTime time = splicing.set_up_time + splicing.time_per_splice * lit.strands;
    add_unless_empty(line_of_work(Category::terminations, "splice strands of a trunk at a cut",
                                  {time, splicing.rate_per_hour, Trade::splicer}, cause),
                     lines);
}

/// Strands that carried light before have their ends, and are patched at both.
void add_lit_again(const Scenario& scenario, const ExtendedPlan& extended, const LitStrands& lit,
                   std::vector<CostLine>& lines) {
    const Cause cause{CauseKind::cable, extended.plan.cables[static_cast<std::size_t>(lit.cable)].id};
    add_unless_empty(
        line_of_work(Category::terminations, "plug and label strands again",
                     {scenario.labour.plug_time * (2 * lit.again), scenario.labour.installer_rate, Trade::installer},
                     cause),
        lines);
}

/// Ends of strands that were dark, both or, where they end at a cut, the one at the hub. Factory-made ends are on the
/// cable already; spliced ones take a pigtail each.
void add_lit_strands(const Scenario& scenario, const ExtendedPlan& extended, std::vector<CostLine>& lines) {
    for (const LitStrands& all : extended.lit) {
        const LitStrands lit{all.cable, all.strands - all.again, 0};
        add_lit_again(scenario, extended, all, lines);
        if (lit.strands <= 0) continue;
        const PlannedCable& cable = extended.plan.cables[static_cast<std::size_t>(lit.cable)];
        const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(cable.product)];
        const Cause cause{CauseKind::cable, cable.id};
        const EndWork end = end_work(product, lit.strands, scenario);
        const bool factory = scenario.rules.termination == Termination::factory;
        const bool at_cut = part_behind(extended.plan, lit.cable).has_value();
        const int ends = at_cut ? 1 : 2;
        if (at_cut) add_ends_at_cut(scenario, extended, lit, lines);
        if (!factory) {
            add_unless_empty(line_of_pieces(Category::terminations, "pigtail", std::int64_t{ends} * lit.strands,
                                            scenario.catalogue.splicing.pigtail_price, cause),
                             lines);
        }
        const Trade trade = factory ? Trade::installer : Trade::splicer;
        add_unless_empty(line_of_work(Category::terminations,
                                      factory ? "plug and label strands of a trunk" : "splice strands of a trunk",
                                      {end.time * ends, end.rate, trade}, cause),
                         lines);
    }
}

/// Splicing a trunk that is cut, and testing the links in it again.
void add_cut(const Scenario& scenario, const ExtendedPlan& extended, std::vector<CostLine>& lines) {
    if (extended.cut) {
        const PlannedCable& part = extended.plan.cables[static_cast<std::size_t>(*extended.cut)];
        const int strands = scenario.catalogue.cables[static_cast<std::size_t>(part.product)].strands;
        const SplicingPrices& splicing = scenario.catalogue.splicing;
        const WorkTime time = splicing.set_up_time + splicing.time_per_splice * strands;
        add_unless_empty(line_of_work(Category::terminations, "splice every strand of a cut trunk",
                                      {time, splicing.rate_per_hour, Trade::splicer}, {CauseKind::cable, part.id}),
                         lines);
    }
    for (const int l : extended.interrupted) {
        const PlannedLink& link = extended.plan.links[static_cast<std::size_t>(l)];
        const Cause cause{CauseKind::building, scenario.buildings[static_cast<std::size_t>(link.building)].id};
        const Work testing{test_work(link.strands, scenario.labour).time, scenario.labour.installer_rate,
                           Trade::installer};
        add_unless_empty(line_of_work(Category::testing, "test link again", testing, cause), lines);
    }
}

/// Boxes beside an enclosure that stands: what its place costs extra was paid with the first.
void add_boxes(const Scenario& scenario, const ExtendedPlan& extended, std::vector<CostLine>& lines) {
    for (const AddedBoxes& boxes : extended.boxes) {
        const PlaceIndex at = extended.plan.enclosures[static_cast<std::size_t>(boxes.enclosure)].place;
        const Cause cause{CauseKind::enclosure, scenario.places[static_cast<std::size_t>(at)].id};
        for (const Pieces& pieces : boxes.pieces) {
            const auto& product = scenario.catalogue.enclosures[static_cast<std::size_t>(pieces.product)];
            lines.push_back(line_of_pieces(Category::enclosures, product.id, pieces.count, product.price, cause));
            const Work work{product.install_time * pieces.count, scenario.labour.installer_rate, Trade::installer};
            add_unless_empty(line_of_work(Category::enclosures, "install " + product.id, work, cause), lines);
        }
    }
}

}  // namespace

Bill price_of_extension(const Scenario& scenario, const ExtendedPlan& extended) {
    Bill bill;
    if (extended.cables.empty() && extended.links.empty()) return bill;
    const Plan parts = new_parts(extended);
    add_trench_lines(scenario, parts, bill.lines);
    add_cable_lines(scenario, parts, bill.lines);
    add_lit_strands(scenario, extended, bill.lines);
    add_cut(scenario, extended, bill.lines);
    add_link_lines(scenario, parts, bill.lines);
    add_enclosure_lines(scenario, parts, bill.lines);
    add_boxes(scenario, extended, bill.lines);
    add_gear_lines(scenario, parts, bill.lines);
    add_job_lines(scenario, bill.lines);
    finish_bill(scenario, bill);
    return bill;
}

}  // namespace spadework
