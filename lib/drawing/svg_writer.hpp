#pragma once

// SVG elements as text, escaped by construction.

#include <string>
#include <string_view>
#include <vector>

namespace spadework::drawing {

/// A number as the pictures write it: two digits behind the point, zeros at the end dropped, 0 for what is not finite.
std::string number(double value);

/// The text with the five characters that mean something in XML written as entities. The text must hold no characters
/// that XML forbids: see drawn().
std::string escaped(std::string_view text);

struct Attribute {
    Attribute(std::string_view its_name, std::string_view text) : name(its_name), value(text) {}
    Attribute(std::string_view its_name, double amount) : name(its_name), value(number(amount)) {}
    std::string name;
    std::string value;
};
using Attributes = std::vector<Attribute>;

/// Writes elements one a line, indented by depth.
class SvgWriter {
public:
    explicit SvgWriter(int depth = 0) : depth_(depth) {}

    /// Begins an element that has others inside.
    void open(std::string_view element, const Attributes& attributes);
    void close();
    /// An element with nothing inside.
    void leaf(std::string_view element, const Attributes& attributes);
    /// An element with text inside, and no space around the text.
    void text(std::string_view element, const Attributes& attributes, std::string_view content);
    /// An element with a <title> inside: what a pointer held over it shows.
    void titled(std::string_view element, const Attributes& attributes, std::string_view title);
    /// Whole elements written elsewhere.
    void add(const SvgWriter& other) { text_ += other.text_; }

    [[nodiscard]] const std::string& written() const { return text_; }

private:
    void begin_line(std::string_view element, const Attributes& attributes);

    std::string text_;
    std::vector<std::string> open_;
    int depth_ = 0;  ///< Of the surrounding elements that are written elsewhere.
};

}  // namespace spadework::drawing
