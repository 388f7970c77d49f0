#include <array>

#include "costing/bill.hpp"

namespace spadework {

namespace {

struct CategoryNames {
    const char* id;
    const char* name;
};

/// In the order of Category.
constexpr std::array<CategoryNames, category_count> names = {{
    {"groundworks", "Groundworks"},
    {"crossings-and-permits", "Crossings and permits"},
    {"ducts", "Ducts"},
    {"cable", "Cable"},
    {"terminations", "Terminations"},
    {"enclosures", "Enclosures"},
    {"optics", "Optics"},
    {"endpoint-gear", "Endpoint gear"},
    {"hub-gear", "Hub gear"},
    {"testing", "Testing"},
    {"mobilisation", "Mobilisation"},
    {"contingency", "Contingency"},
    {"tax", "Tax"},
}};

}  // namespace

const char* id_of(Category category) {
    return names[static_cast<std::size_t>(category)].id;
}

const char* name_of(Category category) {
    return names[static_cast<std::size_t>(category)].name;
}

const char* name_of(Trade trade) {
    constexpr std::array trade_names = {"", "groundworks crew", "installer", "splicer"};
    return trade_names[static_cast<std::size_t>(trade)];
}

}  // namespace spadework
