#include "sheets/sheet_check.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "sheets/cable_order.hpp"
#include "sheets/crew_hours.hpp"
#include "sheets/labels.hpp"
#include "sheets/materials.hpp"
#include "sheets/pull_schedule.hpp"
#include "sheets/test_sheet.hpp"

namespace spadework {

namespace {

class Checker {
public:
    Checker(const Scenario& scenario, const LayoutResult& result)
        : scenario_(scenario), result_(result), plan_(*result.plan) {}

    std::vector<std::string> run() {
        check_cable_order();
        check_money();
        check_pulls();
        check_tests();
        check_labels();
        return std::move(found_);
    }

private:
    template <typename... Arguments>
    void complain(fmt::format_string<Arguments...> text, Arguments&&... arguments) {
        found_.push_back(fmt::format(text, std::forward<Arguments>(arguments)...));
    }

    void check_cable_order() {
        const CableOrder order = cable_order(scenario_, plan_);
        check_rows("order", order.rows);
        if (!order.reels.empty()) check_rows("reels", order.reels);
        std::int64_t ordered = 0;
        for (const OrderRow& row : order.rows)
            ordered += row.amount.minor();
        std::int64_t billed = 0;
        for (const CostLine& line : result_.bill.lines)
            billed += line.category == Category::cable && line.labour == WorkTime() ? line.amount.minor() : 0;
        if (ordered != billed) complain("The cable order comes to {}, the bill's cable to {}.", ordered, billed);
    }

    /// Every cable once, none in less length than it needs.
    void check_rows(const char* what, const std::vector<OrderRow>& rows) {
        std::map<int, int> times;
        for (const OrderRow& row : rows) {
            std::int64_t need = 0;
            for (const int c : row.cables) {
                ++times[c];
                need += plan_.cables[static_cast<std::size_t>(c)].lengths.with_slack.millimetres();
                if (plan_.cables[static_cast<std::size_t>(c)].product != row.product)
                    complain("Cable {} is in a row of another product.", plan_.cables[static_cast<std::size_t>(c)].id);
            }
            if (row.ordered.millimetres() < need)
                complain("A row of the {} is {} mm short.", what, need - row.ordered.millimetres());
        }
        for (std::size_t c = 0; c < plan_.cables.size(); ++c) {
            if (times[static_cast<int>(c)] != 1)
                complain("Cable {} is {} times in the {}.", plan_.cables[c].id, times[static_cast<int>(c)], what);
        }
    }

    void check_money() {
        std::int64_t goods = 0;
        std::int64_t seconds = 0;
        for (const CostLine& line : result_.bill.lines) {
            seconds += line.labour.seconds();
            const bool is_goods = line.category >= Category::ducts && line.category <= Category::hub_gear;
            if (is_goods && line.labour == WorkTime()) goods += line.amount.minor();
        }
        std::int64_t bought = 0;
        for (const Material& material : materials(result_.bill))
            bought += material.amount.minor();
        if (bought != goods) complain("The bill of materials comes to {}, the bill's goods to {}.", bought, goods);
        std::int64_t worked = 0;
        for (const CrewTask& task : crew_hours(result_.bill, scenario_.labour).tasks)
            worked += task.time.seconds();
        if (worked != seconds) complain("The crew's tasks take {} s, the bill's labour {} s.", worked, seconds);
    }

    void check_pulls() {
        const std::vector<CablePull> pulls = pull_schedule(scenario_, plan_);
        if (pulls.size() != plan_.cables.size())
            complain("{} cables are pulled of {}.", pulls.size(), plan_.cables.size());
        for (const CablePull& pull : pulls) {
            const PlannedCable& cable = plan_.cables[static_cast<std::size_t>(pull.cable)];
            Length pulled;
            PlaceIndex at = cable.from;
            bool joined = true;
            for (const PullStretch& stretch : pull.stretches) {
                joined = joined && stretch.from == at;
                at = stretch.to;
                pulled += stretch.length;
            }
            if (!joined || at != cable.to || pulled != cable.lengths.route)
                complain("The stretches of cable {} do not make up its route.", cable.id);
        }
    }

    void check_tests() {
        std::set<std::pair<int, int>> tested;
        for (const StrandTest& test : test_sheet(scenario_, plan_, result_.strand_map)) {
            tested.insert({test.link, test.leg});
            check_test(test);
        }
        std::size_t wanted = 0;
        for (const PlannedLink& link : plan_.links)
            wanted += static_cast<std::size_t>(link.strands);
        if (tested.size() != wanted) complain("{} strands of links are tested of {}.", tested.size(), wanted);
    }

    void check_test(const StrandTest& test) {
        const PlannedLink& link = plan_.links[static_cast<std::size_t>(test.link)];
        bool in_order = test.strands.size() == link.cables.size();
        for (std::size_t s = 0; in_order && s < test.strands.size(); ++s) {
            const MappedStrand& strand = result_.strand_map[test.strands[s]];
            in_order = strand.cable == link.cables[s] && strand.link == test.link && strand.leg == test.leg;
        }
        if (!in_order || test.limits.empty())
            complain("The test of leg {} of link {} does not follow its strands.", test.leg, test.link);
        for (const LossLimit& limit : test.limits) {
            if (limit.pass_db > limit.optics_db || limit.pass_db > limit.calculated_db)
                complain("A test of link {} passes more than its optics carry.", test.link);
        }
        if (test.events.size() < 2 || test.events.front().distance != Length() ||
            test.events.back().distance != test.glass)
            complain("The events of a test of link {} do not run from end to end.", test.link);
    }

    void check_labels() {
        std::map<std::string, std::size_t> counted;
        for (const Label& label : labels(scenario_, plan_, result_.strand_map))
            ++counted[label.marks];
        std::map<std::string, std::size_t> wanted;
        wanted["cable end"] = 2 * plan_.cables.size();
        for (const MappedStrand& strand : result_.strand_map) {
            for (const StrandEnd* end : {&strand.near, &strand.far})
                wanted["strand end"] += end->holder == Holder::stored || end->holder == Holder::spliced ? 0 : 1;
        }
        const auto add = [&](const char* marks, const Pieces& pieces) {
            wanted[marks] += static_cast<std::size_t>(pieces.count);
        };
        for (const PlannedEnclosure& enclosure : plan_.enclosures)
            std::ranges::for_each(enclosure.products, [&](const Pieces& pieces) { add("enclosure", pieces); });
        for (const PlannedGear& gear : plan_.building_gear)
            add("gear", gear.pieces);
        std::ranges::for_each(plan_.hub_gear, [&](const Pieces& pieces) { add("hub gear", pieces); });
        for (const auto& [marks, count] : wanted) {
            if (counted[marks] != count) complain("{} labels of {} that mark a {}.", counted[marks], count, marks);
        }
    }

    const Scenario& scenario_;
    const LayoutResult& result_;
    const Plan& plan_;
    std::vector<std::string> found_;
};

}  // namespace

std::vector<std::string> sheet_violations(const Scenario& scenario, const LayoutResult& result) {
    return Checker(scenario, result).run();
}

}  // namespace spadework
