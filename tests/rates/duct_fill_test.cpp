#include "rates/duct_fill.hpp"

#include <cmath>

#include <doctest/doctest.h>

using namespace spadework;

namespace {

constexpr double inch_mm = 25.4;
// Inner diameters of PVC schedule 40 conduit (NEC Chapter 9 Table 4; value from memory).
constexpr double one_inch_mm = 1.029 * inch_mm;
constexpr double two_inch_mm = 2.047 * inch_mm;

double percent(double share) {
    return 100 * share;
}

std::vector<double> cables(std::size_t count, double diameter_mm) {
    return std::vector<double>(count, diameter_mm);
}

}  // namespace

TEST_CASE("FILL-1: one cable may take 53 %, two 31 %, more 40 % of a duct (NEC Chapter 9 Table 1)") {
    const FillRules rules;
    CHECK(fill_limit(1, rules).percent() == 53);
    CHECK(fill_limit(2, rules).percent() == 31);
    CHECK(fill_limit(3, rules).percent() == 40);
    CHECK(fill_limit(100, rules).percent() == 40);
}

TEST_CASE("FILL-5: a 1 in cable in a 1.25 in inner duct fills 64 % of it (a printed example), too much for one") {
    CHECK(percent(duct_fill(1.25 * inch_mm, cables(1, inch_mm))) == doctest::Approx(64.0).epsilon(1e-12));
    CHECK_FALSE(is_within_fill(1.25 * inch_mm, cables(1, inch_mm), {}));
}

TEST_CASE("computed vectors: 0.50 in cables in a 1 in duct pass alone at 23.6 % and fail as two at 47.2 %") {
    CHECK(std::round(percent(duct_fill(one_inch_mm, cables(1, 12.7))) * 10) == 236);
    CHECK(is_within_fill(one_inch_mm, cables(1, 12.7), {}));
    CHECK(std::round(percent(duct_fill(one_inch_mm, cables(2, 12.7))) * 10) == 472);
    CHECK_FALSE(is_within_fill(one_inch_mm, cables(2, 12.7), {}));
    CHECK(is_within_fill(two_inch_mm, cables(3, 12.7), {}));
    CHECK(std::round(percent(duct_fill(two_inch_mm, cables(3, 12.7))) * 10) == 179);
}

TEST_CASE(
    "computed vectors: a 2 in duct holds 6.70 cables of 0.50 in at 40 %, so 6; of 0.49 in 6.98, where note 7 says 7") {
    const FillRules rules;
    CHECK(std::round(cables_by_area(two_inch_mm, 0.50 * inch_mm, rules.more_cables) * 100) == 670);
    CHECK(std::round(cables_by_area(two_inch_mm, 0.49 * inch_mm, rules.more_cables) * 100) == 698);
    CHECK(room_by_fill({two_inch_mm, {}}, 0.50 * inch_mm, rules, 100) == 6);
    CHECK(room_by_fill({two_inch_mm, {}}, 0.49 * inch_mm, rules, 100) == 6);  // the whole part, whatever note 7 allows
}

TEST_CASE("FILL-2: three cables wedge where the duct is 2.8 to 3.2 times as wide as they are") {
    CHECK(std::round(jam_ratio(two_inch_mm, cables(3, 0.68 * inch_mm)) * 100) == 301);
    CHECK(is_within_fill(two_inch_mm, cables(3, 0.68 * inch_mm), {}));  // though the fill passes
    CHECK(jam_ratio(two_inch_mm, cables(2, 0.68 * inch_mm)) == 0);
    CHECK(jam_ratio(two_inch_mm, cables(4, 0.68 * inch_mm)) == 0);
    CHECK(jam_ratio(30, {9, 10, 11}) == doctest::Approx(3.0));
}

TEST_CASE("room ends at the first number of cables that is too many, even where one more would be within its share") {
    // One thick cable lies in the duct: with one thin cable the share for two is passed, with two the share for three
    // would hold.
    const DuctBore bore{100, {54}};
    const FillRules rules;
    CHECK_FALSE(is_within_fill(100, {54, 14.2}, rules));
    CHECK(is_within_fill(100, {54, 14.2, 14.2}, rules));
    CHECK(room_by_fill(bore, 14.2, rules, 100) == 0);
}

TEST_CASE("room is what was said of it where that is less, and nothing in a duct that is full already") {
    CHECK(room_by_fill({two_inch_mm, {}}, 12.7, {}, 4) == 4);
    CHECK(room_by_fill({two_inch_mm, cables(6, 12.7)}, 12.7, {}, 4) == 0);
    CHECK(room_by_fill({two_inch_mm, cables(5, 12.7)}, 12.7, {}, 4) == 1);
}

TEST_CASE("whatever room is left, as many cables as it says, or fewer, or thinner, keep to the fill") {
    for (int inner = 20; inner <= 120; inner += 7) {
        for (int outer = 5; outer <= 25; outer += 3) {
            for (std::size_t there = 0; there <= 4; ++there) {
                const DuctBore bore{static_cast<double>(inner), cables(there, 11)};
                const int room = room_by_fill(bore, outer, {}, 1000);
                for (int more = 1; more <= room; ++more) {
                    std::vector<double> all = bore.cable_diameters_mm;
                    all.insert(all.end(), static_cast<std::size_t>(more), outer - more % 2);
                    CHECK(is_within_fill(inner, all, {}));
                }
            }
        }
    }
}
