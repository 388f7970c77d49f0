#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace spadework::report {

/// Builds an HTML page (HTML Living Standard) front to back. Whatever is passed as text or as the value of an attribute
/// is shown and never obeyed: it goes through shown(), then &, <, >, " and ' are written as character references. Names
/// of elements and attributes are the caller's own literals.
class HtmlWriter {
public:
    using Attributes = std::vector<std::pair<std::string_view, std::string_view>>;

    /// Begins an element that close() ends.
    void open(std::string_view element, const Attributes& attributes = {});
    /// Ends the innermost element.
    void close();
    /// An element that holds nothing and has no end: meta, br, col.
    void empty(std::string_view element, const Attributes& attributes = {});
    void text(std::string_view value);
    /// An element with a text in it.
    void element(std::string_view element, std::string_view text, const Attributes& attributes = {});

    /// Rules of our own making for the whole page, as they are: nothing of the site's may be in them.
    void style(std::string_view css);
    /// An <svg> element that lib/drawing made, as it is: it has seen to its texts itself.
    void picture(std::string_view svg);

    /// The page. Everything begun must have ended.
    [[nodiscard]] std::string finished() const;

private:
    std::string text_;
    std::vector<std::string> begun_;
};

/// A text as HTML that shows it, in an element or between double quotes: shown() and escaped.
std::string escaped_html(std::string_view text);

/// The first characters of a text that is too long to stand in a heading or a table, and "…" for the rest.
std::string shortened(std::string_view text);

}  // namespace spadework::report
