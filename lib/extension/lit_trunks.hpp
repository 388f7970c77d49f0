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
    /// `returns`: for a building whose dark cable is lit again, so that strands of the trunk carried its light before.
    std::optional<int> light_one(Plan& plan, int enclosure, int strands, bool returns);

    [[nodiscard]] const std::vector<LitStrands>& lit() const { return lit_; }

private:
    /// Dark strands at a trunk's end that carried links to buildings that are gone: spares beyond the policy's.
    int lit_before(const Plan& plan, int cable) const;
    void light_parts(Plan& plan, const std::vector<int>& parts, int strands);
    void light_part(PlannedCable& cable, int strands, int of_spares) const;
    void note(int cable, int strands, int again);

    const Scenario& scenario_;
    std::vector<int> dark_;
    std::vector<LitStrands> lit_;
};

}  // namespace spadework
