#pragma once

#include <string>
#include <vector>

#include "costing/bill.hpp"

namespace spadework {

/// One thing to buy: the lines of a bill for it at one price, together.
struct Material {
    Category category = Category::cable;
    std::string item;
    double quantity = 0;
    std::string unit;
    UnitPrice unit_price;
    Money amount;
};

/// What a bill buys: ducts, cables, ends, enclosures, optics and gear, without labour and groundworks. By category,
/// item, unit and price.
std::vector<Material> materials(const Bill& bill);

}  // namespace spadework
