#include "survey/tag_table_reading.hpp"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "site_file/fields.hpp"
#include "site_file/keys.hpp"
#include "site_file/parsing.hpp"

namespace spadework::survey {

namespace {

using site_file::Document;
using site_file::Fields;
using site_file::Key;
using site_file::no_node;
using site_file::NodeId;
using site_file::NodeKind;
using site_file::Reading;
using site_file::Record;
using site_file::ValueType;

constexpr std::string_view uses_of_lines = "dig barred left-out";
constexpr std::string_view uses_of_areas = "building open-ground obstacle overlay left-out";
constexpr std::string_view uses_of_points = "building entrance left-out";

/// The keys of a rule; lists of rules differ in what `use` may be.
std::vector<Key> rule_keys(std::string_view uses) {
    return {
        {.name = "tag", .type = ValueType::text, .meaning = "The tag it looks at."},
        {.name = "tags", .type = ValueType::texts, .meaning = "Several tags, of which one is enough."},
        {.name = "values", .type = ValueType::texts, .meaning = "Values of the tag; any but 'no' where not given."},
        {.name = "formats", .type = ValueType::texts, .meaning = "Only in files of these formats."},
        {.name = "bare", .type = ValueType::flag, .fallback = "false", .meaning = "Only what has no tags at all."},
        {.name = "use", .type = ValueType::choice, .choices = uses, .meaning = "What it is."},
        {.name = "ground", .type = ValueType::id, .meaning = "Ground it lies on."},
        {.name = "over-surface",
         .type = ValueType::flag,
         .fallback = "false",
         .meaning = "The ground counts even where the map states a surface."},
        {.name = "reason", .type = ValueType::text, .meaning = "Why a line is barred."},
        {.name = "extra-per-metre",
         .type = ValueType::number,
         .fallback = "0",
         .meaning = "Of an overlay, on top of opening what lies inside, in the currency."},
        {.name = "charges",
         .type = ValueType::record_list,
         .record = &site_file::charge_record(),
         .meaning = "Paid once for each segment that is used."},
    };
}

const Record& rule_record(std::string_view uses) {
    static const std::vector<Key> keys_of_lines = rule_keys(uses_of_lines);
    static const std::vector<Key> keys_of_areas = rule_keys(uses_of_areas);
    static const std::vector<Key> keys_of_points = rule_keys(uses_of_points);
    static const Record lines = {"a rule for lines", "lines[]", keys_of_lines};
    static const Record areas = {"a rule for areas", "areas[]", keys_of_areas};
    static const Record points = {"a rule for points", "points[]", keys_of_points};
    return uses == uses_of_lines ? lines : uses == uses_of_areas ? areas : points;
}

const Record& table_record() {
    static const Key keys[] = {
        {.name = "format", .type = ValueType::whole, .required = true, .least = 1, .most = 1},
        {.name = "surfaces", .type = ValueType::record_list, .record = &rule_record(uses_of_lines)},
        {.name = "lines", .type = ValueType::record_list, .record = &rule_record(uses_of_lines)},
        {.name = "areas", .type = ValueType::record_list, .record = &rule_record(uses_of_areas)},
        {.name = "points", .type = ValueType::record_list, .record = &rule_record(uses_of_points)},
    };
    static const Record record = {"a tag table", "table", keys};
    return record;
}

Use use_of(Fields& fields, const Record& record) {
    const int number = fields.choice("use");
    if (number < 0) return Use::unsaid;
    const Key* key = site_file::find_key(record, "use");
    const std::string word = site_file::choice_list(*key)[static_cast<std::size_t>(number)];
    constexpr std::pair<std::string_view, Use> words[] = {
        {"dig", Use::dig},           {"barred", Use::barred},     {"left-out", Use::left_out},
        {"building", Use::building}, {"entrance", Use::entrance}, {"open-ground", Use::open_ground},
        {"obstacle", Use::obstacle}, {"overlay", Use::overlay},
    };
    const auto found = std::find_if(std::begin(words), std::end(words), [&](const auto& w) { return w.first == word; });
    return found->second;
}

class TableReader {
public:
    TableReader(Reading& reading, const std::vector<std::string>& grounds) : reading_(reading), grounds_(grounds) {}

    TagTable read(const Document& document) {
        Fields fields(reading_, document, document.root, table_record(), "");
        fields.whole("format");
        TagTable table;
        table.surfaces = rules(fields, "surfaces", rule_record(uses_of_lines));
        table.lines = rules(fields, "lines", rule_record(uses_of_lines));
        table.areas = rules(fields, "areas", rule_record(uses_of_areas));
        table.points = rules(fields, "points", rule_record(uses_of_points));
        for (const TagRule& rule : table.surfaces) {
            if (rule.ground.empty()) reading_.error(rule.where, "a rule for surfaces without a ground", "'ground'");
        }
        return table;
    }

private:
    std::vector<TagRule> rules(Fields& fields, std::string_view key, const Record& record) {
        std::vector<TagRule> list;
        for (const NodeId node : fields.items(key))
            list.push_back(rule(fields.item(key, node, std::to_string(list.size() + 1)), record));
        return list;
    }

    TagRule rule(Fields fields, const Record& record) {
        TagRule rule;
        rule.where = fields.position();
        if (fields.has("tag")) rule.tags.push_back(fields.text("tag"));
        for (std::string& tag : fields.texts("tags"))
            rule.tags.push_back(std::move(tag));
        rule.values = fields.texts("values");
        rule.formats = fields.texts("formats");
        rule.bare = fields.flag("bare");
        rule.use = use_of(fields, record);
        rule.ground = ground(fields);
        rule.over_surface = fields.flag("over-surface");
        rule.reason = fields.text("reason");
        rule.extra_per_metre = fields.number("extra-per-metre");
        rule.charges = charges(fields);
        check(fields, rule);
        return rule;
    }

    std::string ground(Fields& fields) {
        std::string id = fields.id("ground");
        const bool known = id.empty() || std::find(grounds_.begin(), grounds_.end(), id) != grounds_.end();
        if (!known) {
            reading_.error(fields.position("ground"), fmt::format("no ground {}", site_file::quoted(id)),
                           fmt::format("one of {}", fmt::join(grounds_, ", ")), reading_.nearest(id, grounds_));
        }
        return id;
    }

    std::vector<FixedCharge> charges(Fields& fields) {
        std::vector<FixedCharge> list;
        for (const NodeId node : fields.items("charges")) {
            Fields charge = fields.item("charges", node, std::to_string(list.size() + 1));
            const int category = charge.choice("category");
            list.push_back({charge.text("what"), category == 1 ? ChargeCategory::permit : ChargeCategory::crossing,
                            charge.money("amount")});
        }
        return list;
    }

    void check(Fields& fields, const TagRule& rule) {
        if (!rule.values.empty() && rule.tags.empty())
            reading_.error(fields.position("values"), "values of no tag", "'tag' beside 'values'");
        if (rule.use == Use::barred && rule.reason.empty())
            reading_.error(fields.position("use"), "a barred line without a reason", "'reason' beside 'use: barred'");
        if (rule.use == Use::open_ground && rule.ground.empty())
            reading_.error(fields.position("use"), "open ground without a ground",
                           "'ground' beside 'use: open-ground'");
        if (!fields.has("use") && rule.ground.empty() && rule.charges.empty())
            reading_.error(fields.position(), "a rule that says nothing", "'use', 'ground' or 'charges'");
    }

    Reading& reading_;
    const std::vector<std::string>& grounds_;
};

std::optional<Document> parsed(const site_file::SourceText& source, Diagnostics& diagnostics) {
    if (!site_file::is_readable(source, diagnostics)) return std::nullopt;
    return site_file::parse_yaml(source, diagnostics);
}

}  // namespace

std::optional<TagTable> read_tag_table(const site_file::SourceText& source, const std::vector<std::string>& grounds,
                                       const Currency& currency, Diagnostics& diagnostics) {
    const auto document = parsed(source, diagnostics);
    if (!document) return std::nullopt;
    Reading reading;
    reading.currency = currency;
    TagTable table = TableReader(reading, grounds).read(*document);
    diagnostics.insert(diagnostics.end(), reading.diagnostics.begin(), reading.diagnostics.end());
    if (has_errors(reading.diagnostics)) return std::nullopt;
    return table;
}

std::optional<std::vector<std::string>> ground_names(const site_file::SourceText& source, Diagnostics& diagnostics) {
    const auto document = parsed(source, diagnostics);
    if (!document) return std::nullopt;
    std::vector<std::string> names;
    if (document->at(document->root).kind == NodeKind::mapping) {
        const std::vector<NodeId> children = document->children(document->root);
        for (std::size_t i = 0; i < children.size(); i += 2)
            names.push_back(document->at(children[i]).text);
    }
    if (!names.empty()) return names;
    diagnostics.push_back({document->position(document->root), Severity::error,
                           site_file::description(document->at(document->root)) + " where grounds belong",
                           "names of grounds, each with its ways of opening", ""});
    return std::nullopt;
}

}  // namespace spadework::survey
