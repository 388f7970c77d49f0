#include "rates/cable_rates.hpp"

#include <algorithm>

namespace spadework {

namespace {

__extension__ using Wide = __int128;

constexpr std::int64_t whole = 100000;  // thousandths of a percent

Length raised_by(Length length, Percent allowance) {
    const Wide exact = static_cast<Wide>(length.millimetres()) * (whole + allowance.thousandths());
    return Length::from_millimetres(static_cast<std::int64_t>((exact + whole - 1) / whole));
}

std::int64_t pieces_of(Length length, Length longest) {
    if (longest.millimetres() <= 0) return 1;
    return std::max<std::int64_t>(1, (length.millimetres() + longest.millimetres() - 1) / longest.millimetres());
}

Length rounded_up(Length length, Length step) {
    if (step.millimetres() <= 1) return length;
    const std::int64_t steps = (length.millimetres() + step.millimetres() - 1) / step.millimetres();
    return step * steps;
}

}  // namespace

Length glass_of(const CableLengths& lengths, const Rules& rules) {
    return rules.termination == Termination::factory ? lengths.ordered : lengths.with_slack;
}

int splices_in(const CableLengths& lengths, const Rules& rules) {
    return lengths.joints + (rules.termination == Termination::spliced ? 2 : 0);
}

CableLengths cable_lengths(const CableProduct& cable, Length route, int handholes, const Rules& rules) {
    const SlackRules& slack = rules.slack;
    const Length coils = slack.coil_per_handhole * handholes;
    CableLengths lengths;
    lengths.route = route;
    lengths.with_slack =
        raised_by(route + (slack.rise_per_end + slack.coil_per_end) * 2 + coils, slack.ordering_allowance);
    const Length step = rules.termination == Termination::factory ? cable.length_step : Length::from_metres(1);
    lengths.ordered = rounded_up(lengths.with_slack, step);
    lengths.joints = static_cast<int>(pieces_of(lengths.ordered, cable.longest)) - 1;
    return lengths;
}

UnitPrice least_price_per_route_metre(const CableProduct& cable, const Rules& rules) {
    const Wide exact =
        static_cast<Wide>(cable.price_per_metre.thousandths()) * (whole + rules.slack.ordering_allowance.thousandths());
    return UnitPrice::from_thousandths(static_cast<std::int64_t>(exact / whole));
}

Money least_price_of_ends(const CableProduct& cable, const Rules& rules) {
    const Length ends =
        raised_by((rules.slack.rise_per_end + rules.slack.coil_per_end) * 2, rules.slack.ordering_allowance);
    const Wide exact =
        static_cast<Wide>(cable.price_per_metre.thousandths()) * std::max<std::int64_t>(0, ends.millimetres() - 1);
    return Money::from_minor(static_cast<std::int64_t>(exact / 1000000));
}

EndWork end_work(const CableProduct& cable, int strands, const Scenario& scenario) {
    const Labour& labour = scenario.labour;
    if (scenario.rules.termination == Termination::factory) {
        return {amount(cable.factory_end_price, std::int64_t{1}), labour.plug_time * strands, labour.installer_rate};
    }
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    return {amount(splicing.pigtail_price, std::int64_t{strands}),
            splicing.set_up_time + splicing.time_per_splice * strands, splicing.rate_per_hour};
}

EndWork joint_work(const CableProduct& cable, const Scenario& scenario) {
    const SplicingPrices& splicing = scenario.catalogue.splicing;
    return {Money(), splicing.set_up_time + splicing.time_per_splice * cable.strands, splicing.rate_per_hour};
}

TestWork test_work(int strands, const Labour& labour) {
    const WorkTime time = labour.test_time * strands;
    return {time, amount(labour.installer_rate, time)};
}

}  // namespace spadework
