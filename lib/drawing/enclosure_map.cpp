#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "drawing/axis.hpp"
#include "drawing/base_map.hpp"
#include "drawing/drawing.hpp"
#include "drawing/extra_cost_classes.hpp"
#include "drawing/figures.hpp"
#include "drawing/legend_flow.hpp"
#include "drawing/map_extent.hpp"
#include "drawing/map_furniture.hpp"
#include "drawing/map_labels.hpp"
#include "drawing/map_symbols.hpp"
#include "drawing/plan_words.hpp"

namespace spadework::drawing {

namespace {

constexpr double margin = 12;
constexpr double map_padding = 34;
constexpr std::size_t most_names = 8;  ///< So many of the cheapest places are named on the map.
constexpr double sign_width = 34;

const Place& place_of(const Scenario& scenario, PlaceIndex place) {
    return scenario.places[static_cast<std::size_t>(place)];
}

std::vector<Position> places_shown(const Scenario& scenario, const EnclosureStudy& study) {
    std::vector<Position> shown = {place_of(scenario, scenario.hub.place).at};
    for (const PlaceRank& rank : study.ranking)
        shown.push_back(place_of(scenario, rank.place).at);
    for (const Building& building : scenario.buildings)
        shown.push_back(place_of(scenario, building.place).at);
    return extent_with(scenario, shown);
}

class EnclosureMap {
public:
    EnclosureMap(const Scenario& scenario, const EnclosureStudy& study, const Frame& frame)
        : scenario_(scenario),
          frame_(frame),
          ids_(frame, "enclosure-map"),
          map_(scenario, places_shown(scenario, study), usable_width(frame) - 2 * margin, map_padding),
          study_(study) {
        map_.move_to(margin, margin);
        with_sign_.insert(scenario.hub.place);
        for (const Segment& segment : scenario.segments)
            if (!segment.area) clutter_.lines.push_back(map_.points(segment.polyline));
        for (const PlaceRank& rank : study.ranking)
            (rank.result.feasible() ? ranked_ : impossible_).push_back(&rank);
        Money most;
        for (const PlaceRank* rank : ranked_)
            most = std::max(most, rank->over_best);
        classes_ = ExtraCostClasses(most, scenario.currency);
    }

    std::string run() {
        areas_ = write_areas(svg_, ids_, scenario_, map_);
        write_unused(svg_, ids_, scenario_, map_, std::vector<bool>(scenario_.segments.size(), false));
        write_buildings();
        write_barred();
        write_ranked();
        write_hub_sign();
        const std::vector<PlacedLabel> labels = place_labels(wishes_, clutter_,
                                                             {map_.rectangle().left + 3, map_.rectangle().top + 3,
                                                              map_.rectangle().right - 3, map_.rectangle().bottom - 3});
        write_labels(svg_, ids_, wishes_, labels);
        write_furniture(svg_, ids_, scenario_, map_);
        write_border(svg_, map_);
        double y = write_legend(map_.rectangle().bottom + furniture_height + 10);
        y = write_title_block(svg_, ids_, margin, usable_width(frame_) - margin, y + 8, title_rows());
        if (any_numbered(labels))
            y = write_index(svg_, ids_, margin, usable_width(frame_) - margin, y + 14, wishes_, labels);
        const std::string title = fmt::format("Places for one enclosure: {}", drawn_in_sentence(scenario_.name));
        return picture(frame_, {"enclosure-map", title, description()}, y + margin, svg_);
    }

private:
    [[nodiscard]] Point at(PlaceIndex place) const { return map_.point(place_of(scenario_, place).at); }

    [[nodiscard]] std::string name_of(PlaceIndex place) const {
        return name_or_id(place_of(scenario_, place).name, place_of(scenario_, place).id);
    }

    void write_buildings() {
        svg_.open("g", {{"id", ids_.id("buildings")}});
        for (const Building& building : scenario_.buildings) {
            write_building(svg_, at(building.place), building_half, name_or_id(building.name, building.id));
            clutter_.symbols.push_back(around(at(building.place), building_half));
            with_sign_.insert(building.place);
        }
        svg_.close();
    }

    void write_cross(const Point& middle, double arm, std::string_view title) {
        svg_.titled("path",
                    {{"d", path_of({{{middle.x - arm, middle.y - arm}, {middle.x + arm, middle.y + arm}},
                                    {{middle.x - arm, middle.y + arm}, {middle.x + arm, middle.y - arm}}})},
                     {"fill", "none"},
                     {"stroke", colour::quiet},
                     {"stroke-width", 1.4}},
                    title);
    }

    /// Crosses are smaller where there are many.
    [[nodiscard]] double cross_arm() const { return study_.barred.size() > 40 ? 2 : widest_arm; }

    void write_barred() {
        if (study_.barred.empty() && impossible_.empty()) return;
        svg_.open("g", {{"id", ids_.id("barred")}});
        for (const BarredPlace& barred : study_.barred)
            write_barred(barred.place, barred.reason);
        for (const PlaceRank* rank : impossible_)
            write_barred(rank->place, rank->result.reason);
        svg_.close();
    }

    /// Buildings and the hub have signs of their own: a cross on them would hide them.
    void write_barred(PlaceIndex place, const std::string& reason) {
        if (with_sign_.contains(place)) return;
        write_cross(at(place), cross_arm(), fmt::format("{}: {}", name_of(place), drawn(reason)));
        clutter_.symbols.push_back(around(at(place), cross_arm()));
        any_cross_ = true;
    }

    /// The dearest first, so that small signs of cheap places lie on top.
    void write_ranked() {
        if (ranked_.empty()) return;
        svg_.open("g", {{"id", ids_.id("places")}});
        for (std::size_t i = ranked_.size(); i-- > 0;)
            write_place(*ranked_[i], i);
        svg_.close();
        for (std::size_t i = 0; i < ranked_.size(); ++i)
            add_label(*ranked_[i], i);
    }

    void write_place(const PlaceRank& rank, std::size_t number) {
        const std::string title = number == 0 ? fmt::format("{}: cheapest, {}", name_of(rank.place),
                                                            money_in_words(rank.result.total, scenario_.currency))
                                              : fmt::format("{}: {} more", name_of(rank.place),
                                                            money_in_words(rank.over_best, scenario_.currency));
        if (number == 0) {
            write_enclosure(svg_, at(rank.place), best_half, title);
        } else {
            write_extra_cost_sign(svg_, at(rank.place), classes_.class_of(rank.over_best), title);
        }
    }

    void add_label(const PlaceRank& rank, std::size_t number) {
        const double half = number == 0 ? best_half : extra_cost_radius(classes_.class_of(rank.over_best));
        clutter_.symbols.push_back(around(at(rank.place), half));
        if (number >= most_names) return;
        LabelWish wish;
        wish.at = at(rank.place);
        wish.reach = half;
        wish.text = drawn(name_of(rank.place), 28);
        wish.lettering = {small_size, number == 0};
        wish.rank = static_cast<int>(number);
        if (number > 0) wish.text += " +" + money_figure(rank.over_best, scenario_.currency);
        wish.without_room = WithoutRoom::number_it;
        wishes_.push_back(wish);
    }

    void write_hub_sign() {
        svg_.open("g", {{"id", ids_.id("hub")}});
        write_hub(svg_, at(scenario_.hub.place), 7, "Hub: " + name_of(scenario_.hub.place));
        svg_.close();
        clutter_.symbols.push_back(around(at(scenario_.hub.place), 7));
    }

    double write_legend(double y) {
        svg_.open("g", {{"id", ids_.id("legend")}});
        LegendFlow flow(margin, usable_width(frame_) - margin, y, sign_width);
        const auto next = [&](std::string_view text) {
            const LegendSpot spot = flow.next(text);
            write_text(svg_, spot.text_x, spot.y, spot.text, {{small_size}});
            return Point{spot.x + sign_width / 2, spot.y - 4};
        };
        write_hub(svg_, next("Hub"), 7, "Hub");
        write_building(svg_, next("Building"), building_half, "Building");
        if (!ranked_.empty()) write_enclosure(svg_, next("Cheapest place"), best_half, "Cheapest place");
        for (int c = 0; c < classes_.count(); ++c) {
            if (!occurs(c)) continue;
            const std::string text = classes_.in_words(c);
            write_extra_cost_sign(svg_, next(text), c, text);
        }
        if (any_cross_) write_cross(next("No enclosure can stand here"), cross_arm(), "No enclosure can stand here");
        const auto add_area = [&](const char* name, AreaUse use) {
            const Point at = next(name);
            Attributes box = {{"x", at.x - sign_width / 2}, {"y", at.y - 7}, {"width", sign_width}, {"height", 14}};
            const Attributes look = area_look(use);
            box.insert(box.end(), look.begin(), look.end());
            svg_.leaf("rect", box);
        };
        if (areas_.open_ground) add_area("Open ground", AreaUse::open_ground);
        if (areas_.obstacle) add_area("Obstacle", AreaUse::obstacle);
        if (areas_.overlay) add_area("Area with terms of its own", AreaUse::overlay);
        svg_.close();
        return flow.below();
    }

    [[nodiscard]] bool occurs(int number) const {
        return std::any_of(ranked_.begin(), ranked_.end(), [&](const PlaceRank* rank) {
            return rank != ranked_.front() && classes_.class_of(rank->over_best) == number;
        });
    }

    [[nodiscard]] std::string why_none() const {
        return study_.reason.empty() ? "no place can take the enclosure" : drawn_in_sentence(study_.reason, 400);
    }

    [[nodiscard]] std::vector<TitleRow> title_rows() const {
        std::vector<TitleRow> rows = {{"Site", drawn_in_sentence(scenario_.name), true}};
        if (ranked_.empty()) {
            rows.push_back({"Result", "No place: " + why_none(), true});
        } else {
            rows.push_back({"Cheapest",
                            fmt::format("{}, {} in all", drawn_in_sentence(name_of(ranked_.front()->place)),
                                        money_in_words(ranked_.front()->result.total, scenario_.currency)),
                            true});
            rows.push_back({"Signs", fmt::format("extra cost in {} of the whole plan with its one enclosure there",
                                                 scenario_.currency.code)});
        }
        if (study_.interrupted)
            rows.push_back({"Note", "the search was stopped early: places may cost less than is shown"});
        rows.push_back({"Scale", scale_in_words(map_) + " at natural size; otherwise measure with the scale bar."});
        return rows;
    }

    [[nodiscard]] std::string description() const {
        if (ranked_.empty()) return fmt::format("Map of the site. No place for one enclosure: {}.", why_none());
        std::string text =
            fmt::format("Map of the places where one enclosure may stand, north up. Cheapest: {}, {} in all.",
                        drawn_in_sentence(name_of(ranked_.front()->place)),
                        money_in_words(ranked_.front()->result.total, scenario_.currency));
        constexpr std::size_t most_said = 40;
        for (std::size_t i = 1; i < std::min(ranked_.size(), most_said); ++i)
            text += fmt::format(" {}: {} more.", drawn_in_sentence(name_of(ranked_[i]->place)),
                                money_in_words(ranked_[i]->over_best, scenario_.currency));
        if (ranked_.size() > most_said)
            text += fmt::format(" {} more, the dearest {} above the cheapest.",
                                counted(ranked_.size() - most_said, "place", "places"),
                                money_in_words(ranked_.back()->over_best, scenario_.currency));
        const std::size_t barred = study_.barred.size() + impossible_.size();
        if (barred > 0)
            text += fmt::format(" No enclosure can stand at {}.", counted(barred, "other place", "other places"));
        return text;
    }

    static constexpr double best_half = 9;
    static constexpr double building_half = 3;
    static constexpr double widest_arm = 3.5;  ///< Of a cross.

    const Scenario& scenario_;
    const Frame& frame_;
    Ids ids_;
    MapFrame map_;
    const EnclosureStudy& study_;
    std::vector<const PlaceRank*> ranked_;      ///< Cheapest first.
    std::vector<const PlaceRank*> impossible_;  ///< Allowed, but no plan is feasible there.
    ExtraCostClasses classes_;
    std::vector<LabelWish> wishes_;
    MapClutter clutter_;
    std::set<PlaceIndex> with_sign_;
    bool any_cross_ = false;
    AreasSeen areas_;
    SvgWriter svg_{1};
};

}  // namespace

std::string enclosure_map_svg(const Scenario& scenario, const EnclosureStudy& study, const Frame& frame) {
    return EnclosureMap(scenario, study, frame).run();
}

}  // namespace spadework::drawing
