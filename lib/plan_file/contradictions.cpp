#include "plan_file/contradictions.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "diagnostics/nearest_name.hpp"
#include "diagnostics/shown_text.hpp"
#include "plan_file/strand_contradictions.hpp"

namespace spadework::plan_file {

namespace {

using json::JsonValue;
using json::Problems;

/// The value of a key; one that is not there where it is missing.
const JsonValue& field_of(const JsonValue& value, std::string_view key) {
    static const JsonValue nothing;
    for (const auto& [name, member] : value.members) {
        if (name == key) return member;
    }
    return nothing;
}

class Finder {
public:
    Finder(const JsonValue& value, const PlanFile& file, Problems& problems)
        : value_(value), file_(file), problems_(problems) {
        for (const UsedSegment& segment : file.segments)
            segments_.emplace(segment.step, &segment);
        for (const NamedCable& cable : file.cables)
            cable_ids_.insert(cable.id);
        for (const NamedEnclosure& enclosure : file.enclosures)
            enclosure_places_.insert(enclosure.place);
        for (const NamedLink& link : file.links) {
            buildings_.insert(link.building);
            links_.emplace(std::pair(link.building, link.number), &link);
        }
    }

    void run() {
        check_segments();
        check_cables();
        check_enclosures();
        check_links();
        check_chains();
        find_strand_contradictions(field_of(value_, "strands"), file_, problems_);
        check_tests();
        check_costs();
        if (file_.as_built) check_as_built(*file_.as_built);
    }

private:
    /// The value that item `i` of a list was read from.
    [[nodiscard]] const JsonValue& item(const char* list, std::size_t i) const {
        return field_of(value_, list).items[i];
    }

    void note(const JsonValue& where, const std::string& found, const std::string& wanted) {
        problems_.add(where, found, wanted);
    }

    /// Notes a name that is none of the known ones.
    void need_known(const JsonValue& where, const std::string& name, const std::set<std::string>& known,
                    const char* what) {
        if (name.empty() || known.contains(name) || problems_.too_many()) return;
        problems_.add(where, fmt::format("no {} {}", what, shown(name, 80)), fmt::format("a {} of this file", what),
                      nearest_name(name, {known.begin(), known.end()}));
    }

    void check_segments() {
        std::set<NamedStep> seen;
        for (std::size_t i = 0; i < file_.segments.size(); ++i) {
            const NamedStep& step = file_.segments[i].step;
            if (seen.insert(step).second || step.segment.empty()) continue;
            note(field_of(item("segments", i), "segment"),
                 fmt::format("segment {} by {} twice", shown(step.segment, 80), shown(step.way, 80)),
                 "each segment once in each way");
        }
    }

    void check_cables() {
        std::set<std::string> seen;
        for (std::size_t i = 0; i < file_.cables.size(); ++i) {
            const NamedCable& cable = file_.cables[i];
            const JsonValue& where = item("cables", i);
            if (!cable.id.empty() && !seen.insert(cable.id).second)
                note(field_of(where, "id"), fmt::format("cable {} twice", shown(cable.id, 80)), "each cable once");
            check_walk(cable, where);
            check_lengths(cable, where);
            if (cable.need.total() > cable.strands) {
                note(field_of(where, "strands"),
                     fmt::format("{} strands for a need of {}", cable.strands, cable.need.total()),
                     "no fewer than in_use, spare and headroom together");
            }
            need_known(field_of(where, "enclosure"), cable.enclosure, enclosure_places_, "enclosure at");
            check_cut(i, where);
        }
    }

    /// A part of a trunk that was cut goes on where the part before it ends in an enclosure; each place has one cut.
    void check_cut(std::size_t i, const JsonValue& where) {
        const NamedCable& cable = file_.cables[i];
        if (cable.spliced_to.empty()) return;
        const JsonValue& key = field_of(where, "spliced_to");
        const auto end = file_.cables.begin() + static_cast<std::ptrdiff_t>(i);
        const auto before =
            std::find_if(file_.cables.begin(), end, [&](const NamedCable& one) { return one.id == cable.spliced_to; });
        if (before == end) {
            note(key, fmt::format("spliced to {}", shown(cable.spliced_to, 80)), "the id of an earlier cable");
            return;
        }
        const bool joined = before->role == CableRole::trunk && cable.role == CableRole::trunk &&
                            before->product == cable.product && before->strands == cable.strands &&
                            before->to == cable.from && before->enclosure == cable.from;
        if (!joined)
            note(key, "parts that do not join", "two parts of one product, joined in the enclosure where the one ends");
        if (!cuts_.insert(cable.from).second)
            note(key, fmt::format("a second trunk cut at {}", shown(cable.from, 80)), "one at each place");
        const bool fits = cable.need.in_use <= before->need.in_use && cable.need.spare <= before->need.spare &&
                          cable.need.headroom <= before->need.headroom;
        if (!fits) note(key, "more strands set aside than in the part before it", "no more of each kind");
    }

    /// Follows a cable from place to place.
    void check_walk(const NamedCable& cable, const JsonValue& where) {
        const JsonValue& steps = field_of(where, "steps");
        std::string at = cable.from;
        Length walked;
        for (std::size_t s = 0; s < cable.steps.size(); ++s) {
            const NamedStep& step = cable.steps[s];
            if (step.segment.empty()) return;
            const auto found = segments_.find(step);
            if (found == segments_.end()) {
                note(steps.items[s], fmt::format("a step over {} by {}", shown(step.segment, 80), shown(step.way, 80)),
                     "a segment and way of the list 'segments'");
                return;
            }
            const UsedSegment* segment = found->second;
            if (segment->from != at && segment->to != at) {
                note(steps.items[s],
                     fmt::format("a step over {}, which does not begin at {}", shown(step.segment, 80), shown(at, 80)),
                     "steps joined end to end");
                return;
            }
            at = segment->from == at ? segment->to : segment->from;
            walked += segment->length;
        }
        if (at != cable.to) {
            note(field_of(where, "to"), fmt::format("steps that end at {}", shown(at, 80)),
                 fmt::format("steps that end at {}", shown(cable.to, 80)));
        }
        if (walked != cable.lengths.route) {
            note(field_of(where, "route_mm"), fmt::format("a route of {}", cable.lengths.route.millimetres()),
                 fmt::format("{}, the sum of its steps", walked.millimetres()));
        }
    }

    void check_lengths(const NamedCable& cable, const JsonValue& where) {
        const CableLengths& lengths = cable.lengths;
        if (lengths.with_slack >= lengths.route && lengths.ordered >= lengths.with_slack) return;
        note(field_of(where, "ordered_mm"),
             fmt::format("lengths of {}, {} and {}", lengths.route.millimetres(), lengths.with_slack.millimetres(),
                         lengths.ordered.millimetres()),
             "route, with slack and ordered, none shorter than the one before");
    }

    void check_enclosures() {
        std::set<std::string> seen;
        for (std::size_t i = 0; i < file_.enclosures.size(); ++i) {
            const NamedEnclosure& enclosure = file_.enclosures[i];
            const JsonValue& where = item("enclosures", i);
            if (!enclosure.place.empty() && !seen.insert(enclosure.place).second) {
                note(field_of(where, "place"), fmt::format("enclosure at {} twice", shown(enclosure.place, 80)),
                     "each place once");
            }
            for (std::size_t t = 0; t < enclosure.trunks.size(); ++t)
                need_known(field_of(where, "trunks").items[t], enclosure.trunks[t], cable_ids_, "cable");
            for (std::size_t b = 0; b < enclosure.serves.size(); ++b)
                need_known(field_of(where, "serves").items[b], enclosure.serves[b], buildings_, "link to");
        }
    }

    void check_links() {
        std::set<std::pair<std::string, int>> seen;
        for (std::size_t i = 0; i < file_.links.size(); ++i) {
            const NamedLink& link = file_.links[i];
            const JsonValue& where = item("links", i);
            if (!link.building.empty() && !seen.insert({link.building, link.number}).second) {
                note(field_of(where, "number"),
                     fmt::format("link {} to {} twice", link.number, shown(link.building, 80)), "each link once");
            }
            if (link.cables.empty()) note(field_of(where, "cables"), "a link through no cable", "one cable at least");
            for (std::size_t c = 0; c < link.cables.size(); ++c)
                need_known(field_of(where, "cables").items[c], link.cables[c], cable_ids_, "cable");
        }
    }

    void check_chains() {
        for (std::size_t i = 0; i < file_.chains.size(); ++i) {
            for (std::size_t b = 0; b < file_.chains[i].size(); ++b)
                need_known(item("chains", i).items[b], file_.chains[i][b], buildings_, "link to");
        }
    }

    void check_tests() {
        std::set<std::tuple<std::string, int, int>> seen;
        for (std::size_t i = 0; i < file_.tests.size(); ++i) {
            const NamedTest& test = file_.tests[i];
            const JsonValue& where = item("tests", i);
            if (test.building.empty()) continue;
            const auto link = links_.find({test.building, test.link});
            if (link == links_.end() || test.leg > link->second->strands) {
                note(where,
                     fmt::format("a test of strand {} of link {} to {}", test.leg, test.link, shown(test.building, 80)),
                     "a strand of a link of this file");
                continue;
            }
            if (!seen.insert({test.building, test.link, test.leg}).second)
                note(where, "a second test of the strand", "one test a strand");
            check_limits(test, where);
        }
        check_all_tested(seen);
    }

    void check_limits(const NamedTest& test, const JsonValue& where) {
        std::set<std::int64_t> wavelengths;
        for (const NamedLimit& limit : test.limits) {
            if (!wavelengths.insert(limit.wavelength_pm).second)
                note(field_of(where, "limits"), "two limits at one wavelength", "one limit a wavelength");
        }
        for (const NamedEvent& event : test.events) {
            if (event.distance > test.glass)
                note(field_of(where, "events"), "an event beyond the strand's end", "distances up to glass_mm");
        }
    }

    void check_all_tested(const std::set<std::tuple<std::string, int, int>>& seen) {
        for (std::size_t i = 0; i < file_.links.size(); ++i) {
            const NamedLink& link = file_.links[i];
            // Stops at the first that is missing: the number of strands is no more than what the file says.
            for (int leg = 1; leg <= link.strands && !link.building.empty(); ++leg) {
                if (seen.contains({link.building, link.number, leg})) continue;
                note(item("links", i), fmt::format("no test of strand {} of this link", leg),
                     "a test for each strand in the list 'tests'");
                break;
            }
        }
    }

    void check_costs() {
        const JsonValue& costs = field_of(value_, "costs");
        std::set<std::string> seen;
        std::int64_t sum = 0;
        bool fits = true;
        for (const auto& [category, amount] : file_.costs.categories) {
            if (!seen.insert(category).second)
                note(field_of(costs, "categories"), fmt::format("category {} twice", shown(category, 80)), "each once");
            fits = fits && !__builtin_add_overflow(sum, amount.minor(), &sum);
        }
        if (fits && sum == file_.costs.total.minor()) return;
        note(field_of(costs, "total"), fmt::format("a total of {}", file_.costs.total.minor()),
             "the sum of the categories");
    }

    void check_as_built(const AsBuilt& as_built) {
        const JsonValue& where = field_of(value_, "as_built");
        for (std::size_t i = 0; i < as_built.cables.size(); ++i)
            need_known(field_of(field_of(where, "cables").items[i], "cable"), as_built.cables[i].cable, cable_ids_,
                       "cable");
        std::set<ReadingKey> seen;
        for (std::size_t i = 0; i < as_built.readings.size(); ++i) {
            const ReadingKey& key = as_built.readings[i].key;
            if (key.building.empty() || seen.insert(key).second) continue;
            note(field_of(where, "readings").items[i], "a second reading of the same", "one reading each");
        }
    }

    const JsonValue& value_;
    const PlanFile& file_;
    Problems& problems_;
    std::map<NamedStep, const UsedSegment*> segments_;
    std::set<std::string> cable_ids_;
    std::set<std::string> enclosure_places_;
    std::set<std::string> cuts_;  ///< Places of trunks that were cut.
    std::set<std::string> buildings_;
    std::map<std::pair<std::string, int>, const NamedLink*> links_;
};

}  // namespace

void find_contradictions(const JsonValue& value, const PlanFile& file, Problems& problems) {
    Finder(value, file, problems).run();
}

}  // namespace spadework::plan_file
