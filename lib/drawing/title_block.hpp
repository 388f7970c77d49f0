#pragma once

#include <string>
#include <vector>

#include "drawing/picture.hpp"

namespace spadework::drawing {

/// One line of a title block: "Total", "EUR 29,996.26 …".
struct TitleRow {
    std::string what;
    std::string says;  ///< Drawn text; wrapped where it is long.
    bool strong = false;
};

/// The group "title-block": rows below each other with a rule above, from y on; returns the y below it.
double write_title_block(SvgWriter& svg, const Ids& ids, double left, double right, double y,
                         const std::vector<TitleRow>& rows);

}  // namespace spadework::drawing
