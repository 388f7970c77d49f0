#pragma once

// Several plans for the same wish, each for a site of its own, and the cheapest that passes every check.

#include <optional>
#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "layout/design.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"

namespace spadework {

class CheapestCandidate {
public:
    /// A plan for `site`, whose cost the bound in it bounds, as far as it has one. `tag` comes back with the plan.
    void add(const Scenario& site, Design design, int tag = 0);
    /// A plan made of routes; nothing where they cannot be made into one.
    void add(const Scenario& site, const std::optional<RoutedLayout>& routed, int tag = 0);

    struct Found {
        LayoutResult result;
        int tag = 0;
    };
    /// The cheapest that is feasible, ties to the one added first; verified, and what the verifier finds is added to
    /// `violations`. The sites must still be there.
    std::optional<Found> find(std::vector<std::string>& violations) const;

    /// Why the first plan that could not be built could not; "" where there was none.
    [[nodiscard]] const std::string& reason() const { return reason_; }

private:
    struct Entry {
        const Scenario* site;
        Design design;
        Money cost;
        int tag;
    };
    std::vector<Entry> entries_;
    std::string reason_;
};

}  // namespace spadework
