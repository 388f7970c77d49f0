#include "comparison/money_words.hpp"

#include <algorithm>

namespace spadework {

std::string grouped(std::string decimal) {
    const std::size_t first = !decimal.empty() && decimal.front() == '-' ? 1 : 0;
    std::size_t at = std::min(decimal.find('.'), decimal.size());
    while (at > first + 3) {
        at -= 3;
        decimal.insert(at, ",");
    }
    return decimal;
}

std::string money_in_words(Money money, const Currency& currency) {
    return currency.code + " " + grouped(decimal_text(money, currency));
}

}  // namespace spadework
