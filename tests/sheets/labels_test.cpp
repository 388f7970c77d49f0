#include "sheets/labels.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include <doctest/doctest.h>

#include "support/small_site.hpp"

namespace spadework {
namespace {

std::vector<Label> labels_of_trunk() {
    const Scenario site = small_site::site();
    const Plan plan = small_site::trunk(site);
    return labels(site, plan, map_strands(site, plan, tia_598_order()));
}

std::ptrdiff_t count(const std::vector<Label>& all, const std::string& marks) {
    return std::ranges::count(all, marks, &Label::marks);
}

}  // namespace

TEST_CASE("every cable has two ends to label, every plugged strand too, every enclosure and piece of gear one") {
    const auto all = labels_of_trunk();
    CHECK(count(all, "cable end") == 6);
    CHECK(count(all, "strand end") == 2 * 8 + 4 * 2);  // 8 trunk strands at both ends; 4 drop strands at both ends
    CHECK(count(all, "enclosure") == 1);
    CHECK(count(all, "gear") == 2);
    CHECK(count(all, "hub gear") == 1);
}

TEST_CASE("labels say what they mark and what it leads to, place by place") {
    const auto all = labels_of_trunk();
    const auto is = [](const char* first, const char* second) {
        return [=](const Label& label) { return label.line_1 == first && label.line_2 == second; };
    };
    CHECK(std::ranges::any_of(all, is("trunk-1", "to gate, 12 strands")));
    CHECK(std::ranges::any_of(all, is("trunk-1/3", "enclosure 1 adapter 3, mill link 1")));
    CHECK(std::ranges::any_of(all, is("trunk-1/5", "hub panel 5, spare")));
    CHECK(std::ranges::is_sorted(all, {}, &Label::place));
}

TEST_CASE("no two strand ends at one place carry the same name and adapter") {
    std::set<std::tuple<PlaceIndex, std::string, std::string>> seen;
    for (const Label& label : labels_of_trunk()) {
        if (label.marks == "strand end") CHECK(seen.insert({label.place, label.line_1, label.line_2}).second);
    }
}

}  // namespace spadework
