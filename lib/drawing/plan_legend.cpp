#include "drawing/plan_legend.hpp"

#include "drawing/legend_flow.hpp"

namespace spadework::drawing {

namespace {

constexpr double sign_width = 34;

class LegendWriting {
public:
    LegendWriting(SvgWriter& svg, double left, double right, double y) : svg_(svg), flow_(left, right, y, sign_width) {}

    void add(const PlanLegend& legend) {
        for (const SignKind kind :
             {SignKind::hub, SignKind::enclosure, SignKind::building, SignKind::future_building, SignKind::handhole})
            if (legend.signs.contains(kind)) add_sign(kind);
        for (const GroundLook& look : legend.grounds)
            add_ground(look);
        for (const RoleLook& look : legend.roles) {
            const LegendSpot spot = next(look.name);
            write_cable_line(svg_, line_at(spot), look, look.name);
        }
        if (legend.unused) {
            const LegendSpot spot = next("Map, not used");
            write_line(svg_, spot.x, middle(spot), spot.x + sign_width, middle(spot), unused_colour, unused_width);
        }
        if (legend.areas.open_ground) add_area("Open ground", AreaUse::open_ground);
        if (legend.areas.obstacle) add_area("Obstacle", AreaUse::obstacle);
        if (legend.areas.overlay) add_area("Area with terms of its own", AreaUse::overlay);
        if (legend.leaders) {
            const LegendSpot spot = next("Leads to a label");
            write_line(svg_, spot.x, middle(spot), spot.x + sign_width, middle(spot), colour::quiet, 0.8);
        }
    }

    [[nodiscard]] double below() const { return flow_.below(); }

private:
    LegendSpot next(std::string_view text) {
        LegendSpot spot = flow_.next(text);
        write_text(svg_, spot.text_x, spot.y, spot.text, {{small_size}});
        return spot;
    }

    [[nodiscard]] static double middle(const LegendSpot& spot) { return spot.y - 4; }

    [[nodiscard]] static std::string line_at(const LegendSpot& spot) {
        return path_of(std::vector<Point>{{spot.x, middle(spot)}, {spot.x + sign_width, middle(spot)}});
    }

    void add_sign(SignKind kind) {
        const LegendSpot spot = next(name_of(kind));
        const double half = kind == SignKind::hub || kind == SignKind::enclosure ? 7
                            : kind == SignKind::handhole                         ? 3
                                                                                 : 5;
        write_sign(svg_, {kind, {spot.x + sign_width / 2, middle(spot)}, half, "", name_of(kind)});
    }

    void add_ground(const GroundLook& look) {
        const bool reused = look.id == existing_duct_id || look.id == pole_line_id;
        const LegendSpot spot = next(reused ? look.name : "Trench: " + look.name);
        write_ground_line(svg_, line_at(spot), look, look.name);
    }

    void add_area(const char* name, AreaUse use) {
        const LegendSpot spot = next(name);
        Attributes attributes = {{"x", spot.x}, {"y", spot.y - 11}, {"width", sign_width}, {"height", 14}};
        const Attributes look = area_look(use);
        attributes.insert(attributes.end(), look.begin(), look.end());
        svg_.leaf("rect", attributes);
    }

    SvgWriter& svg_;
    LegendFlow flow_;
};

}  // namespace

double write_plan_legend(SvgWriter& svg, const Ids& ids, double left, double right, double y,
                         const PlanLegend& legend) {
    svg.open("g", {{"id", ids.id("legend")}});
    LegendWriting writing(svg, left, right, y);
    writing.add(legend);
    svg.close();
    return writing.below();
}

}  // namespace spadework::drawing
