#include "drawing/title_block.hpp"

#include <algorithm>

namespace spadework::drawing {

double write_title_block(SvgWriter& svg, const Ids& ids, double left, double right, double y,
                         const std::vector<TitleRow>& rows) {
    constexpr std::size_t most_lines = 6;
    double label_width = 0;
    for (const TitleRow& row : rows)
        label_width = std::max(label_width, width_of(row.what, {small_size}) + 14);
    svg.open("g", {{"id", ids.id("title-block")}});
    write_line(svg, left, y, right, y, colour::rule, 1);
    double baseline = y + 18;
    for (const TitleRow& row : rows) {
        const Lettering lettering{small_size, row.strong};
        write_text(svg, left, baseline, row.what, {{small_size}, colour::quiet});
        baseline = write_lines(svg, left + label_width, baseline,
                               wrapped(row.says, right - left - label_width, lettering, most_lines), {lettering});
        baseline += 2;
    }
    svg.close();
    return baseline - small_size;
}

}  // namespace spadework::drawing
