#include "drawing/label_placing.hpp"

#include <random>

#include <doctest/doctest.h>

#include "support/effort.hpp"

using namespace spadework::drawing;
using spadework::effort;

namespace {

const Rectangle room{0, 0, 900, 400};

LabelWish wish_at(double x, double y, const std::string& text) {
    LabelWish wish;
    wish.at = {x, y};
    wish.reach = 5;
    wish.text = text;
    return wish;
}

MapClutter symbols_of(const std::vector<LabelWish>& wishes) {
    MapClutter clutter;
    for (const LabelWish& wish : wishes)
        clutter.symbols.push_back(
            {wish.at.x - wish.reach, wish.at.y - wish.reach, wish.at.x + wish.reach, wish.at.y + wish.reach});
    return clutter;
}

bool share_room(const Rectangle& a, const Rectangle& b) {
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

/// Samples along the leader, both ends left out.
bool leader_enters(const PlacedLabel& label, const Rectangle& box) {
    const auto& [from, to] = *label.leader;
    for (int i = 1; i < 200; ++i) {
        const double x = from.x + (to.x - from.x) * i / 200;
        const double y = from.y + (to.y - from.y) * i / 200;
        if (x > box.left && x < box.right && y > box.top && y < box.bottom) return true;
    }
    return false;
}

int placed_count(const std::vector<PlacedLabel>& labels) {
    int count = 0;
    for (const PlacedLabel& label : labels)
        count += label.placed ? 1 : 0;
    return count;
}

void check_apart(const std::vector<PlacedLabel>& labels, const MapClutter& clutter) {
    for (std::size_t i = 0; i < labels.size(); ++i) {
        if (!labels[i].placed) continue;
        const Rectangle& box = labels[i].box;
        CHECK(box.left >= room.left);
        CHECK(box.right <= room.right);
        CHECK(box.top >= room.top);
        CHECK(box.bottom <= room.bottom);
        CHECK(box.width() >= width_of(labels[i].text, {12, false}));
        for (const Rectangle& symbol : clutter.symbols)
            CHECK_FALSE(share_room(box, symbol));
        for (std::size_t j = 0; j < labels.size(); ++j) {
            if (j == i || !labels[j].placed) continue;
            CHECK_FALSE(share_room(box, labels[j].box));
            if (labels[i].leader) CHECK_FALSE(leader_enters(labels[i], labels[j].box));
        }
    }
}

}  // namespace

TEST_CASE("a label alone stands to the right of its symbol") {
    const std::vector<LabelWish> wishes = {wish_at(100, 100, "Mill")};
    const auto labels = place_labels(wishes, symbols_of(wishes), room);
    CHECK(labels[0].placed);
    CHECK(labels[0].text == "Mill");
    CHECK(labels[0].number == 0);
    CHECK(labels[0].box.left > 105);
    CHECK(labels[0].box.left < 110);
    CHECK_FALSE(labels[0].leader);
}

TEST_CASE("a label keeps off a line where it can") {
    const std::vector<LabelWish> wishes = {wish_at(100, 100, "Mill")};
    MapClutter clutter = symbols_of(wishes);
    clutter.lines = {{{100, 100}, {300, 100}}};
    CHECK(place_labels(wishes, clutter, room)[0].box.right < 100);
}

TEST_CASE("a label at the border turns inwards") {
    for (const auto& [x, y] : {std::pair{895.0, 200.0}, {5.0, 200.0}, {400.0, 5.0}, {400.0, 395.0}, {895.0, 5.0}}) {
        const std::vector<LabelWish> wishes = {wish_at(x, y, "Reception")};
        const auto labels = place_labels(wishes, symbols_of(wishes), room);
        CHECK(labels[0].placed);
        check_apart(labels, symbols_of(wishes));
    }
}

TEST_CASE("two symbols at one point have a label each") {
    const std::vector<LabelWish> wishes = {wish_at(300, 200, "Barn"), wish_at(300, 200, "Mill")};
    const auto labels = place_labels(wishes, symbols_of(wishes), room);
    CHECK(labels[0].text == "Barn");
    CHECK(labels[1].text == "Mill");
    CHECK(placed_count(labels) == 2);
    check_apart(labels, symbols_of(wishes));
}

TEST_CASE("what finds no room beside its symbol is led to, and then numbered") {
    std::vector<LabelWish> wishes;
    for (int i = 0; i < 14; ++i)
        wishes.push_back(wish_at(300 + 4 * i, 200, "A rather long name " + std::to_string(i)));
    const auto labels = place_labels(wishes, symbols_of(wishes), room);
    check_apart(labels, symbols_of(wishes));
    bool any_leader = false;
    for (const PlacedLabel& label : labels)
        any_leader = any_leader || label.leader.has_value();
    CHECK(any_leader);
    CHECK(placed_count(labels) == 14);
}

TEST_CASE("labels that may be dropped take room from no other") {
    std::vector<LabelWish> wishes = {wish_at(300, 200, "120.0 m"), wish_at(300, 212, "Mill")};
    wishes[0].without_room = WithoutRoom::drop_it;
    wishes[0].keep_off_lines = true;
    wishes[0].rank = 3;
    MapClutter clutter = symbols_of(wishes);
    for (int y = 0; y < 400; y += 4)
        clutter.lines.push_back({{0, y * 1.0}, {900, y * 1.0}});
    const auto labels = place_labels(wishes, clutter, room);
    CHECK_FALSE(labels[0].placed);
    CHECK(labels[0].number == 0);
    CHECK(labels[1].placed);
}

TEST_CASE("no label lies on another, on a symbol or on a leader, however crowded the map") {
    constexpr unsigned rounds = std::max(2, effort(6));  // Spread over the map, and crowded in its middle.
    for (const int count : {12, 40, 150, 300}) {
        for (unsigned dice = 1; dice <= rounds; ++dice) {
            CAPTURE(count);
            CAPTURE(dice);
            std::mt19937 random(dice);
            std::vector<LabelWish> wishes;
            const double spread = dice % 2 == 0 ? 1.0 : 0.3;
            for (int i = 0; i < count; ++i) {
                const double x = 450 + spread * (static_cast<double>(random() % 880) - 440);
                const double y = 200 + spread * (static_cast<double>(random() % 380) - 190);
                wishes.push_back(wish_at(x, y, "Building " + std::to_string(i * 7919 % 1000)));
            }
            const MapClutter clutter = symbols_of(wishes);
            const auto labels = place_labels(wishes, clutter, room);
            check_apart(labels, clutter);
            int highest = 0;
            int numbered = 0;
            for (const PlacedLabel& label : labels) {
                CHECK((label.placed || label.number > 0));
                highest = std::max(highest, label.number);
                numbered += label.number > 0 ? 1 : 0;
            }
            CHECK(highest == numbered);
            if (count <= 40 && spread == 1.0) CHECK(placed_count(labels) == count);
        }
    }
}

TEST_CASE("the same wishes get the same places") {
    std::mt19937 random(5);
    std::vector<LabelWish> wishes;
    for (int i = 0; i < 80; ++i)
        wishes.push_back(wish_at(static_cast<double>(random() % 900), static_cast<double>(random() % 400), "Mill"));
    const auto a = place_labels(wishes, symbols_of(wishes), room);
    const auto b = place_labels(wishes, symbols_of(wishes), room);
    for (std::size_t i = 0; i < a.size(); ++i) {
        CHECK(a[i].text == b[i].text);
        CHECK(a[i].box.left == b[i].box.left);
        CHECK(a[i].box.top == b[i].box.top);
    }
}

TEST_CASE("no wishes, no labels") {
    CHECK(place_labels({}, {}, room).empty());
}
