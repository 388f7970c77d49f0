#pragma once

#include <optional>
#include <vector>

#include "extension/assembling.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

/// Lights dark strands of built trunks, link by link.
class LitTrunks {
public:
    /// `dark`: for each cable of the built plan, strands that carry no link.
    LitTrunks(const Scenario& scenario, const std::vector<int>& dark) : scenario_(scenario), dark_(dark) {}

    /// A trunk of the built enclosure with dark strands for one more link, lit in all its parts; nothing where none has
    /// any left.
    std::optional<int> light_one(Plan& plan, int enclosure, int strands);

    [[nodiscard]] const std::vector<LitStrands>& lit() const { return lit_; }

private:
    void light_parts(Plan& plan, const std::vector<int>& parts, int strands);
    void light_part(PlannedCable& cable, int strands, int of_spares) const;
    void note(int cable, int strands);

    const Scenario& scenario_;
    std::vector<int> dark_;
    std::vector<LitStrands> lit_;
};

}  // namespace spadework
