#include "site_file/varying_site.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "scenario/lookup.hpp"
#include "scenario/money_range.hpp"
#include "scenario/ordering.hpp"
#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"

namespace spadework::site_file {

namespace {

bool has_error(const Reading& reading) {
    return reading.not_listed > 0 ||
           std::any_of(reading.diagnostics.begin(), reading.diagnostics.end(),
                       [](const Diagnostic& diagnostic) { return diagnostic.severity == Severity::error; });
}

Fields fields_of(const Section& section, const Record& record, const char* path, Reading& reading) {
    return Fields(reading, *section.document, section.node, record, path);
}

/// Sorts the parts of a scenario that has nothing else, as those of a whole one are sorted.
void put_parts_in_order(Scenario& parts) {
    parts.places.emplace_back();  // Where its hub stands.
    put_in_order(parts);
}

/// Nodes of a section and all that stands below it.
std::set<NodeId> nodes_below(const Document& document, NodeId top) {
    std::set<NodeId> below;
    std::vector<NodeId> waiting = {top};
    while (!waiting.empty()) {
        const NodeId node = waiting.back();
        waiting.pop_back();
        if (node == no_node) continue;
        below.insert(node);
        for (const NodeId child : document.children(node))
            waiting.push_back(child);
    }
    return below;
}

bool holds(const Section& section, const std::vector<FoundRange>& found) {
    if (section.node == no_node) return false;
    const std::set<NodeId> below = nodes_below(*section.document, section.node);
    return std::any_of(found.begin(), found.end(), [&](const FoundRange& range) {
        return range.document == section.document && below.contains(range.node);
    });
}

/// The items of one list of the map that hold ranges.
void add_items(const Document& document, NodeId list, bool places, const std::vector<FoundRange>& found,
               std::vector<MapItem>& items) {
    for (const NodeId item : document.children(list)) {
        if (!holds({&document, item, false}, found)) continue;
        const NodeId id = document.find(item, "id");
        if (id != no_node) items.push_back({document.at(id).text, item, places});
    }
}

void read_map_item(const Document& document, const MapItem& item, Reading& reading, Scenario& scenario) {
    if (item.is_place) {
        const auto place = find_place(scenario, item.id);
        if (!place) return;
        Fields fields(reading, document, item.node, place_record(), "");
        scenario.places[static_cast<std::size_t>(*place)].enclosure_extra = fields.record("enclosure").money("extra");
        return;
    }
    const auto segment = find_segment(scenario, item.id);
    if (!segment) return;
    Fields fields(reading, document, item.node, segment_record(), "");
    Segment& kept = scenario.segments[static_cast<std::size_t>(*segment)];
    if (fields.has("length")) kept.length = fields.length("length");
    kept.charges = read_charges(fields);
}

Rules read_rules_again(const Section& section, const char* path, Reading& reading) {
    Draft unused;
    return read_rules(fields_of(section, rules_record(), path, reading), reading, unused);
}

/// Growth with other numbers; whom it names stays.
Growth read_growth_again(const Section& section, const char* path, Reading& reading, Growth before) {
    Draft unused;
    Growth growth = read_growth(fields_of(section, growth_record(), path, reading), reading, unused);
    std::swap(growth.buildings, before.buildings);
    return growth;
}

}  // namespace

void VaryingSite::read_grounds_again(const Section& section, Reading& reading, Scenario& scenario) const {
    Draft draft;
    read_grounds(section, reading, draft);
    put_parts_in_order(draft.scenario);
    std::vector<Ground>& grounds = draft.scenario.grounds;
    const std::size_t read = grounds.size();
    for (const DearerGround& dearer : dearer_) {
        Ground ground = grounds[dearer.like];
        const Ground& kept = scenario.grounds[grounds.size()];
        ground.id = kept.id;
        ground.name = kept.name;
        for (OpeningMethod& method : ground.methods)
            method.material_per_metre = method.material_per_metre + dearer.extra;
        grounds.push_back(std::move(ground));
    }
    if (read > 0) scenario.grounds = std::move(grounds);
}

void VaryingSite::read_again(const VaryingParts& parts, bool keys, Reading& reading, Scenario& scenario) const {
    const auto path = [keys](const char* name) { return keys ? name : ""; };
    if (parts.grounds.node != no_node) read_grounds_again(parts.grounds, reading, scenario);
    if (parts.existing_duct.document != nullptr) {
        scenario.existing_duct =
            read_existing_duct(fields_of(parts.existing_duct, existing_duct_record(), path("existing-duct"), reading));
    }
    if (parts.pole_line.document != nullptr) {
        scenario.pole_line = read_pole_line(fields_of(parts.pole_line, pole_line_record(), path("pole-line"), reading));
    }
    if (parts.catalogue.document != nullptr) {
        Scenario part;
        part.catalogue =
            read_catalogue(fields_of(parts.catalogue, catalogue_record(), path("catalogue"), reading), reading);
        put_parts_in_order(part);
        scenario.catalogue = std::move(part.catalogue);
    }
    if (parts.labour.document != nullptr)
        scenario.labour = read_labour(fields_of(parts.labour, labour_record(), path("labour"), reading));
    if (parts.rules.document != nullptr) scenario.rules = read_rules_again(parts.rules, path("rules"), reading);
    if (parts.growth.document != nullptr)
        scenario.growth = read_growth_again(parts.growth, path("growth"), reading, std::move(scenario.growth));
    for (const MapItem& item : parts.items)
        read_map_item(*parts.map, item, reading, scenario);
}

void VaryingSite::set(std::span<const double> numbers, Scenario& scenario) const {
    Replacements replaced;
    for (std::size_t i = 0; i < found_.size(); ++i)
        replaced.put(*found_[i].document, found_[i].node, numbers[i]);
    Reading reading;
    reading.feet = feet_;
    reading.currency = currency_;
    reading.replaced = &replaced;
    read_again(touched_, false, reading, scenario);
    moved_.set(numbers, scenario);
}

Diagnostics VaryingSite::set_keys(const std::vector<std::pair<std::string, double>>& numbers,
                                  Scenario& scenario) const {
    Replacements replaced;
    std::vector<double> ranges;
    for (const UncertainValue& value : values_)
        ranges.push_back(value.range.likely);
    for (const auto& [key, number] : numbers) {
        const auto range = std::ranges::find(values_, key, &UncertainValue::key);
        const auto at = static_cast<std::size_t>(range - values_.begin());
        replaced.put(key, number);
        if (range == values_.end() || !key.starts_with("map.")) continue;
        replaced.put(*found_[at].document, found_[at].node, number);
        ranges[at] = number;
        if (moved_.may_be(ranges)) continue;
        return {{found_[at].document->position(found_[at].node),
                 Severity::error,
                 fmt::format("{} would be {}", key, number),
                 "an amount of 0 or more, a length above 0",
                 {}}};
    }
    Reading reading;
    reading.feet = feet_;
    reading.currency = currency_;
    reading.replaced = &replaced;
    Scenario changed = scenario;
    read_again(all_, true, reading, changed);
    if (has_error(reading)) return std::move(reading.diagnostics);
    moved_.set(ranges, changed);
    if (!totals_can_be_counted(changed)) {
        std::string what;
        for (const auto& [key, number] : numbers)
            what += fmt::format("{}{} at {}", what.empty() ? "" : " and ", key, number);
        return {{{documents_.front().file, 0, 0},
                 Severity::error,
                 what + " makes sums of money that could grow too large to count",
                 "a smaller number",
                 {}}};
    }
    scenario = std::move(changed);
    return {};
}

void VaryingSite::learn_parts(const Document& main, Sources& sources, const Reading& reading) {
    const auto part_of_main = [&main](std::string_view key) {
        return Section{&main, main.find(main.root, key), false};
    };
    const auto read_or_main = [&](std::string_view key) {
        const Section section = sources.section_read(key);
        return section.document == nullptr ? Section{&main, no_node, false} : section;
    };
    all_.grounds = read_or_main("grounds");
    all_.existing_duct = part_of_main("existing-duct");
    all_.pole_line = part_of_main("pole-line");
    all_.catalogue = read_or_main("catalogue");
    all_.labour = read_or_main("labour");
    all_.rules = read_or_main("rules");
    all_.growth = part_of_main("growth");
    const Section map = sources.section_read("map");
    const auto take = [&](Section VaryingParts::*part) {
        if (holds(all_.*part, reading.ranges)) touched_.*part = all_.*part;
    };
    for (const auto part : {&VaryingParts::grounds, &VaryingParts::existing_duct, &VaryingParts::pole_line,
                            &VaryingParts::catalogue, &VaryingParts::labour, &VaryingParts::rules}) {
        take(part);
    }
    if (map.document == nullptr || !holds(map, reading.ranges)) return;
    touched_.map = all_.map = map.document;
    add_items(*map.document, map.document->find(map.node, "places"), true, reading.ranges, touched_.items);
    add_items(*map.document, map.document->find(map.node, "segments"), false, reading.ranges, touched_.items);
    all_.items = touched_.items;
}

/// Overlays make copies of grounds behind those that the file lists: which of these each is like, and what it adds.
void VaryingSite::learn_dearer_grounds(const Scenario& scenario) {
    if (all_.grounds.node == no_node) return;
    Reading reading;
    reading.feet = feet_;
    reading.currency = currency_;
    Draft draft;
    read_grounds(all_.grounds, reading, draft);
    put_parts_in_order(draft.scenario);
    const auto& listed = draft.scenario.grounds;
    for (std::size_t i = listed.size(); i < scenario.grounds.size(); ++i) {
        const Ground& ground = scenario.grounds[i];
        DearerGround dearer;
        std::size_t longest = 0;
        for (std::size_t g = 0; g < listed.size(); ++g) {
            if (!ground.id.starts_with(listed[g].id + " in ") || listed[g].id.size() < longest) continue;
            longest = listed[g].id.size();
            dearer.like = g;
        }
        const auto material = [](const Ground& of) { return of.methods.front().material_per_metre.thousandths(); };
        dearer.id = ground.id;
        dearer.extra = UnitPrice::from_thousandths(material(ground) - material(listed[dearer.like]));
        dearer_.push_back(dearer);
    }
}

/// Learns what ranges move that reading sections again does not reach: those of a map that is read from GeoJSON or has
/// areas. Reports those that may not stand where they do.
void VaryingSite::reach_the_rest(const SiteAgain& again, const Scenario& scenario, Reading& reading) {
    Reading sections;
    sections.feet = feet_;
    sections.currency = currency_;
    Scenario unused = scenario;
    read_again(touched_, false, sections, unused);
    for (std::size_t i = 0; i < found_.size(); ++i) {
        const FoundRange& range = found_[i];
        const bool reached = std::any_of(sections.ranges.begin(), sections.ranges.end(), [&](const FoundRange& other) {
            return other.document == range.document && other.node == range.node;
        });
        const double likely = range.value.range.likely;
        const double other = range.value.range.high != likely ? range.value.range.high : range.value.range.low;
        if (reached || other == likely) continue;
        Replacements replaced;
        replaced.put(*range.document, range.node, other);
        const auto moved = range.value.key.starts_with("map.") ? again(replaced) : std::nullopt;
        if (moved && moved_.learn(i, likely, scenario, other, *moved)) continue;
        reading.error(range.document->position(range.node), fmt::format("{} is a range", range.value.key),
                      "a plain number here: the map itself would change with it");
    }
    if (moved_.move_grounds()) touched_.grounds = all_.grounds;
}

/// Reports sums that could grow too large where every range stands at its high end.
void VaryingSite::check_extremes(const Document& main, Scenario scenario, Reading& reading) const {
    std::vector<double> high;
    for (const UncertainValue& value : values_)
        high.push_back(value.range.high);
    set(high, scenario);
    if (totals_can_be_counted(scenario)) return;
    reading.error(main.position(main.root), "ranges whose high ends make sums of money that could grow too large",
                  "smaller ones; a total must stay below 10^17 minor units");
}

std::shared_ptr<const VaryingSite> varying_site(const Document& main, Sources& sources, const SiteAgain& again,
                                                Scenario& scenario, Reading& reading) {
    auto site = std::make_shared<VaryingSite>();
    site->feet_ = reading.feet;
    site->currency_ = reading.currency;
    site->found_ = reading.ranges;
    std::set<std::string> keys;
    for (FoundRange& range : site->found_) {
        if (!keys.insert(range.value.key).second) {
            const Node& node = range.document->at(range.node);
            range.value.key += fmt::format(" ({}:{})", node.line, node.column);
        }
        site->values_.push_back(range.value);
        site->lengths_vary_ = site->lengths_vary_ || range.value.unit == unit_text(Unit::length, reading.feet, {});
    }
    site->learn_parts(main, sources, reading);
    if (!scenario.areas.empty()) site->all_.items.clear();  // Areas may have cut the segments.
    if (!scenario.areas.empty()) site->touched_.items.clear();
    site->learn_dearer_grounds(scenario);
    if (!site->values_.empty()) {
        scenario.note +=
            fmt::format("{}{} of the site file {}; the likely value counts here.", scenario.note.empty() ? "" : "\n",
                        site->values_.size() == 1 ? "1 value" : fmt::format("{} values", site->values_.size()),
                        site->values_.size() == 1 ? "is a range" : "are ranges");
    }
    site->reach_the_rest(again, scenario, reading);
    if (!has_error(reading)) site->check_extremes(main, scenario, reading);
    site->documents_ = sources.take_documents();
    return site;
}

}  // namespace spadework::site_file
