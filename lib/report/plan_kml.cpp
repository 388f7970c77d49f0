#include "report/plan_kml.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/html_writer.hpp"
#include "report/plan_features.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

/// Lines and points of each kind, colours as alpha, blue, green, red.
const char* const styles = R"(  <Style id="hub"><IconStyle><color>ff000000</color></IconStyle></Style>
  <Style id="building"><IconStyle><color>ffffffff</color></IconStyle></Style>
  <Style id="enclosure"><IconStyle><color>ff00a5ff</color></IconStyle></Style>
  <Style id="place"><IconStyle><scale>0.5</scale></IconStyle></Style>
  <Style id="trench"><LineStyle><color>ff005ebf</color><width>4</width></LineStyle></Style>
  <Style id="existing-duct"><LineStyle><color>ff808080</color><width>4</width></LineStyle></Style>
  <Style id="pole-line"><LineStyle><color>ff404040</color><width>4</width></LineStyle></Style>
  <Style id="cable"><LineStyle><color>ffc87800</color><width>2</width></LineStyle></Style>
)";

/// An element of its own that holds text. The escapes of HTML's writer are all known to XML.
std::string leaf(const char* element, std::string_view text) {
    return fmt::format("<{0}>{1}</{0}>", element, escaped_html(text));
}

/// "Length (m)", "Cost (EUR)", "Served by".
std::string label_of(const Fact& fact, const Scenario& scenario) {
    std::string label = fact.name;
    label[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(label[0])));
    if (std::holds_alternative<Money>(fact.value)) return fmt::format("{} ({})", label, scenario.currency.code);
    if (std::holds_alternative<Length>(fact.value)) return label.substr(0, label.find('_')) + " (m)";
    return label;
}

struct FactText {
    const Currency& currency;

    std::string operator()(const std::string& text) const { return shown(text); }
    std::string operator()(std::int64_t count) const { return std::to_string(count); }
    std::string operator()(Length length) const { return plain_metres(length); }
    std::string operator()(Money money) const { return decimal_text(money, currency); }
};

/// A viewer reads a description as HTML, so that the facts are escaped once for that and once more for XML.
std::string description_of(const PlanFeature& feature, const Scenario& scenario) {
    std::string html = "<table>";
    for (const Fact& fact : feature.facts) {
        html += fmt::format("<tr><th align=\"left\">{}</th><td>{}</td></tr>", escaped_html(label_of(fact, scenario)),
                            escaped_html(std::visit(FactText{scenario.currency}, fact.value)));
    }
    return leaf("description", html + "</table>");
}

std::string data_of(const PlanFeature& feature, const Scenario& scenario) {
    std::string text = fmt::format("<ExtendedData><Data name=\"kind\">{}</Data>", leaf("value", feature.kind));
    for (const Fact& fact : feature.facts) {
        text += fmt::format("<Data name=\"{}\">{}</Data>", escaped_html(fact.name),
                            leaf("value", std::visit(FactText{scenario.currency}, fact.value)));
    }
    return text + "</ExtendedData>";
}

std::string coordinates_of(const std::vector<Position>& points) {
    std::string text;
    for (const Position& at : points)
        text += fmt::format("{}{},{}", text.empty() ? "" : " ", plain_exact(at.x), plain_exact(at.y));
    return leaf("coordinates", text);
}

/// "" for a line without length, which KML has no way to say.
std::string geometry_of(const PlanFeature& feature) {
    if (feature.group == FeatureGroup::places) return "<Point>" + coordinates_of(feature.points) + "</Point>";
    if (feature.points.size() < 2) return "";
    return "<LineString><tessellate>1</tessellate>" + coordinates_of(feature.points) + "</LineString>";
}

std::string placemark(const PlanFeature& feature, const Scenario& scenario) {
    return fmt::format("    <Placemark>{}{}<styleUrl>#{}</styleUrl>{}{}</Placemark>\n",
                       leaf("name", shortened(feature.title)), description_of(feature, scenario), feature.kind,
                       data_of(feature, scenario), geometry_of(feature));
}

std::string folder(const char* name, FeatureGroup group, const std::vector<PlanFeature>& features,
                   const Scenario& scenario) {
    std::string text = fmt::format("  <Folder><name>{}</name>\n", name);
    for (const PlanFeature& feature : features) {
        if (feature.group == group) text += placemark(feature, scenario);
    }
    return text + "  </Folder>\n";
}

}  // namespace

bool has_kml(const Scenario& scenario) {
    return scenario.coordinates == CoordinateSystem::wgs84_degrees;
}

std::string plan_kml(const Scenario& scenario, const LayoutResult& result) {
    const std::vector<PlanFeature> features = plan_features(scenario, result);
    std::string text =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document>\n  ";
    text += leaf("name", fmt::format("{}: {}", shortened(scenario.name), name_of(result.layout)));
    text += "\n  <open>1</open>\n";
    text += styles;
    text += folder("Places", FeatureGroup::places, features, scenario);
    text += folder("Trenches", FeatureGroup::trenches, features, scenario);
    text += folder("Cables", FeatureGroup::cables, features, scenario);
    return text + "</Document>\n</kml>\n";
}

}  // namespace spadework::report
