#pragma once

// The map's own segments where areas lie over them: cut at borders, priced by what they lie in, barred by obstacles,
// and cut where open ground alongside is to be joined to them.

#include <vector>

#include "open_ground/map_sheet.hpp"

namespace spadework::open_ground {

/// Bars segments that enter an obstacle, with the reason. The way out of the obstacle in which the building or hub at
/// a segment's end stands is no entering.
void bar_segments(MapSheet& sheet);

/// Cuts segments at the borders of overlays, to the millimetre: the pieces are as long as the segment. Each piece is
/// priced by the overlays it lies in. A segment's own charges stay with its longest piece; duct, poles and ban with
/// all.
void cut_at_overlays(MapSheet& sheet);

/// Cuts segments that run within reach of open ground at steps of the spacing, where that changes no price by a minor
/// unit: not where a duct, poles, a charge or a method with a set-up cost would tell pieces from the whole.
void cut_beside_open_ground(MapSheet& sheet, Length spacing);

}  // namespace spadework::open_ground
