#include "drawing/plan_places.hpp"

#include <set>

#include <fmt/format.h>

#include "drawing/map_symbols.hpp"
#include "drawing/plan_words.hpp"

namespace spadework::drawing {

namespace {

constexpr int longest_label = 28;

const Place& place_of(const Scenario& scenario, PlaceIndex place) {
    return scenario.places[static_cast<std::size_t>(place)];
}

const char* layer_of(SignKind kind) {
    switch (kind) {
        case SignKind::handhole:
            return "handholes";
        case SignKind::future_building:
            return "future-buildings";
        case SignKind::building:
            return "buildings";
        case SignKind::enclosure:
            return "enclosures";
        case SignKind::hub:
            return "hub";
    }
    return "places";
}

class SignList {
public:
    SignList(const Scenario& scenario, const MapFrame& frame)
        : scenario_(scenario),
          frame_(frame),
          half_(scenario.buildings.size() > 150  ? 3
                : scenario.buildings.size() > 40 ? 4
                                                 : 5) {}

    /// Handholes that trenches end in, where no enclosure stands.
    void add_handholes(const Plan& plan) {
        std::set<PlaceIndex> passed;
        for (const Step& step : plan.trenches) {
            const Segment& segment = scenario_.segments[static_cast<std::size_t>(step.segment)];
            passed.insert({segment.from, segment.to});
        }
        for (const PlannedEnclosure& enclosure : plan.enclosures)
            passed.erase(enclosure.place);
        for (const PlaceIndex index : passed) {
            if (place_of(scenario_, index).kind == PlaceKind::handhole)
                add(SignKind::handhole, index, 3, "", "Handhole " + name_at(index));
        }
    }

    void add_future_buildings() {
        for (const FutureBuilding& building : scenario_.growth.buildings) {
            if (!building.place || *building.place == scenario_.hub.place) continue;
            const std::string name = name_or_id(building.name, building.id);
            add(SignKind::future_building, *building.place, half_, name,
                fmt::format("{}: may come in year {}, chance {:.0f} %", name, building.year, 100 * building.chance));
        }
    }

    void add_buildings() {
        for (const Building& building : scenario_.buildings) {
            const std::string name = name_or_id(building.name, building.id);
            add(SignKind::building, building.place, half_, name, name);
        }
    }

    void add_enclosures(const Plan& plan) {
        for (const PlannedEnclosure& enclosure : plan.enclosures)
            add(SignKind::enclosure, enclosure.place, half_ + 3, name_at(enclosure.place),
                enclosure_in_words(scenario_, plan, enclosure));
    }

    void add_hub() {
        add(SignKind::hub, scenario_.hub.place, half_ + 3, name_at(scenario_.hub.place),
            "Hub: " + name_at(scenario_.hub.place));
    }

    [[nodiscard]] const std::vector<PlaceSign>& list() const { return list_; }

private:
    [[nodiscard]] std::string name_at(PlaceIndex index) const {
        return name_or_id(place_of(scenario_, index).name, place_of(scenario_, index).id);
    }

    void add(SignKind kind, PlaceIndex index, double half, const std::string& label, const std::string& title) {
        list_.push_back({kind, frame_.point(place_of(scenario_, index).at), half, label, title});
    }

    const Scenario& scenario_;
    const MapFrame& frame_;
    double half_;
    std::vector<PlaceSign> list_;
};

}  // namespace

std::vector<PlaceSign> plan_signs(const Scenario& scenario, const LayoutResult& result, const MapFrame& frame) {
    SignList signs(scenario, frame);
    if (result.plan) signs.add_handholes(*result.plan);
    signs.add_future_buildings();
    signs.add_buildings();
    if (result.plan) signs.add_enclosures(*result.plan);
    signs.add_hub();
    return signs.list();
}

void write_sign(SvgWriter& svg, const PlaceSign& sign) {
    switch (sign.kind) {
        case SignKind::handhole:
            return write_handhole(svg, sign.at, sign.half, sign.title);
        case SignKind::future_building:
            return write_future_building(svg, sign.at, sign.half, sign.title);
        case SignKind::building:
            return write_building(svg, sign.at, sign.half, sign.title);
        case SignKind::enclosure:
            return write_enclosure(svg, sign.at, sign.half, sign.title);
        case SignKind::hub:
            return write_hub(svg, sign.at, sign.half, sign.title);
    }
}

const char* name_of(SignKind kind) {
    switch (kind) {
        case SignKind::handhole:
            return "Handhole passed";
        case SignKind::future_building:
            return "Building that may come";
        case SignKind::building:
            return "Building";
        case SignKind::enclosure:
            return "Enclosure";
        case SignKind::hub:
            return "Hub";
    }
    return "";
}

void write_signs(SvgWriter& svg, const Ids& ids, const std::vector<PlaceSign>& signs) {
    for (const SignKind kind :
         {SignKind::handhole, SignKind::future_building, SignKind::enclosure, SignKind::building, SignKind::hub}) {
        bool open = false;
        for (const PlaceSign& sign : signs) {
            if (sign.kind != kind) continue;
            if (!open) svg.open("g", {{"id", ids.id(layer_of(kind))}});
            open = true;
            write_sign(svg, sign);
        }
        if (open) svg.close();
    }
}

std::vector<LabelWish> label_wishes(const std::vector<PlaceSign>& signs) {
    std::vector<LabelWish> wishes;
    for (const PlaceSign& sign : signs) {
        if (sign.label.empty()) continue;
        LabelWish wish;
        wish.at = sign.at;
        wish.reach = sign.half;
        wish.text = drawn(sign.label, longest_label);
        wish.in_full = sign.label;
        wish.lettering = {small_size, sign.kind == SignKind::hub || sign.kind == SignKind::enclosure};
        wish.rank = sign.kind == SignKind::building ? 1 : sign.kind == SignKind::future_building ? 2 : 0;
        if (sign.kind == SignKind::future_building) wish.without_room = WithoutRoom::drop_it;
        wishes.push_back(wish);
    }
    return wishes;
}

}  // namespace spadework::drawing
