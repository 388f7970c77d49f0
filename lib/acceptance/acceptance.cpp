#include "acceptance/acceptance.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "acceptance/tested_strands.hpp"
#include "acceptance/words.hpp"
#include "diagnostics/nearest_name.hpp"
#include "diagnostics/shown_text.hpp"

namespace spadework::acceptance {

namespace {

using plan_file::NamedLimit;
using plan_file::NamedReading;
using plan_file::NamedTest;
using plan_file::PlanFile;
using plan_file::ReadingKey;

class Judge {
public:
    Judge(const PlanFile& plan, const std::vector<Reading>& readings, const AcceptanceLimits& limits)
        : plan_(plan), readings_(readings) {
        result_.limits = limits;
    }

    Acceptance run() {
        lay_out_sheet();
        if (plan_.as_built) take_over(*plan_.as_built);
        for (const Reading& reading : readings_)
            enter(reading);
        judge_losses();
        judge_directions();
        judge_strands();
        for (std::size_t r = 0; r < result_.readings.size(); ++r)
            settle(r);
        measure_cables();
        return std::move(result_);
    }

private:
    struct Reason {
        Verdict verdict;
        std::string why;
    };

    JudgedReading& row(std::size_t r) { return result_.readings[r]; }
    void say(std::size_t r, Verdict verdict, std::string why) { reasons_[r].push_back({verdict, std::move(why)}); }

    [[nodiscard]] std::string words(Length length) const { return length_in_words(length, plan_.feet); }

    /// One row for each strand, direction and wavelength.
    void lay_out_sheet() {
        for (const NamedTest& test : plan_.tests) {
            for (const std::string& from : {test.from, test.building}) {
                for (const NamedLimit& limit : test.limits) {
                    JudgedReading judged;
                    judged.reading.key = {test.building, test.link, test.leg, from, limit.wavelength_pm};
                    judged.way = fmt::format("{}", fmt::join(test.way, " > "));
                    judged.limit = limit;
                    judged.expected = test.glass;
                    row_of_.emplace(judged.reading.key, result_.readings.size());
                    result_.readings.push_back(std::move(judged));
                }
            }
        }
        in_plan_ = result_.readings.size();
    }

    void take_over(const plan_file::AsBuilt& earlier) {
        for (const NamedReading& reading : earlier.readings) {
            const auto found = row_of_.find(reading.key);
            if (found == row_of_.end() || (!reading.loss_mdb && !reading.length)) continue;
            row(found->second).reading = reading;
            earlier_.insert(found->second);
        }
    }

    void enter(const Reading& reading) {
        NamedReading named;
        named.key = reading.key;
        named.loss_mdb = reading.loss_mdb;
        named.length = reading.length;
        named.date = reading.date;
        named.tested_by = reading.tested_by;
        const bool of_this_layout = reading.layout.empty() || reading.layout == id_of(plan_.layout);
        const auto found = row_of_.find(reading.key);
        if (of_this_layout && found != row_of_.end()) {
            row(found->second).reading = std::move(named);
            earlier_.erase(found->second);
            return;
        }
        result_.readings.push_back({std::move(named), "", {}, {}});
        say(result_.readings.size() - 1, Verdict::not_in_plan,
            of_this_layout
                ? why_not_in_plan(reading.key)
                : fmt::format("of layout {}; the plan is {}", shown(reading.layout, 40), id_of(plan_.layout)));
    }

    [[nodiscard]] std::string why_not_in_plan(const ReadingKey& key) const {
        std::set<std::string> buildings;
        std::set<std::string> ends;
        std::set<std::string> wavelengths;
        bool has_link = false;
        bool has_strand = false;
        for (const NamedTest& test : plan_.tests) {
            buildings.insert(test.building);
            if (test.building != key.building || test.link != key.link) continue;
            has_link = true;
            if (test.leg != key.leg) continue;
            has_strand = true;
            ends = {test.from, test.building};
            for (const NamedLimit& limit : test.limits)
                wavelengths.insert(nanometres(limit.wavelength_pm));
        }
        if (!buildings.contains(key.building)) return unknown("building", key.building, buildings);
        if (!has_link) return fmt::format("{} has no link {}", shown(key.building, 40), key.link);
        if (!has_strand) {
            return fmt::format("link {} to {} has no strand {}", key.link, shown(key.building, 40), key.leg);
        }
        if (!ends.contains(key.from)) return unknown("end", key.from, ends);
        return fmt::format("not measured at {} nm but at {}", nanometres(key.wavelength_pm),
                           fmt::join(wavelengths, ", "));
    }

    static std::string unknown(const char* what, const std::string& name, const std::set<std::string>& known) {
        const std::string nearest = nearest_name(name, {known.begin(), known.end()});
        return fmt::format("the plan has no {} {}{}", what, shown(name, 40),
                           nearest.empty() ? "" : "; did you mean " + shown(nearest, 40) + "?");
    }

    void judge_losses() {
        for (std::size_t r = 0; r < in_plan_; ++r) {
            const auto& loss = row(r).reading.loss_mdb;
            const NamedLimit& limit = row(r).limit;
            if (!loss) {
                say(r, Verdict::missing, "no loss was read");
            } else if (*loss > limit.pass_mdb) {
                say(r, Verdict::fail, fmt::format("{} dB over the limit", decibels(*loss - limit.pass_mdb)));
            } else if (*loss < limit.least_mdb) {
                say(r, Verdict::too_good,
                    fmt::format("{} dB is less than {} of fibre can lose, {} dB", decibels(*loss),
                                words(row(r).expected), decibels(limit.least_mdb)));
            }
        }
    }

    /// Rows of a test: first those from one end, then those from the other, wavelengths alike.
    void judge_directions() {
        std::size_t first = 0;
        for (const NamedTest& test : plan_.tests) {
            const std::size_t count = test.limits.size();
            for (std::size_t w = 0; w < count; ++w)
                compare_directions(first + w, first + count + w);
            first += 2 * count;
        }
    }

    void compare_directions(std::size_t there, std::size_t back) {
        const auto& a = row(there).reading.loss_mdb;
        const auto& b = row(back).reading.loss_mdb;
        if (!a || !b) return;
        const std::int64_t apart = std::abs(*a - *b);
        if (apart <= result_.limits.direction_mdb) return;
        for (const std::size_t r : {there, back})
            say(r, Verdict::directions_differ, fmt::format("{} dB between the two directions", decibels(apart)));
    }

    void judge_strands() {
        strands_ = tested_strands(plan_, result_.readings);
        std::set<std::size_t> swapped;
        for (const Swap& swap : swaps_among(strands_, result_.readings, result_.limits)) {
            say_swapped(swap.a, swap.b, swap.by_length);
            say_swapped(swap.b, swap.a, swap.by_length);
            swapped.insert({swap.a, swap.b});
        }
        for (std::size_t s = 0; s < strands_.size(); ++s) {
            if (!swapped.contains(s)) judge_lengths(strands_[s]);
        }
    }

    void say_swapped(std::size_t s, std::size_t other, bool by_length) {
        for (const std::size_t r : strands_[s].rows) {
            const JudgedReading& judged = row(r);
            if (!judged.reading.loss_mdb && !judged.reading.length) continue;
            say(r, Verdict::swapped,
                fmt::format("fits the {} of {}, and that one fits this", by_length ? "length" : "loss",
                            strand_of(*strands_[other].test)));
        }
    }

    void judge_lengths(const TestedStrand& strand) {
        for (const std::size_t r : strand.rows) {
            const auto& length = row(r).reading.length;
            if (!length || length_fits(*length, row(r).expected, result_.limits)) continue;
            const bool is_longer = *length > row(r).expected;
            const Length off = is_longer ? *length - row(r).expected : row(r).expected - *length;
            say(r, Verdict::wrong_length,
                fmt::format("{} {} than the {} planned{}", words(off), is_longer ? "longer" : "shorter",
                            words(row(r).expected), as_long_as(*length, *strand.test)));
        }
    }

    /// Another strand of that length, if there is one link only that has it.
    [[nodiscard]] std::string as_long_as(Length length, const NamedTest& own) const {
        std::set<std::pair<std::string, int>> links;
        for (const NamedTest& test : plan_.tests) {
            const bool other = test.building != own.building || test.link != own.link;
            if (other && length_fits(length, test.glass, result_.limits)) links.insert({test.building, test.link});
        }
        if (links.size() != 1) return "";
        return fmt::format("; as long as {} link {}", links.begin()->first, links.begin()->second);
    }

    static std::string strand_of(const NamedTest& test) {
        return strand_in_words({test.building, test.link, test.leg, "", 0});
    }

    /// The worst reason is the verdict; all are told.
    void settle(std::size_t r) {
        NamedReading& reading = row(r).reading;
        std::vector<Reason>& reasons = reasons_[r];
        std::ranges::stable_sort(reasons, {}, &Reason::verdict);
        reading.verdict = reasons.empty() ? Verdict::pass : reasons.front().verdict;
        reading.why.clear();
        for (const Reason& reason : reasons)
            reading.why += (reading.why.empty() ? "" : "; ") + reason.why;
        ++result_.counts[static_cast<std::size_t>(reading.verdict)];
        if (reading.length) ++result_.lengths;
        if (earlier_.contains(r)) ++result_.from_earlier;
    }

    /// A cable's length is known where a link runs through it alone, and its strands are not in doubt.
    void measure_cables() {
        std::map<std::string, std::pair<std::int64_t, std::int64_t>> sums;
        for (const TestedStrand& strand : strands_) {
            const auto link = std::ranges::find_if(plan_.links, [&](const plan_file::NamedLink& one) {
                return one.building == strand.test->building && one.number == strand.test->link;
            });
            if (!strand.length || link == plan_.links.end() || link->cables.size() != 1) continue;
            const bool in_doubt = std::ranges::any_of(
                strand.rows, [&](std::size_t r) { return row(r).reading.verdict == Verdict::swapped; });
            if (in_doubt) continue;
            auto& [sum, count] = sums[link->cables.front()];
            sum += strand.length->millimetres();
            ++count;
        }
        for (const plan_file::NamedCable& cable : plan_.cables) {
            plan_file::AsBuiltCable built{cable.id, cable.lengths.ordered, {}};
            const auto found = sums.find(cable.id);
            if (found != sums.end()) {
                const auto [sum, count] = found->second;
                built.measured = Length::from_millimetres((sum + count / 2) / count);
            }
            result_.cables.push_back(std::move(built));
        }
    }

    const PlanFile& plan_;
    const std::vector<Reading>& readings_;
    Acceptance result_;
    std::map<ReadingKey, std::size_t> row_of_;
    std::size_t in_plan_ = 0;
    std::set<std::size_t> earlier_;
    std::map<std::size_t, std::vector<Reason>> reasons_;
    std::vector<TestedStrand> strands_;
};

}  // namespace

Acceptance judge(const PlanFile& plan, const std::vector<Reading>& readings, const AcceptanceLimits& limits) {
    return Judge(plan, readings, limits).run();
}

PlanFile as_built(PlanFile plan, const Acceptance& acceptance) {
    plan_file::AsBuilt built;
    built.limits = acceptance.limits;
    built.cables = acceptance.cables;
    std::set<ReadingKey> seen;
    for (const JudgedReading& judged : acceptance.readings) {
        if (seen.insert(judged.reading.key).second) built.readings.push_back(judged.reading);
    }
    plan.as_built = std::move(built);
    return plan;
}

bool length_fits(Length measured, Length expected, const AcceptanceLimits& limits) {
    constexpr std::int64_t whole = 100'000;  // Thousandths of a percent.
    // In two parts, so that no product is too large.
    const std::int64_t length = expected.millimetres();
    const std::int64_t share = length / whole * limits.length_share + length % whole * limits.length_share / whole;
    const std::int64_t off = std::abs(measured.millimetres() - length);
    return off <= std::max(share, limits.length_least.millimetres());
}

}  // namespace spadework::acceptance
