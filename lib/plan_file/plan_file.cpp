#include "plan_file/plan_file.hpp"

#include <algorithm>
#include <cmath>

namespace spadework::plan_file {

bool has_cuts(const PlanFile& file) {
    return std::ranges::any_of(file.cables, [](const NamedCable& cable) { return !cable.spliced_to.empty(); });
}

std::vector<KeptStrand> kept_strands(const PlanFile& file) {
    std::vector<KeptStrand> kept;
    kept.reserve(file.strands.size());
    for (const NamedStrand& strand : file.strands)
        kept.push_back(strand.kept);
    return kept;
}

KeptMap kept_map(const PlanFile& file) {
    KeptMap kept;
    for (const NamedCable& cable : file.cables)
        kept.cables.push_back({cable.id, cable.from, cable.to});
    kept.strands = kept_strands(file);
    return kept;
}

std::string file_name(LayoutKind layout) {
    return std::string(id_of(layout)) + ".plan.json";
}

std::int64_t thousandths(double value) {
    constexpr double most = 1e12;
    if (!(std::abs(value) < most)) return static_cast<std::int64_t>(value < 0 ? -most : most);
    return std::llround(value * 1000);
}

}  // namespace spadework::plan_file
