#include "report/values_text.hpp"

#include <doctest/doctest.h>

#include "report/support/crossroads_comparison.hpp"
#include "report/support/text_checks.hpp"

namespace spadework::report {

TEST_CASE("values in force are listed with unit and origin") {
    const std::string text =
        values_text({{"rules.tax", "20", "%", "site.yaml:91:3"},
                     {"rules.slack.coil", "3", "m", "default: common practice, no published source"}});
    CHECK(text ==
          "Key               Value  Unit  Where it comes from\n"
          "----------------------------------------------------------------------------\n"
          "rules.tax         20     %     site.yaml:91:3\n"
          "rules.slack.coil  3      m     default: common practice, no published source\n");
}

TEST_CASE("long and hostile values stay within the width and do nothing") {
    const std::string longest(300, 'x');
    check_form(values_text(
        {{longest, longest, "m", longest}, {crossroads::hostile, crossroads::hostile, "", crossroads::hostile}}));
}

}  // namespace spadework::report
