#include "geometry/box_tree.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <set>

#include <doctest/doctest.h>

using namespace spadework;

namespace {

std::vector<Stretch> random_stretches(std::mt19937& random, int count) {
    std::uniform_real_distribution<double> at(0, 1000);
    std::uniform_real_distribution<double> along(-30, 30);
    std::vector<Stretch> stretches;
    for (int i = 0; i < count; ++i) {
        const double x = at(random);
        const double y = at(random);
        stretches.push_back({{x, y}, {x + along(random), y + along(random)}});
    }
    return stretches;
}

}  // namespace

TEST_CASE("rectangles that touch are nothing apart, others as far as their nearest points") {
    CHECK(metres_apart({0, 0, 10, 10}, {10, 10, 20, 20}) == 0);
    CHECK(metres_apart({0, 0, 10, 10}, {2, 2, 3, 3}) == 0);
    CHECK(metres_apart({0, 0, 10, 10}, {13, 14, 20, 20}) == 5);
    CHECK(metres_apart({13, 2, 20, 3}, {0, 0, 10, 10}) == 3);
}

TEST_CASE("without a limit every stretch is visited once") {
    std::mt19937 random(2);
    for (const int count : {0, 1, 8, 9, 100, 1000}) {
        const auto stretches = random_stretches(random, count);
        std::multiset<int> visited;
        BoxTree(stretches).visit_near({500, 500, 510, 510}, [&](int number) {
            if (number >= 0) visited.insert(number);
            return std::numeric_limits<double>::infinity();
        });
        CHECK(visited.size() == stretches.size());
        CHECK(std::set<int>(visited.begin(), visited.end()).size() == stretches.size());
    }
}

TEST_CASE("what is visited under a limit holds the nearest, and is a small part of all") {
    std::mt19937 random(3);
    const auto stretches = random_stretches(random, 5000);
    const BoxTree tree(stretches);
    std::uniform_real_distribution<double> at(-100, 1100);
    for (int round = 0; round < 200; ++round) {
        const double x = at(random);
        const double y = at(random);
        const Stretch point{{x, y}, {x, y}};
        double nearest = std::numeric_limits<double>::infinity();
        int visits = 0;
        tree.visit_near(box_around(point), [&](int number) {
            if (number < 0) return nearest;
            ++visits;
            nearest = std::min(nearest, nearest_points(stretches[static_cast<std::size_t>(number)], point).metres);
            return nearest;
        });
        double least = std::numeric_limits<double>::infinity();
        for (const Stretch& stretch : stretches)
            least = std::min(least, nearest_points(stretch, point).metres);
        CHECK(nearest == least);
        CHECK(visits < 500);
    }
}

TEST_CASE("stretches at one point do no harm") {
    const std::vector<Stretch> same(1000, Stretch{{1, 1}, {1, 1}});
    int visits = 0;
    BoxTree(same).visit_near({0, 0, 2, 2}, [&](int number) {
        visits += number >= 0 ? 1 : 0;
        return 0.0;
    });
    CHECK(visits == 1000);
}
