#pragma once

// A plan's quantities, apart from prices: what it costs at any prices, in microseconds and to the cent of its bill.

#include <optional>
#include <vector>

#include "layout/plan.hpp"
#include "layout/routed_layout.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework {

/// The quantities of a plan. Its total at other prices, on the same map with the same cables, is exactly that of the
/// bill which price() makes. Products are those of the plan: what would be cheaper at other prices is another plan.
class PricedPlan {
public:
    PricedPlan(const Scenario& scenario, const Plan& plan);

    /// What the customer pays at the prices of a scenario that differs from the plan's in prices alone.
    [[nodiscard]] Money total(const Scenario& scenario) const;

    friend bool operator==(const PricedPlan&, const PricedPlan&) = default;

private:
    /// A method of a ground, or -1 for the existing duct and -2 for the pole line.
    struct Method {
        int ground = 0;
        int number = 0;
        friend bool operator==(const Method&, const Method&) = default;
    };
    struct Trench {
        SegmentIndex segment = 0;
        int method = 0;  ///< Index into methods_.
        Length length;
        friend bool operator==(const Trench&, const Trench&) = default;
    };
    struct Stretch {
        int method = 0;
        Length length;
        friend bool operator==(const Stretch&, const Stretch&) = default;
    };
    struct Cable {
        int product = 0;
        int strands_in_use = 0;
        Length ordered;
        int joints = 0;
        std::vector<Stretch> stretches;  ///< In the order of its steps, as the bill adds up the hours of pulling.
        friend bool operator==(const Cable&, const Cable&) = default;
    };
    /// So many times so many pieces of a product.
    struct Lot {
        int product = 0;
        int pieces = 0;
        int times = 0;
        friend bool operator==(const Lot&, const Lot&) = default;
    };
    struct MethodPrices;

    int method_of(const Scenario& scenario, const Step& step);
    static const OpeningMethod& method_in(const Scenario& scenario, const Method& method);
    static void add_lot(std::vector<Lot>& lots, int product, int pieces);
    void take_cables(const Scenario& scenario, const Plan& plan);
    void take_gear(const Plan& plan);
    [[nodiscard]] Money cost_of(const Cable& cable, const Scenario& scenario,
                                const std::vector<MethodPrices>& methods) const;
    [[nodiscard]] Money cost_of_trenches(const Scenario& scenario, const std::vector<MethodPrices>& methods) const;
    [[nodiscard]] Money cost_of_links(const Scenario& scenario) const;
    [[nodiscard]] Money cost_of_gear(const Scenario& scenario) const;

    std::vector<Method> methods_;
    std::vector<Trench> trenches_;
    std::vector<Cable> cables_;
    std::vector<Lot> optics_;  ///< Two pieces a link.
    std::vector<Lot> attenuators_;
    std::vector<Lot> strands_;     ///< Links by their strands: the "product" is the number of strands.
    std::vector<Lot> enclosures_;  ///< Products.
    std::vector<PlaceIndex> enclosure_places_;
    std::vector<Lot> building_gear_;
    std::vector<Lot> hub_gear_;
};

/// What a plan's routes cost where lengths are other than the plan was made for: cables are chosen and cut anew.
/// Nothing where the routes cannot be built then, because a link would be too long.
std::optional<Money> total_of_routes(const Scenario& scenario, const RoutedLayout& routes);

}  // namespace spadework
