#include "rates/quote_rates.hpp"

#include <doctest/doctest.h>

namespace spadework {
namespace {

Rules rules_with(double contingency, double tax) {
    Rules rules;
    rules.contingency = Percent::from_percent(contingency);
    rules.tax = Percent::from_percent(tax);
    return rules;
}

}  // namespace

TEST_CASE("contingency is on direct cost, tax on both, each rounded half up") {
    const Quote quote = quote_for(Money::from_minor(1005), rules_with(10, 8.875));
    CHECK(quote.contingency.minor() == 101);  // 100.5
    CHECK(quote.tax.minor() == 98);           // 8.875 % of 1106 is 98.1575
    CHECK(quote.total().minor() == 1204);
    CHECK(quote_for(Money::from_minor(1004), rules_with(10, 0)).contingency.minor() == 100);
}

TEST_CASE("nothing on top of nothing, and no percentage adds nothing") {
    CHECK(quote_for(Money(), rules_with(10, 20)).total().minor() == 0);
    CHECK(quote_for(Money::from_minor(12345), rules_with(0, 0)).total().minor() == 12345);
}

TEST_CASE("the total never falls when direct cost rises by a cent") {
    const Rules rules = rules_with(7.5, 19);
    Money before;
    for (std::int64_t direct = 0; direct < 20000; ++direct) {
        const Money total = quote_for(Money::from_minor(direct), rules).total();
        REQUIRE(before <= total);
        before = total;
    }
}

}  // namespace spadework
