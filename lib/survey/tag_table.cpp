#include "survey/tag_table.hpp"

#include <algorithm>

namespace spadework::survey {

namespace {

bool holds(const std::vector<std::string>& list, const std::string& text) {
    return std::find(list.begin(), list.end(), text) != list.end();
}

/// Whether nothing beside a name says what the feature is.
bool is_bare(const drawn_map::Feature& feature) {
    return std::all_of(feature.tags.begin(), feature.tags.end(), [](const drawn_map::Tag& tag) {
        return tag.key == "name" || tag.key == "folder" || tag.key == "description" || tag.key == "id";
    });
}

const TagRule* first_with_use(const std::vector<TagRule>& rules, const drawn_map::Feature& feature,
                              const std::string& format) {
    for (const TagRule& rule : rules) {
        if (rule.use != Use::unsaid && fitting_tag(rule, feature, format)) return &rule;
    }
    return nullptr;
}

/// The first rule that fits and `says` something; sets `ground` from it.
template <typename Says>
bool ground_from(const std::vector<TagRule>& rules, const drawn_map::Feature& line, const std::string& format,
                 GroundSource source, GroundChoice& ground, Says says) {
    for (const TagRule& rule : rules) {
        if (rule.ground.empty() || !says(rule)) continue;
        const auto tag = fitting_tag(rule, line, format);
        if (!tag) continue;
        ground = {rule.ground, source, *tag};
        return true;
    }
    return false;
}

GroundChoice ground_of_line(const TagTable& table, const drawn_map::Feature& line, const std::string& format,
                            const std::string& default_ground) {
    GroundChoice ground;
    const auto over = [](const TagRule& rule) { return rule.over_surface; };
    const auto any = [](const TagRule&) { return true; };
    if (ground_from(table.lines, line, format, GroundSource::kind, ground, over)) return ground;
    if (ground_from(table.surfaces, line, format, GroundSource::stated, ground, any)) return ground;
    if (ground_from(table.lines, line, format, GroundSource::kind, ground, any)) return ground;
    return {default_ground, GroundSource::fallback, ""};
}

}  // namespace

std::optional<std::string> fitting_tag(const TagRule& rule, const drawn_map::Feature& feature,
                                       const std::string& format) {
    if (!rule.formats.empty() && !holds(rule.formats, format)) return std::nullopt;
    if (rule.bare && !is_bare(feature)) return std::nullopt;
    if (rule.tags.empty()) return "";
    for (const drawn_map::Tag& tag : feature.tags) {
        if (!holds(rule.tags, tag.key)) continue;
        const bool fits = rule.values.empty() ? !tag.value.empty() && tag.value != "no" : holds(rule.values, tag.value);
        if (fits) return tag.key + "=" + tag.value;
    }
    return std::nullopt;
}

LineMeaning meaning_of_line(const TagTable& table, const drawn_map::Feature& line, const std::string& format,
                            const std::string& default_ground) {
    LineMeaning meaning;
    if (const TagRule* rule = first_with_use(table.lines, line, format)) {
        meaning.use = rule->use;
        meaning.reason = rule->reason;
    }
    if (meaning.use == Use::left_out) return meaning;
    meaning.ground = ground_of_line(table, line, format, default_ground);
    for (const TagRule& rule : table.lines) {
        if (rule.charges.empty() || !fitting_tag(rule, line, format)) continue;
        meaning.charges = rule.charges;
        break;
    }
    return meaning;
}

const TagRule* rule_of_area(const TagTable& table, const drawn_map::Feature& area, const std::string& format) {
    return first_with_use(table.areas, area, format);
}

const TagRule* rule_of_point(const TagTable& table, const drawn_map::Feature& point, const std::string& format) {
    return first_with_use(table.points, point, format);
}

}  // namespace spadework::survey
