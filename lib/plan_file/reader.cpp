#include "plan_file/reader.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diagnostics/nearest_name.hpp"
#include "json/fields.hpp"
#include "json/json_value.hpp"
#include "plan_file/contradictions.hpp"
#include "plan_file/plan_words.hpp"

namespace spadework::plan_file {

namespace {

using json::Fields;
using json::in_words;
using json::items;
using json::JsonKind;
using json::JsonValue;
using json::Problems;
using json::Range;

constexpr Range millimetres{0, 1'000'000'000'000};
constexpr Range counts{0, 1'000'000};
constexpr Range any_money{-1'200'000'000'000'000'000, 1'200'000'000'000'000'000};
constexpr Range any_thousandths{-1'000'000'000'000'000, 1'000'000'000'000'000};

/// Reads one kind of thing after another.
class Reader {
public:
    /// `cuts`: the file's version knows trunks that were cut.
    Reader(Problems& problems, bool cuts) : problems_(problems), cuts_(cuts) {}

    PlanFile plan(const JsonValue& value) {
        const Fields fields(
            value,
            {"format", "version", "site", "layout", "straight_lines", "segments", "cables", "enclosures", "links",
             "building_gear", "hub_gear", "hub_ports", "chains", "strands", "tests", "labels", "costs"},
            problems_, {"as_built"});
        PlanFile plan;
        site(fields["site"], plan);
        plan.layout = static_cast<LayoutKind>(word(fields["layout"], layout_ids()));
        plan.straight_lines = list(fields["straight_lines"], &Reader::line);
        plan.segments = list(fields["segments"], &Reader::segment);
        plan.cables = list(fields["cables"], &Reader::cable);
        plan.enclosures = list(fields["enclosures"], &Reader::enclosure);
        plan.links = list(fields["links"], &Reader::link);
        plan.building_gear = list(fields["building_gear"], &Reader::gear);
        plan.hub_gear = list(fields["hub_gear"], &Reader::pieces);
        plan.hub_ports = count(fields["hub_ports"]);
        plan.chains = list(fields["chains"], &Reader::names);
        plan.strands = list(fields["strands"], &Reader::strand);
        plan.tests = list(fields["tests"], &Reader::test);
        plan.labels = list(fields["labels"], &Reader::label);
        plan.costs = costs(fields["costs"]);
        if (fields["as_built"].kind != JsonKind::null) plan.as_built = as_built(fields["as_built"]);
        return plan;
    }

private:
    template <typename Item>
    std::vector<Item> list(const JsonValue& value, Item (Reader::*read)(const JsonValue&)) {
        std::vector<Item> all;
        for (const JsonValue& item : items(value, problems_))
            all.push_back((this->*read)(item));
        return all;
    }

    std::string text(const JsonValue& value) { return json::text(value, problems_); }
    /// A text that is not empty: what names something.
    std::string name(const JsonValue& value) {
        std::string read = text(value);
        if (read.empty() && value.kind == JsonKind::text) problems_.add(value, "an empty text", "a name");
        return read;
    }
    std::string name_or_none(const JsonValue& value) { return value.kind == JsonKind::null ? "" : name(value); }
    std::vector<std::string> names(const JsonValue& value) { return list(value, &Reader::name); }
    int count(const JsonValue& value) { return static_cast<int>(json::whole(value, counts, problems_)); }
    int count_from_one(const JsonValue& value) {
        return static_cast<int>(json::whole(value, {1, counts.most}, problems_));
    }
    Length length(const JsonValue& value) {
        return Length::from_millimetres(json::whole(value, millimetres, problems_));
    }
    std::int64_t thousandths_of(const JsonValue& value) { return json::whole(value, any_thousandths, problems_); }

    /// Which of these words it is; the first, and a problem noted, where it is none.
    std::size_t word(const JsonValue& value, const std::vector<std::string>& words) {
        for (std::size_t i = 0; i < words.size(); ++i) {
            if (value.kind == JsonKind::text && value.text == words[i]) return i;
        }
        const std::string nearest = value.kind == JsonKind::text ? nearest_name(value.text, words) : "";
        problems_.add(value, in_words(value), fmt::format("one of {}", fmt::join(words, ", ")), nearest);
        return 0;
    }

    void site(const JsonValue& value, PlanFile& plan) {
        const Fields fields(value, {"name", "digest", "length_unit", "termination"}, problems_);
        plan.site_name = text(fields["name"]);
        plan.site_digest = text(fields["digest"]);
        plan.feet = word(fields["length_unit"], {"m", "ft"}) == 1;
        plan.termination =
            word(fields["termination"], {"factory", "spliced"}) == 0 ? Termination::factory : Termination::spliced;
    }

    NamedLine line(const JsonValue& value) {
        const Fields fields(value, {"segment", "from", "to", "like"}, problems_);
        return {name(fields["segment"]), name(fields["from"]), name(fields["to"]), name(fields["like"])};
    }

    UsedSegment segment(const JsonValue& value) {
        const Fields fields(value, {"segment", "way", "from", "to", "ground", "length_mm"}, problems_);
        return {{name(fields["segment"]), name(fields["way"])},
                name(fields["from"]),
                name(fields["to"]),
                name(fields["ground"]),
                length(fields["length_mm"])};
    }

    NamedStep step(const JsonValue& value) {
        if (value.kind == JsonKind::list && value.items.size() == 2) {
            return {name(value.items[0]), name(value.items[1])};
        }
        problems_.add(value, in_words(value), "a list of a segment and its way");
        return {};
    }

    NamedPieces pieces(const JsonValue& value) {
        if (value.kind == JsonKind::list && value.items.size() == 2) {
            return {name(value.items[0]), count_from_one(value.items[1])};
        }
        problems_.add(value, in_words(value), "a list of a product and a number");
        return {};
    }

    StrandNeed need(const Fields& fields) {
        return {count(fields["in_use"]), count(fields["spare"]), count(fields["headroom"])};
    }

    NamedCable cable(const JsonValue& value) {
        const Fields fields(value,
                            {"id", "role", "from", "to", "steps", "product", "strands", "in_use", "spare", "headroom",
                             "route_mm", "with_slack_mm", "ordered_mm", "joints", "building", "enclosure"},
                            problems_, cuts_ ? std::vector<const char*>{"spliced_to"} : std::vector<const char*>{});
        NamedCable cable;
        cable.id = name(fields["id"]);
        cable.role = static_cast<CableRole>(word(fields["role"], role_words()));
        cable.from = name(fields["from"]);
        cable.to = name(fields["to"]);
        cable.steps = list(fields["steps"], &Reader::step);
        cable.product = name(fields["product"]);
        cable.strands = count(fields["strands"]);
        cable.need = need(fields);
        cable.lengths = {length(fields["route_mm"]), length(fields["with_slack_mm"]), length(fields["ordered_mm"]),
                         count(fields["joints"])};
        cable.building = name_or_none(fields["building"]);
        cable.enclosure = name_or_none(fields["enclosure"]);
        if (cuts_) cable.spliced_to = name_or_none(fields["spliced_to"]);
        return cable;
    }

    NamedEnclosure enclosure(const JsonValue& value) {
        const Fields fields(value, {"place", "products", "in_use", "spare", "headroom", "trunks", "serves"}, problems_);
        return {name(fields["place"]), list(fields["products"], &Reader::pieces), need(fields), names(fields["trunks"]),
                names(fields["serves"])};
    }

    NamedLink link(const JsonValue& value) {
        const Fields fields(value,
                            {"building", "number", "from", "megabits", "optic", "strands", "cables", "glass_mm",
                             "mated_pairs", "splices"},
                            problems_, {"attenuator_at_start", "attenuator_at_end"});
        NamedLink link;
        link.building = name(fields["building"]);
        link.number = count_from_one(fields["number"]);
        link.from = name_or_none(fields["from"]);
        link.rate = BitRate::from_megabits(json::whole(fields["megabits"], {0, 2'000'000'000}, problems_));
        link.optic = name(fields["optic"]);
        link.attenuator_at_start = name_or_none(fields["attenuator_at_start"]);
        link.attenuator_at_end = name_or_none(fields["attenuator_at_end"]);
        link.strands = count_from_one(fields["strands"]);
        link.cables = names(fields["cables"]);
        link.glass = length(fields["glass_mm"]);
        link.mated_pairs = count(fields["mated_pairs"]);
        link.splices = count(fields["splices"]);
        return link;
    }

    NamedGear gear(const JsonValue& value) {
        const Fields fields(value, {"building", "product", "pieces"}, problems_);
        return {name(fields["building"]), {name(fields["product"]), count_from_one(fields["pieces"])}};
    }

    Holder holder(const JsonValue& value) {
        std::vector<std::string> words = holder_words();
        if (!cuts_) words.pop_back();
        return static_cast<Holder>(word(value, words));
    }

    NamedStrand strand(const JsonValue& value) {
        const Fields fields(value,
                            {"cable", "strand", "tube", "colour", "purpose", "building", "link", "leg", "near",
                             "near_adapter", "near_port", "far", "far_adapter", "far_port"},
                            problems_);
        NamedStrand strand;
        strand.kept = {name(fields["cable"]),
                       count_from_one(fields["strand"]),
                       name_or_none(fields["building"]),
                       count(fields["link"]),
                       count(fields["leg"]),
                       count(fields["near_adapter"]),
                       count(fields["near_port"]),
                       count(fields["far_adapter"]),
                       count(fields["far_port"])};
        strand.colour = {text(fields["tube"]), text(fields["colour"])};
        strand.purpose = static_cast<StrandPurpose>(word(fields["purpose"], purpose_words()));
        strand.near = holder(fields["near"]);
        strand.far = holder(fields["far"]);
        return strand;
    }

    NamedLimit limit(const JsonValue& value) {
        const Fields fields(value, {"wavelength_pm", "calculated_mdb", "optics_mdb", "pass_mdb", "least_mdb"},
                            problems_);
        return {json::whole(fields["wavelength_pm"], {1, any_thousandths.most}, problems_),
                thousandths_of(fields["calculated_mdb"]), thousandths_of(fields["optics_mdb"]),
                thousandths_of(fields["pass_mdb"]), thousandths_of(fields["least_mdb"])};
    }

    NamedEvent event(const JsonValue& value) {
        const Fields fields(value, {"what", "where", "distance_mm"}, problems_);
        return {name(fields["what"]), name(fields["where"]), length(fields["distance_mm"])};
    }

    NamedTest test(const JsonValue& value) {
        const Fields fields(value, {"building", "link", "strand", "from", "way", "glass_mm", "limits", "events"},
                            problems_);
        return {name(fields["building"]),
                count_from_one(fields["link"]),
                count_from_one(fields["strand"]),
                name(fields["from"]),
                names(fields["way"]),
                length(fields["glass_mm"]),
                list(fields["limits"], &Reader::limit),
                list(fields["events"], &Reader::event)};
    }

    NamedLabel label(const JsonValue& value) {
        const Fields fields(value, {"place", "marks", "line_1", "line_2"}, problems_);
        NamedLabel label;
        label.place = name(fields["place"]);
        label.marks = name(fields["marks"]);
        label.line_1 = text(fields["line_1"]);
        label.line_2 = text(fields["line_2"]);
        return label;
    }

    std::pair<std::string, Money> category(const JsonValue& value) {
        const Fields fields(value, {"category", "amount"}, problems_);
        return {name(fields["category"]), Money::from_minor(json::whole(fields["amount"], any_money, problems_))};
    }

    NamedCosts costs(const JsonValue& value) {
        const Fields fields(value, {"currency", "digits", "categories", "total"}, problems_);
        return {name(fields["currency"]), static_cast<int>(json::whole(fields["digits"], {0, 6}, problems_)),
                list(fields["categories"], &Reader::category),
                Money::from_minor(json::whole(fields["total"], any_money, problems_))};
    }

    AcceptanceLimits limits(const JsonValue& value) {
        const Fields fields(value, {"length_thousandths_percent", "length_least_mm", "direction_mdb"}, problems_);
        return {json::whole(fields["length_thousandths_percent"], {0, 100'000}, problems_),
                length(fields["length_least_mm"]),
                json::whole(fields["direction_mdb"], {0, any_thousandths.most}, problems_)};
    }

    std::optional<Length> length_or_none(const JsonValue& value) {
        if (value.kind == JsonKind::null) return std::nullopt;
        return length(value);
    }

    AsBuiltCable as_built_cable(const JsonValue& value) {
        const Fields fields(value, {"cable", "ordered_mm", "measured_mm"}, problems_);
        return {name(fields["cable"]), length(fields["ordered_mm"]), length_or_none(fields["measured_mm"])};
    }

    NamedReading reading(const JsonValue& value) {
        const Fields fields(value,
                            {"building", "link", "strand", "from", "wavelength_pm", "loss_mdb", "length_mm", "date",
                             "tested_by", "verdict", "why"},
                            problems_);
        NamedReading reading;
        reading.key = {name(fields["building"]), count(fields["link"]), count(fields["strand"]), name(fields["from"]),
                       json::whole(fields["wavelength_pm"], {0, any_thousandths.most}, problems_)};
        if (fields["loss_mdb"].kind != JsonKind::null)
            reading.loss_mdb = json::whole(fields["loss_mdb"], {0, any_thousandths.most}, problems_);
        reading.length = length_or_none(fields["length_mm"]);
        reading.date = text(fields["date"]);
        reading.tested_by = text(fields["tested_by"]);
        reading.verdict = static_cast<Verdict>(word(fields["verdict"], verdict_words()));
        reading.why = text(fields["why"]);
        return reading;
    }

    AsBuilt as_built(const JsonValue& value) {
        const Fields fields(value, {"limits", "cables", "readings"}, problems_);
        return {limits(fields["limits"]), list(fields["cables"], &Reader::as_built_cable),
                list(fields["readings"], &Reader::reading)};
    }

    Problems& problems_;
    bool cuts_;
};

/// The value of a key of an object; null where it has none.
const JsonValue* member_of(const JsonValue& value, std::string_view key) {
    for (const auto& [name, member] : value.members) {
        if (name == key) return &member;
    }
    return nullptr;
}

bool is_version(const JsonValue& value, int version) {
    return value.kind == JsonKind::number && value.number == version;
}

/// Whether the file says that it is a plan file of a version that is known. What says otherwise is not read further.
bool is_of_the_format(const JsonValue& value, Problems& problems) {
    const JsonValue* format = member_of(value, "format");
    const JsonValue* version = member_of(value, "version");
    if (format == nullptr) {
        problems.add(value, in_words(value) + " without a key 'format'",
                     fmt::format("a plan file, \"format\": \"{}\"", format_name));
        return false;
    }
    if (format->text != format_name) problems.add(*format, in_words(*format), fmt::format("text '{}'", format_name));
    if (version == nullptr) {
        problems.add(value, "no key 'version'", fmt::format("\"version\": {}", format_version));
    } else if (!is_version(*version, format_version) && !is_version(*version, format_version_with_cuts)) {
        problems.add(
            *version, "a plan file of version " + in_words(*version),
            fmt::format("version {} or {}, those that this program reads", format_version, format_version_with_cuts));
    }
    return problems.none();
}

}  // namespace

ReadPlanFile read_plan_file(const std::string& file, std::string_view text) {
    ReadPlanFile read;
    if (text.size() > largest_file_bytes) {
        read.diagnostics.push_back({{file, 0, 0}, Severity::error, "more than 64 MiB", "a smaller file", {}});
        return read;
    }
    const auto value = json::parse_object(file, text, "a plan file", read.diagnostics);
    if (!value) return read;
    Problems problems(file);
    if (is_of_the_format(*value, problems)) {
        const bool cuts = is_version(*member_of(*value, "version"), format_version_with_cuts);
        PlanFile plan = Reader(problems, cuts).plan(*value);
        find_contradictions(*value, plan, problems);
        if (problems.none()) read.plan = std::move(plan);
    }
    read.diagnostics = problems.list();
    sort_for_reading(read.diagnostics);
    return read;
}

}  // namespace spadework::plan_file
