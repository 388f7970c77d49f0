#include "extension/lit_trunks.hpp"

#include <algorithm>

#include "layout/cut_trunk.hpp"
#include "strands/strand_need.hpp"

namespace spadework {

namespace {

/// Taking `strands` into use: of those set aside, headroom goes first, then spares beyond the policy's, the others
/// last, so that as many adapters are plugged as before as long as that will do.
StrandNeed with_more_in_use(StrandNeed need, int strands, int of_product, int spare_by_policy) {
    need.in_use += strands;
    const int from_headroom = std::min(need.headroom, strands);
    need.headroom -= from_headroom;
    need.spare -= std::clamp(need.spare - spare_by_policy, 0, strands - from_headroom);
    need.spare = std::max(0, std::min(need.spare, of_product - need.in_use));
    need.headroom = std::max(0, std::min(need.headroom, of_product - need.in_use - need.spare));
    return need;
}

PlannedCable& cable_at(Plan& plan, int cable) {
    return plan.cables[static_cast<std::size_t>(cable)];
}

}  // namespace

std::optional<int> LitTrunks::light_one(Plan& plan, int enclosure, int strands, bool returns) {
    for (const int c : plan.enclosures[static_cast<std::size_t>(enclosure)].trunks) {
        const std::vector<int> parts = parts_of_trunk(plan, c);
        const auto lacks = [&](int part) { return dark_[static_cast<std::size_t>(part)] < strands; };
        if (std::any_of(parts.begin(), parts.end(), lacks)) continue;
        const int before = returns ? lit_before(plan, c) : 0;
        light_parts(plan, parts, strands);
        note(c, strands, std::min(strands, before));
        return c;
    }
    return std::nullopt;
}

int LitTrunks::lit_before(const Plan& plan, int cable) const {
    const StrandNeed ending = strands_ending(plan, cable);
    if (part_behind(plan, cable)) return ending.spare;
    return std::max(0, ending.spare - trunk_need(ending.in_use, scenario_.rules, scenario_.growth).spare);
}

void LitTrunks::note(int cable, int strands, int again) {
    const auto found =
        std::find_if(lit_.begin(), lit_.end(), [cable](const LitStrands& lit) { return lit.cable == cable; });
    if (found == lit_.end()) {
        lit_.push_back({cable, strands, again});
    } else {
        found->strands += strands;
        found->again += again;
    }
}

/// Strands that are lit as far as a cut are dark for good behind it; as many fewer are set aside there. Those that
/// ended dark at the cut are lit first.
void LitTrunks::light_parts(Plan& plan, const std::vector<int>& parts, int strands) {
    std::vector<int> whole = parts;
    while (const auto behind = part_behind(plan, whole.back()))
        whole.push_back(*behind);
    std::vector<StrandNeed> ended;
    for (const int part : whole)
        ended.push_back(strands_ending(plan, part));
    const std::size_t last = parts.size() - 1;
    const int ended_dark = whole.size() > parts.size() ? std::min(strands, ended[last].spare) : 0;
    ended[last].spare -= ended_dark;
    for (std::size_t i = 0; i < whole.size(); ++i) {
        dark_[static_cast<std::size_t>(whole[i])] -= i <= last ? strands : strands - ended_dark;
        if (i <= last) light_part(cable_at(plan, whole[i]), strands, ended_dark);
        if (i == 0) continue;
        const StrandNeed& before = cable_at(plan, whole[i - 1]).need;
        StrandNeed& need = cable_at(plan, whole[i]).need;
        need.spare = std::min(need.spare, std::max(0, before.spare - ended[i - 1].spare));
        need.headroom = std::min(need.headroom, std::max(0, before.headroom - ended[i - 1].headroom));
    }
}

/// `of_spares` of the strands are among the part's spares.
void LitTrunks::light_part(PlannedCable& cable, int strands, int of_spares) const {
    const int of_product = scenario_.catalogue.cables[static_cast<std::size_t>(cable.product)].strands;
    const int policy = trunk_need(cable.need.in_use + strands, scenario_.rules, scenario_.growth).spare;
    cable.need.spare -= of_spares;
    cable.need.in_use += of_spares;
    cable.need = with_more_in_use(cable.need, strands - of_spares, of_product, policy);
}

}  // namespace spadework
