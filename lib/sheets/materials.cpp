#include "sheets/materials.hpp"

#include <map>
#include <tuple>

namespace spadework {

namespace {

bool is_bought(const CostLine& line) {
    switch (line.category) {
        case Category::ducts:
        case Category::cable:
        case Category::terminations:
        case Category::enclosures:
        case Category::optics:
        case Category::endpoint_gear:
        case Category::hub_gear:
            return line.labour == WorkTime();
        default:
            return false;
    }
}

}  // namespace

std::vector<Material> materials(const Bill& bill) {
    std::map<std::tuple<Category, std::string, std::string, std::int64_t>, Material> found;
    for (const CostLine& line : bill.lines) {
        if (!is_bought(line)) continue;
        Material& material = found[{line.category, line.item, line.unit, line.unit_price.thousandths()}];
        material.category = line.category;
        material.item = line.item;
        material.unit = line.unit;
        material.unit_price = line.unit_price;
        material.quantity += line.quantity;
        material.amount += line.amount;
    }
    std::vector<Material> list;
    for (auto& [key, material] : found)
        list.push_back(std::move(material));
    return list;
}

}  // namespace spadework
