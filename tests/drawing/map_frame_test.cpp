#include "drawing/map_frame.hpp"

#include <doctest/doctest.h>

#include "support/small_site.hpp"

using namespace spadework;
using namespace spadework::drawing;

TEST_CASE("everything that must be seen lies within the frame, north up") {
    const Scenario site = small_site::site();
    MapFrame frame(site, {{0, 0}, {150, 0}, {100, -30}}, 800, 40);
    frame.move_to(10, 20);
    const Point hub = frame.point({0, 0});
    CHECK(hub.x == doctest::Approx(50));
    CHECK(frame.point({150, 0}).x == doctest::Approx(770));
    CHECK(frame.point({100, -30}).y > hub.y);
    CHECK(frame.rectangle().left == 10);
    CHECK(frame.rectangle().width() == doctest::Approx(800));
    CHECK(frame.units_per_metre() == doctest::Approx(720.0 / 150));
}

TEST_CASE("a site that is one point, or a line in one direction, has a finite scale") {
    const Scenario site = small_site::site();
    for (const auto& shown : {std::vector<Position>{{5, 5}}, std::vector<Position>{{0, 0}, {0, 9000}},
                              std::vector<Position>{{0, 0}, {9000, 0}}}) {
        const MapFrame frame(site, shown, 400, 30);
        CHECK(frame.units_per_metre() > 0);
        CHECK(frame.rectangle().height() >= 200);
        CHECK(frame.rectangle().height() <= 500);
        for (const Position& at : shown) {
            CHECK(frame.point(at).x >= 29.9);
            CHECK(frame.point(at).x <= 370.1);
            CHECK(frame.point(at).y >= 29.9);
            CHECK(frame.point(at).y <= frame.rectangle().bottom - 29.9);
        }
    }
}

TEST_CASE("a line is cut where it leaves the rectangle") {
    const Rectangle square{0, 0, 10, 10};
    CHECK(clipped_line({{-5, 5}, {15, 5}}, square).size() == 1);
    CHECK(clipped_line({{-5, 5}, {15, 5}}, square)[0][0].x == doctest::Approx(0));
    CHECK(clipped_line({{-5, 5}, {15, 5}}, square)[0][1].x == doctest::Approx(10));
    CHECK(clipped_line({{1, 1}, {2, 2}, {3, 1}}, square)[0].size() == 3);
    CHECK(clipped_line({{5, 5}, {20, 5}, {20, 8}, {5, 8}}, square).size() == 2);
    CHECK(clipped_line({{20, 20}, {30, 30}}, square).empty());
    CHECK(clipped_line({}, square).empty());
}

TEST_CASE("a ring is cut to the rectangle") {
    const Rectangle square{0, 0, 10, 10};
    const auto whole = clipped_ring({{-5, -5}, {15, -5}, {15, 15}, {-5, 15}}, square);
    CHECK(whole.size() == 4);
    for (const Point& p : whole) {
        CHECK(p.x >= 0);
        CHECK(p.x <= 10);
        CHECK(p.y >= 0);
        CHECK(p.y <= 10);
    }
    CHECK(clipped_ring({{20, 20}, {30, 20}, {30, 30}}, square).empty());
}
