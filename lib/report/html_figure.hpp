#pragma once

// Pictures of lib/drawing in a page.

#include <functional>
#include <string>

#include "drawing/drawing.hpp"
#include "report/html_writer.hpp"

namespace spadework::report {

using Draw = std::function<std::string(const drawing::Frame&)>;

/// A chart, drawn once for wide pages and paper and once for narrow pages; the page's style shows one of them. `id`
/// goes before every id in it, and must be the page's own.
void write_chart(HtmlWriter& html, const std::string& id, const std::string& caption, const Draw& draw);

/// A drawing to scale, drawn once: it keeps its size, and scrolls where the page is too narrow for it.
void write_drawing(HtmlWriter& html, const std::string& id, const std::string& label, const std::string& caption,
                   const Draw& draw);

}  // namespace spadework::report
