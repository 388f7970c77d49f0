#include "drawing/figures.hpp"

#include <fmt/format.h>

#include "comparison/money_words.hpp"

namespace spadework::drawing {

std::string money_figure(Money money, const Currency& currency) {
    return grouped(decimal_text(money, currency));
}

std::string price_figure(UnitPrice price, const Currency& currency) {
    const Currency finer{currency.code, currency.minor_digits + 3};
    std::string text = decimal_text(Money::from_minor(price.thousandths()), finer);
    const std::size_t least = text.size() - 3;
    while (text.size() > least && text.back() == '0')
        text.pop_back();
    if (text.back() == '.') text.pop_back();
    return grouped(text);
}

const char* length_unit(const Scenario& scenario) {
    return scenario.feet ? "ft" : "m";
}

double in_length_unit(Length length, const Scenario& scenario) {
    return scenario.feet ? length.feet() : length.metres();
}

std::string length_figure(Length length, const Scenario& scenario) {
    return grouped(fmt::format("{:.1f}", in_length_unit(length, scenario)));
}

std::string length_in_words(Length length, const Scenario& scenario) {
    return fmt::format("{} {}", length_figure(length, scenario), length_unit(scenario));
}

std::string counted(std::size_t count, const char* one, const char* several) {
    return fmt::format("{} {}", grouped(std::to_string(count)), count == 1 ? one : several);
}

}  // namespace spadework::drawing
