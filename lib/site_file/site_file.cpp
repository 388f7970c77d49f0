#include "site_file/site_file.hpp"

#include <fmt/format.h>

#include "scenario/ordering.hpp"
#include "site_file/currency.hpp"
#include "site_file/geojson_map.hpp"
#include "site_file/keys.hpp"
#include "site_file/section_readers.hpp"
#include "site_file/site_checks.hpp"
#include "site_file/sources.hpp"

namespace spadework::site_file {

namespace {

/// Units and currency, which say how the rest is read.
void read_head(const Document& main, Reading& reading) {
    const auto text_of = [&main](std::string_view key) {
        const NodeId node = main.find(main.root, key);
        return node != no_node && main.at(node).kind == NodeKind::scalar ? main.at(node).text : std::string();
    };
    reading.feet = text_of("units") == "feet";
    const std::string code = text_of("currency");
    const auto currency = currency_of(code);
    if (currency) {
        reading.currency = *currency;
    } else if (main.find(main.root, "currency") != no_node) {
        reading.error(main.position(main.find(main.root, "currency")), fmt::format("currency is {}", quoted(code)),
                      "an ISO 4217 letter code such as EUR", reading.nearest(code, currency_codes()));
    }
}

/// Plan files, certificates and parts of risk studies say what they are. One of these where the site belongs is said to
/// be one, and read no further.
bool is_of_another_format(const Document& main, Reading& reading) {
    const NodeId format = main.find(main.root, "format");
    if (format == no_node || !main.at(format).text.starts_with("spadework-")) return false;
    reading.error(main.position(format),
                  fmt::format("format is {}: this is no site file", quoted(main.at(format).text)),
                  "a site file, with 'format: 1' at its head");
    return true;
}

void check_format_first(const Document& main, Reading& reading) {
    if (main.at(main.root).kind != NodeKind::mapping) return;
    const NodeId first = main.at(main.root).first_child;
    const bool heads = first != no_node && main.at(first).text == "format";
    if (!heads && main.find(main.root, "format") != no_node) {
        reading.error(main.position(main.find(main.root, "format")), "key 'format' is not the first of the file",
                      "'format: 1' at the head of the file");
    }
}

void read_names(Fields& site, Reading& reading, Scenario& scenario) {
    site.whole("format");
    scenario.name = site.text("site");
    scenario.note = site.text("note");
    site.choice("units");
    if (site.has("currency")) site.text("currency");
    scenario.currency = reading.currency;
    scenario.feet = reading.feet;
}

void read_listed_map(Fields& map, Reading& reading, Draft& draft) {
    const bool degrees = map.choice("coordinates") == 1;
    draft.scenario.coordinates = degrees ? CoordinateSystem::wgs84_degrees : CoordinateSystem::plane_metres;
    for (const std::string_view key : {"places", "segments"}) {
        if (!map.has(key)) {
            reading.error(map.position(), fmt::format("key '{}' is missing in a map", key),
                          "both 'places' and 'segments', or 'geojson'");
        }
    }
    draft.has_map = map.has("places");
    read_places(map, draft.scenario.coordinates, reading, draft);
    read_segments(map, draft.scenario.coordinates, reading, draft);
}

Fields fields_of(const Section& section, const Record& record, const std::string& path, Reading& reading) {
    return Fields(reading, *section.document, section.node, record, path);
}

std::size_t count_errors(const Reading& reading) {
    std::size_t errors = reading.not_listed;
    for (const Diagnostic& diagnostic : reading.diagnostics)
        errors += diagnostic.severity == Severity::error ? 1 : 0;
    return errors;
}

/// Map, hub and buildings: what stands where, and whether it hangs together.
void read_layout_of_site(Fields& site, Sources& sources, Reading& reading, Draft& draft) {
    const std::size_t errors_before = count_errors(reading);
    read_grounds(sources.section(site, "grounds", reading), reading, draft);
    const Section map_section = sources.section(site, "map", reading);
    if (map_section.node != no_node) {
        Fields map = fields_of(map_section, map_record(), "map", reading);
        if (map.has("geojson")) {
            read_geojson_map(map, site, sources, reading, draft);
        } else {
            read_listed_map(map, reading, draft);
        }
        read_areas(map, draft.scenario.coordinates, reading, draft);
    }
    if (site.has("hub")) read_hub(site.record("hub"), reading, draft);
    read_buildings(site, reading, draft);
    if (draft.scenario.buildings.empty() && count_errors(reading) == errors_before) {
        reading.error(site.position("buildings"), "there are no buildings", "at least one building to link");
    }
    draft.map_is_sound = count_errors(reading) == errors_before && draft.has_hub;
}

void read_prices_and_rules(Fields& site, Sources& sources, Reading& reading, Draft& draft) {
    Scenario& scenario = draft.scenario;
    scenario.existing_duct = read_existing_duct(site.record("existing-duct"));
    scenario.pole_line = read_pole_line(site.record("pole-line"));
    const Section catalogue = sources.section(site, "catalogue", reading);
    if (catalogue.node != no_node) {
        scenario.catalogue = read_catalogue(fields_of(catalogue, catalogue_record(), "catalogue", reading), reading);
    }
    const Section labour = sources.section(site, "labour", reading);
    if (labour.node != no_node) {
        scenario.labour = read_labour(fields_of(labour, labour_record(), "labour", reading));
    }
    const Section rules = sources.section(site, "rules", reading);
    if (!rules.failed) scenario.rules = read_rules(fields_of(rules, rules_record(), "rules", reading), reading, draft);
    scenario.growth = read_growth(site.record("growth"), reading, draft);
}

void read_scenario(const Document& main, Sources& sources, Reading& reading, Draft& draft) {
    if (is_of_another_format(main, reading)) return;
    read_head(main, reading);
    check_format_first(main, reading);
    Fields site(reading, main, main.root, site_record(), "");
    if (main.at(main.root).kind != NodeKind::mapping) return;
    read_names(site, reading, draft.scenario);
    read_layout_of_site(site, sources, reading, draft);
    read_prices_and_rules(site, sources, reading, draft);
    settle_places(reading, draft);
    if (count_errors(reading) == 0) settle_duct_room(reading, draft);
    if (draft.map_is_sound && draft.scenario.areas.empty()) check_connections(draft.scenario, reading, draft);
    if (count_errors(reading) == 0) check_prices(site, reading, draft);
}

/// The site read once more, from what is parsed already, with numbers in place of some of those written; nothing where
/// they make errors.
std::optional<Scenario> read_again(const Document& main, Sources& sources, const Replacements& replaced) {
    Reading reading;
    reading.replaced = &replaced;
    Draft draft;
    read_scenario(main, sources, reading, draft);
    if (count_errors(reading) > 0) return std::nullopt;
    put_in_order(draft.scenario);
    if (!draft.scenario.areas.empty()) work_in_areas(reading, draft);
    if (count_errors(reading) > 0) return std::nullopt;
    return std::move(draft.scenario);
}

}  // namespace

LoadedSite read_site(const SourceText& main, const FileLoader& load, Varying varying) {
    Reading reading;
    Draft draft;
    Sources sources(main, load);
    const Document* document = sources.open_main(reading);
    if (document != nullptr) read_scenario(*document, sources, reading, draft);
    LoadedSite loaded;
    if (count_errors(reading) == 0) {
        put_in_order(draft.scenario);
        draft.scenario.digest = sources.digest();
        if (!draft.scenario.areas.empty()) work_in_areas(reading, draft);
    }
    if (count_errors(reading) == 0 && (varying == Varying::always || !reading.ranges.empty())) {
        const auto again = [&](const Replacements& replaced) { return read_again(*document, sources, replaced); };
        loaded.varying = varying_site(*document, sources, again, draft.scenario, reading);
    }
    if (count_errors(reading) == 0) loaded.scenario = std::move(draft.scenario);
    sort_for_reading(reading.diagnostics);
    if (reading.not_listed > 0) {
        reading.diagnostics.push_back({{main.file, 0, 0},
                                       Severity::error,
                                       fmt::format("{} more problems, not listed", reading.not_listed),
                                       {},
                                       {}});
    }
    loaded.diagnostics = std::move(reading.diagnostics);
    loaded.values = std::move(reading.values);
    return loaded;
}

}  // namespace spadework::site_file
