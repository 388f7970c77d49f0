#include "rates/cord_rates.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {

TEST_CASE("the cheapest cord of the strand count is taken, the earlier of equals, and none where none fits") {
    Scenario site = small_site::site();
    site.catalogue.patch_cords = {{"dear", "", 2, small_site::cents(900)},
                                  {"cheap", "", 2, small_site::cents(450)},
                                  {"same", "", 2, small_site::cents(450)},
                                  {"single", "", 1, small_site::cents(100)}};
    CHECK(cheapest_cord(site, 2) == 1);
    CHECK(cheapest_cord(site, 1) == 3);
    CHECK_FALSE(cheapest_cord(site, 4));
}

}  // namespace spadework
