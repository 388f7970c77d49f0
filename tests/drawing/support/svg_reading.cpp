#include "drawing/support/svg_reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <sstream>
#include <stdexcept>

namespace spadework::testing {

namespace {

class Reader {
public:
    explicit Reader(const std::string& text) : text_(text) {}

    SvgElement run() {
        if (text_.rfind("<?xml ", 0) == 0) at_ = text_.find("?>") + 2;
        skip_space();
        SvgElement root = element();
        skip_space();
        if (at_ != text_.size()) fail("text behind the last element");
        return root;
    }

private:
    [[noreturn]] void fail(const std::string& why) const {
        throw std::runtime_error(why + " at byte " + std::to_string(at_));
    }
    [[nodiscard]] char peek() const {
        if (at_ >= text_.size()) fail("end of text");
        return text_[at_];
    }
    char take() {
        const char c = peek();
        ++at_;
        return c;
    }
    void expect(char c) {
        if (take() != c) fail(std::string("wanted ") + c);
    }
    void skip_space() {
        while (at_ < text_.size() && (text_[at_] == ' ' || text_[at_] == '\n'))
            ++at_;
    }

    std::string name() {
        std::string result;
        while (std::isalnum(static_cast<unsigned char>(peek())) != 0 || peek() == '-' || peek() == ':')
            result += take();
        if (result.empty()) fail("wanted a name");
        return result;
    }

    std::string entity() {
        const std::size_t end = text_.find(';', at_);
        const std::string what = text_.substr(at_, end - at_);
        at_ = end + 1;
        static const std::map<std::string, std::string> known = {
            {"amp", "&"}, {"lt", "<"}, {"gt", ">"}, {"quot", "\""}, {"#39", "'"}};
        if (!known.contains(what)) fail("unknown entity " + what);
        return known.at(what);
    }

    std::string character() {
        const char c = take();
        if (c == '&') return entity();
        if (static_cast<unsigned char>(c) < 0x20 && c != '\n') fail("control character");
        return {c};
    }

    void attribute(SvgElement& element) {
        const std::string key = name();
        expect('=');
        expect('"');
        std::string value;
        while (peek() != '"') {
            if (peek() == '<') fail("bare <");
            value += character();
        }
        ++at_;
        if (!element.attributes.emplace(key, value).second) fail("attribute twice: " + key);
    }

    SvgElement element() {
        expect('<');
        SvgElement result;
        result.name = name();
        skip_space();
        while (peek() != '>' && peek() != '/') {
            attribute(result);
            skip_space();
        }
        if (take() == '/') {
            expect('>');
            return result;
        }
        while (true) {
            if (peek() != '<') {
                result.text += character();
                continue;
            }
            if (text_.compare(at_, 2, "</") != 0) {
                result.children.push_back(element());
                continue;
            }
            at_ += 2;
            if (name() != result.name) fail("wrong end of " + result.name);
            expect('>');
            return result;
        }
    }

    const std::string& text_;
    std::size_t at_ = 0;
};

/// Thousandths of the font size, space to tilde.
constexpr std::array<int, 95> liberation = {
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333,  278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667,  611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278,  556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,  500, 334, 260, 334, 584};

double liberation_width(const std::string& text, double size, bool bold) {
    double sum = 0;
    for (const char c : text) {
        const auto code = static_cast<unsigned char>(c);
        if (code >= 0x80 && code < 0xC0) continue;  // Not the first byte of its character.
        sum += code >= 0x20 && code < 0x7F ? liberation[code - 0x20U] : 1000;
    }
    return sum / 1000 * size * (bold ? 1.07 : 1.0);
}

void collect(const SvgElement& element, const std::string& name, std::vector<const SvgElement*>& result) {
    if (name.empty() || element.name == name) result.push_back(&element);
    for (const SvgElement& child : element.children)
        collect(child, name, result);
}

}  // namespace

SvgElement read_svg(const std::string& text) {
    return Reader(text).run();
}

double SvgElement::number(const std::string& its_name) const {
    return std::strtod(attribute(its_name).c_str(), nullptr);
}

std::string SvgElement::attribute(const std::string& its_name) const {
    const auto found = attributes.find(its_name);
    return found == attributes.end() ? "" : found->second;
}

const SvgElement* SvgElement::find(const std::string& id) const {
    for (const SvgElement* element : all()) {
        if (element->attribute("id") == id) return element;
    }
    return nullptr;
}

std::vector<const SvgElement*> SvgElement::all(const std::string& its_name) const {
    std::vector<const SvgElement*> result;
    collect(*this, its_name, result);
    return result;
}

std::string SvgElement::title() const {
    for (const SvgElement& child : children) {
        if (child.name == "title") return child.text;
    }
    return "";
}

bool boxes_overlap(const SvgBox& a, const SvgBox& b) {
    constexpr double touch = 0.01;  // Coordinates are written with two digits.
    return a.left + touch < b.right && b.left + touch < a.right && a.top + touch < b.bottom && b.top + touch < a.bottom;
}

bool box_holds(const SvgBox& outer, const SvgBox& inner) {
    constexpr double touch = 0.02;
    return outer.left <= inner.left + touch && inner.right <= outer.right + touch && outer.top <= inner.top + touch &&
           inner.bottom <= outer.bottom + touch;
}

SvgBox shape_box(const SvgElement& shape) {
    if (shape.name == "rect") {
        return {shape.number("x"), shape.number("y"), shape.number("x") + shape.number("width"),
                shape.number("y") + shape.number("height")};
    }
    if (shape.name == "circle") {
        return {shape.number("cx") - shape.number("r"), shape.number("cy") - shape.number("r"),
                shape.number("cx") + shape.number("r"), shape.number("cy") + shape.number("r")};
    }
    if (shape.name == "line") {
        return {std::min(shape.number("x1"), shape.number("x2")), std::min(shape.number("y1"), shape.number("y2")),
                std::max(shape.number("x1"), shape.number("x2")), std::max(shape.number("y1"), shape.number("y2"))};
    }
    if (shape.name != "path") throw std::runtime_error("no shape: " + shape.name);
    std::string d = shape.attribute("d");
    std::replace_if(
        d.begin(), d.end(), [](char c) { return c == 'M' || c == 'L' || c == 'Z'; }, ' ');
    std::istringstream numbers(d);
    SvgBox box{1e9, 1e9, -1e9, -1e9};
    double x = 0;
    double y = 0;
    while (numbers >> x >> y)
        box = {std::min(box.left, x), std::min(box.top, y), std::max(box.right, x), std::max(box.bottom, y)};
    return box;
}

SvgBox text_box(const SvgElement& text) {
    const double size = text.number("font-size");
    const double width = liberation_width(text.text, size, text.attribute("font-weight") == "bold");
    const std::string anchor = text.attribute("text-anchor");
    const double left = text.number("x") - (anchor == "end" ? width : anchor == "middle" ? width / 2 : 0);
    return {left, text.number("y") - 0.75 * size, left + width, text.number("y") + 0.22 * size};
}

double contrast_to_white(const std::string& colour) {
    if (colour.size() != 7 || colour[0] != '#') throw std::runtime_error("no colour: " + colour);
    double luminance = 0;
    constexpr std::array<double, 3> weight = {0.2126, 0.7152, 0.0722};
    for (std::size_t i = 0; i < 3; ++i) {
        const double share = static_cast<double>(std::stoi(colour.substr(1 + 2 * i, 2), nullptr, 16)) / 255;
        luminance += weight[i] * (share <= 0.03928 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4));
    }
    return 1.05 / (luminance + 0.05);
}

}  // namespace spadework::testing
