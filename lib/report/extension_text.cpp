#include <algorithm>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "report/cost_tables.hpp"
#include "report/extension_report.hpp"
#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

namespace {

std::string counted(std::size_t count, const char* one, const char* several) {
    return fmt::format("{} {}", figure(static_cast<std::int64_t>(count)), count == 1 ? one : several);
}

std::string metres(Length length, const Scenario& scenario) {
    return figure(length, scenario) + " " + length_unit(scenario);
}

std::string joined(const std::vector<std::string>& ids) {
    std::string text;
    for (const std::string& id : ids)
        text += (text.empty() ? "" : ", ") + shown(id);
    return text;
}

std::string where_from(const Scenario& scenario, const Addition& addition) {
    switch (addition.source.kind) {
        case Source::Kind::hub:
            return "hub";
        case Source::Kind::built_enclosure:
            return "enclosure at " + shown(place_at(scenario, addition.from).id);
        case Source::Kind::new_enclosure:
            return "new enclosure at " + shown(place_at(scenario, addition.from).id);
        case Source::Kind::building:
            return "building " + shown(building_at(scenario, addition.source.building).id);
    }
    return "";
}

std::string source_in_words(const Scenario& scenario, const Addition& addition) {
    return where_from(scenario, addition) + (addition.source.cable < 0 ? "" : ", by the cable that lies there");
}

TextTable additions_table(const Scenario& scenario, const Extension& extension) {
    TextTable table({{"New building", Align::left, true},
                     {"Links", Align::right},
                     {"Served from", Align::left, true},
                     {fmt::format("Route\n({})", length_unit(scenario)), Align::right},
                     {fmt::format("Shared with\nother new ({})", length_unit(scenario)), Align::right}});
    int links = 0;
    Length route;
    Length shared;
    for (const Addition& addition : extension.additions) {
        const Building& building = building_at(scenario, addition.building);
        table.add({shown(building.id), figure(std::int64_t{link_count(building)}), source_in_words(scenario, addition),
                   figure(addition.route, scenario), figure(addition.shared, scenario)});
        links += link_count(building);
        route += addition.route;
        shared += addition.shared;
    }
    table.add_total({"Total", figure(std::int64_t{links}), "", figure(route, scenario), figure(shared, scenario)});
    return table;
}

TextTable new_cables_table(const Scenario& scenario, const Extension& extension) {
    TextTable table({{"New cable", Align::left, true},
                     {"Product", Align::left, true},
                     {"From", Align::left, true},
                     {"To", Align::left, true},
                     {fmt::format("Route\n({})", length_unit(scenario)), Align::right},
                     {fmt::format("Ordered\n({})", length_unit(scenario)), Align::right}});
    Length route;
    for (const int c : extension.extended.cables) {
        const PlannedCable& cable = extension.extended.plan.cables[static_cast<std::size_t>(c)];
        table.add({shown(cable.id), shown(product_of(scenario, cable).id), shown(place_at(scenario, cable.from).id),
                   shown(place_at(scenario, cable.to).id), figure(cable.lengths.route, scenario),
                   figure(cable.lengths.ordered, scenario)});
        route += cable.lengths.route;
    }
    table.add_total({"Total", "", "", "", figure(route, scenario), figure(extension.cable_ordered, scenario)});
    return table;
}

bool is_new_link(const Extension& extension, int link) {
    return std::find(extension.extended.links.begin(), extension.extended.links.end(), link) !=
           extension.extended.links.end();
}

bool is_new_cable(const Extension& extension, int cable) {
    return std::find(extension.extended.cables.begin(), extension.extended.cables.end(), cable) !=
           extension.extended.cables.end();
}

/// Strands of built cables that begin to carry light.
TextTable taken_strands_table(const Scenario& scenario, const Extension& extension) {
    TextTable table({{"Built cable", Align::left, true},
                     {"Strand", Align::right},
                     {"Tube", Align::left},
                     {"Colour", Align::left, true},
                     {"For", Align::left, true},
                     {"Link", Align::right},
                     {"Leg", Align::right}});
    for (const MappedStrand& strand : extension.strand_map) {
        if (!strand.link || is_new_cable(extension, strand.cable) || !is_new_link(extension, *strand.link)) continue;
        const PlannedLink& link = extension.extended.plan.links[static_cast<std::size_t>(*strand.link)];
        table.add({shown(extension.extended.plan.cables[static_cast<std::size_t>(strand.cable)].id),
                   figure(std::int64_t{strand.number}), strand.colour.tube, strand.colour.strand,
                   shown(building_at(scenario, link.building).id), figure(std::int64_t{link.number}),
                   figure(std::int64_t{strand.leg})});
    }
    return table;
}

TextTable others_table(const Scenario& scenario, const Extension& extension) {
    TextTable table({{"Other way", Align::left, true},
                     {fmt::format("Total\n({})", scenario.currency.code), Align::right},
                     {fmt::format("More\n({})", scenario.currency.code), Align::right},
                     {"", Align::left, true}});
    for (const OtherWay& other : extension.others) {
        table.add({shown(other.what), other.total ? figure(*other.total, scenario.currency) : "-",
                   other.total ? figure(*other.total - extension.total, scenario.currency) : "-", shown(other.reason)});
    }
    return table;
}

std::string digging(const Scenario& scenario, const Extension& extension) {
    return fmt::format(
        "New trench {}; opened again where a trench of the plan is closed, as each duct in it holds its own cable, {}; "
        "through existing ducts and on poles {}. Cable ordered {}.",
        metres(extension.new_trench, scenario), metres(extension.opened_again, scenario),
        metres(extension.reused, scenario), metres(extension.cable_ordered, scenario));
}

std::string bound_sentence(const Scenario& scenario, const Extension& extension) {
    if (extension.bound <= Money())
        return "No bound is proved, as cables of buildings that are gone lie there dark and were looked at.";
    std::string what = "No extension";
    if (extension.interruption) what += " that interrupts no link";
    if (!extension.bound_covers_all)
        what += std::string(extension.interruption ? " and" : " that") +
                " gives every new building a cable of its own from the hub or from an enclosure that stands";
    std::string text =
        fmt::format("{} costs less than {}: proved", what, money_in_words(extension.bound, scenario.currency));
    const double gap = extension.total.minor() > 0
                           ? 100.0 * static_cast<double>((extension.total - extension.bound).minor()) /
                                 static_cast<double>(extension.total.minor())
                           : 0;
    text += gap >= 0 ? fmt::format(", {:.2f} % below this one.", gap)
                     : fmt::format(". This one costs {} less.",
                                   money_in_words(extension.bound - extension.total, scenario.currency));
    if (!extension.bound_covers_all)
        text += " Further enclosures were tried at the places near the new buildings, without a proof.";
    return text;
}

std::vector<std::string> link_names(const Scenario& scenario, const Interruption& down, const Plan& built) {
    std::vector<std::string> links;
    for (const int l : down.links) {
        const PlannedLink& link = built.links[static_cast<std::size_t>(l)];
        links.push_back(fmt::format("{} {}", building_at(scenario, link.building).id, link.number));
    }
    return links;
}

/// How long every link is down that is.
std::string minutes_in_words(const Interruption& down) {
    return fmt::format("up to {:.0f} minutes, until all is made and tested again", down.outage.hours() * 60);
}

/// What the cheapest other way that takes links down would cost and interrupt; "" where there is none.
std::string interrupting_sentence(const Scenario& scenario, const Extension& extension, const Plan& built) {
    if (!extension.interrupting) return "";
    const Interruption& down = extension.interrupting->interruption;
    const Money total = extension.interrupting->total;
    const Money more = total - extension.total;
    const std::string words = money_in_words(more < Money() ? Money() - more : more, scenario.currency);
    const std::vector<std::string> links = link_names(scenario, down, built);
    std::string text = fmt::format("It would cost {}", money_in_words(total, scenario.currency));
    if (extension.feasible) text += fmt::format(", {} {}", words, more < Money() ? "less" : "more");
    text = fmt::format("Another way is {}. {}, and interrupt {} for {}: {}.", shown(down.what), text,
                       counted(links.size(), "link", "links"), minutes_in_words(down), joined(links));
    return text + (!extension.feasible || more < Money()
                       ? " It is not taken, as it touches what is there; --allow-interruption takes it."
                       : " It is not taken.");
}

TextTable labels_table(const ExtensionStory& story) {
    TextTable table({{"Place", Align::left, true},
                     {"Marks", Align::left},
                     {"Label now", Align::left, true},
                     {"Label then", Align::left, true}});
    for (const ChangedLabel& label : story.labels) {
        table.add({shown(label.place), label.marks, shown(label.before),
                   label.after.empty() ? "taken off" : shown(label.after)});
    }
    return table;
}

std::string interruption_part(const Scenario& scenario, const Extension& extension, const ExtensionStory& story) {
    if (!extension.interruption) return "";
    const Interruption& down = *extension.interruption;
    const std::vector<std::string> links = link_names(scenario, down, story.built);
    std::string text = heading("What is interrupted");
    text += paragraph(fmt::format("This is {}. {} {} down for {}: {}.", shown(down.what),
                                  counted(links.size(), "link", "links"), links.size() == 1 ? "is" : "are",
                                  minutes_in_words(down), joined(links)));
    if (!down.cut_off.empty()) {
        std::vector<std::string> buildings;
        for (const BuildingIndex building : down.cut_off)
            buildings.push_back(building_at(scenario, building).id);
        text += paragraph(fmt::format("No way leads to the hub meanwhile from {}.", joined(buildings)));
    }
    const std::string strands = counted(static_cast<std::size_t>(extension.restored.strands), "strand", "strands");
    const std::string again =
        down.made_anew
            ? fmt::format(
                  "They run in other cables afterwards, under the same numbers; {} of theirs come back to the "
                  "same ports. The cables they leave stay where they are, dark.",
                  strands)
            : fmt::format(
                  "Then all {} of theirs in use run between the same adapters and ports again, under the same "
                  "numbers: compared with the plan before, name by name.",
                  strands);
    text += paragraph(again + (story.labels.empty() ? "" : " These labels change:"));
    return story.labels.empty() ? text : text + "\n" + labels_table(story).text();
}

std::string untouched_sentence(const Extension& extension) {
    if (extension.interruption && extension.untouched.links == 0) return "No other link is there.";
    std::string text = fmt::format(
        "No {} link is touched: {} with {} in use were compared with the plan before, name by name, and each "
        "strand carries the same leg of the same link between the same adapters and ports. There is no outage{}.",
        extension.interruption ? "other" : "existing",
        counted(static_cast<std::size_t>(extension.untouched.links), "link", "links"),
        counted(static_cast<std::size_t>(extension.untouched.strands), "strand", "strands"),
        extension.interruption ? " of theirs" : "");
    if (extension.untouched.freed > 0)
        text += fmt::format(" {} that served buildings now gone are dark and kept as spares.",
                            counted(static_cast<std::size_t>(extension.untouched.freed), "strand", "strands"));
    return text;
}

std::string opening(const Scenario& scenario, const Extension& extension, const ExtensionStory& story) {
    std::string text = paragraph(shown(scenario.name));
    std::string what = extension.additions.empty() ? "Nothing is new." : "";
    if (!extension.additions.empty() && extension.feasible) {
        what = fmt::format("{} on what was built: {}.",
                           counted(extension.additions.size(), "building more", "buildings more"),
                           money_in_words(extension.total, scenario.currency));
    }
    if (!extension.feasible) what = "The extension cannot be built: " + shown(extension.reason) + ".";
    if (!story.gone.empty()) what += fmt::format(" Gone: {}.", joined(story.gone));
    text += paragraph(what);
    std::vector<std::string> notes;
    for (const std::string& note : story.notes)
        notes.push_back(shown(note));
    return text + bullets(notes);
}

std::string findings_part(const Extension& extension) {
    std::vector<std::string> texts;
    for (const Finding& finding : extension.findings)
        texts.push_back(shown(finding.where + ": " + finding.what));
    return texts.empty() ? "" : heading("Findings on the whole plan") + bullets(texts);
}

}  // namespace

std::string extension_text(const Scenario& scenario, const Extension& extension, const ExtensionStory& story) {
    const Plan& built = story.built;
    std::string text = opening(scenario, extension, story);
    if (!extension.feasible) {
        const std::string other = interrupting_sentence(scenario, extension, built);
        return other.empty() ? text : text + paragraph(other);
    }
    if (!extension.additions.empty()) {
        text += heading("How each is served") + additions_table(scenario, extension).text();
        text += paragraph(digging(scenario, extension));
        text += heading("New cables") + new_cables_table(scenario, extension).text();
        const TextTable taken = taken_strands_table(scenario, extension);
        if (!taken.empty()) text += heading("Strands taken") + taken.text();
        text += heading("Every cost of the extension") + cost_table(scenario, extension.bill).text();
        text += heading("How good it is") + paragraph(bound_sentence(scenario, extension));
        const TextTable others = others_table(scenario, extension);
        if (!others.empty()) text += "\n" + others.text();
        const std::string other = interrupting_sentence(scenario, extension, built);
        if (!other.empty()) text += paragraph(other);
    }
    text += interruption_part(scenario, extension, story);
    text += heading("What is there") + paragraph(untouched_sentence(extension));
    return text + findings_part(extension);
}

}  // namespace spadework::report
