#pragma once

#include <set>
#include <string>

#include <doctest/doctest.h>

#include "drawing/support/svg_reading.hpp"

namespace spadework::testing {

/// What holds of every picture: it can be read; title and description are there and referred to; every id has the
/// prefix, once; references lead somewhere; nothing in it can run or load anything; texts are large and dark enough,
/// lie within the picture and not on each other.
inline SvgElement checked_picture(const std::string& text, const std::string& prefix = "") {
    SvgElement svg = read_svg(text);
    CHECK(svg.name == "svg");
    CHECK(svg.attribute("role") == "img");
    CHECK_FALSE(svg.title().empty());
    std::set<std::string> ids;
    const SvgBox whole{0, 0, svg.number("width"), svg.number("height")};
    CHECK(svg.attribute("viewBox") == "0 0 " + svg.attribute("width") + " " + svg.attribute("height"));
    std::vector<std::pair<SvgBox, std::string>> texts;
    for (const SvgElement* element : svg.all()) {
        const std::string id = element->attribute("id");
        if (!id.empty()) {
            CHECK_MESSAGE(ids.insert(id).second, id);
            CHECK_MESSAGE(id.rfind(prefix, 0) == 0, id);
        }
        const std::set<std::string> allowed = {"svg",  "title", "desc",   "g",    "rect",   "path",
                                               "line", "text",  "circle", "defs", "pattern"};
        CHECK_MESSAGE(allowed.contains(element->name), element->name);
        for (const auto& attribute : element->attributes) {
            const std::string& name = attribute.first;
            const std::string& value = attribute.second;
            CHECK_MESSAGE(name.rfind("on", 0) != 0, name);
            CHECK_MESSAGE(name.find("href") == std::string::npos, name);
            CHECK_MESSAGE(value.find("nan") == std::string::npos, value);
        }
        if (element->name != "text") continue;
        CHECK(element->number("font-size") >= 12);
        CHECK(contrast_to_white(element->attribute("fill")) >= 4.5);
        const SvgBox box = text_box(*element);
        CHECK_MESSAGE(box_holds(whole, box), element->text);
        for (const auto& other : texts)
            CHECK_MESSAGE(!boxes_overlap(other.first, box), other.second << " | " << element->text);
        texts.emplace_back(box, element->text);
    }
    for (const SvgElement* element : svg.all()) {
        const std::string fill = element->attribute("fill");
        if (fill.rfind("url(#", 0) == 0) CHECK(ids.contains(fill.substr(5, fill.size() - 6)));
    }
    const std::string labelled = svg.attribute("aria-labelledby");
    const std::size_t space = labelled.find(' ');
    CHECK(ids.contains(labelled.substr(0, space)));
    CHECK(ids.contains(labelled.substr(space + 1)));
    return svg;
}

/// All text of a kind of element inside, one a line.
inline std::string texts_in(const SvgElement& element, const std::string& name = "text") {
    std::string result;
    for (const SvgElement* text : element.all(name))
        result += text->text + "\n";
    return result;
}

inline bool has_text(const SvgElement& element, const std::string& text, const std::string& name = "text") {
    return texts_in(element, name).find(text) != std::string::npos;
}

/// Names that try everything.
inline const char* const hostile_name =
    "<script>alert('1')</script> & \"quoted\" \x01\x1b[31m \xE2\x80\xAE"
    "backwards\xE2\x80\xAC ]]> <!-- \xFF";

}  // namespace spadework::testing
