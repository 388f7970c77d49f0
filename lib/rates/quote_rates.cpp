#include "rates/quote_rates.hpp"

namespace spadework {

Quote quote_for(Money direct, const Rules& rules) {
    Quote quote;
    quote.direct = direct;
    quote.contingency = share_of(direct, rules.contingency);
    quote.tax = share_of(direct + quote.contingency, rules.tax);
    return quote;
}

}  // namespace spadework
