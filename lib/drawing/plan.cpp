#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "drawing/base_map.hpp"
#include "drawing/drawing.hpp"
#include "drawing/map_extent.hpp"
#include "drawing/map_furniture.hpp"
#include "drawing/map_labels.hpp"
#include "drawing/map_symbols.hpp"
#include "drawing/plan_legend.hpp"
#include "drawing/plan_lines.hpp"
#include "drawing/plan_look.hpp"
#include "drawing/plan_places.hpp"
#include "drawing/plan_words.hpp"
#include "drawing/segment_labels.hpp"

namespace spadework::drawing {

namespace {

constexpr double margin = 12;
constexpr double map_padding = 34;

class PlanDrawing {
public:
    PlanDrawing(const Scenario& scenario, const LayoutResult& result, const Frame& frame)
        : scenario_(scenario),
          result_(result),
          frame_(frame),
          ids_(frame, "plan"),
          looks_(ground_looks(scenario)),
          map_(scenario, plan_extent(scenario, result), usable_width(frame) - 2 * margin, map_padding) {
        map_.move_to(margin, margin);
        if (result.plan) trenches_ = drawn_trenches(scenario, *result.plan, map_);
        if (result.plan) cables_ = drawn_cables(scenario, *result.plan, trenches_, map_);
        signs_ = plan_signs(scenario, result, map_);
    }

    std::string run() {
        legend_.areas = write_areas(svg_, ids_, scenario_, map_);
        write_map_lines();
        write_trenches();
        write_cables();
        write_signs(svg_, ids_, signs_);
        place_labels_of_all();
        write_labels(svg_, ids_, wishes_, labels_);
        write_furniture(svg_, ids_, scenario_, map_);
        write_border(svg_, map_);
        const double height = write_below();
        const std::string title =
            fmt::format("Plan of {}: {}", drawn_in_sentence(scenario_.name), name_of(result_.layout));
        return picture(frame_, {"plan", title, plan_description(scenario_, result_)}, height, svg_);
    }

private:
    void write_map_lines() {
        std::vector<bool> used(scenario_.segments.size(), false);
        for (const DrawnTrench& trench : trenches_)
            used[static_cast<std::size_t>(trench.step.segment)] = true;
        legend_.unused = write_unused(svg_, ids_, scenario_, map_, used);
    }

    /// A group for each ground, and one each for existing ducts and pole lines.
    void write_trenches() {
        std::vector<GroundLook> looks = looks_;
        looks.push_back(existing_duct_look());
        looks.push_back(pole_line_look());
        for (std::size_t i = 0; i < looks.size(); ++i) {
            bool open = false;
            for (const DrawnTrench& trench : trenches_) {
                if (trench.ground != looks[i].id) continue;
                if (!open) open_layer(looks[i], i);
                open = true;
                write_ground_line(svg_, path_of(trench.line), looks[i],
                                  trench_in_words(scenario_, trench, looks[i].name));
            }
            if (!open) continue;
            svg_.close();
            legend_.grounds.push_back(looks[i]);
        }
    }

    void open_layer(const GroundLook& look, std::size_t index) {
        const bool reused = index >= looks_.size();
        const std::string layer = reused ? (look.id == pole_line_id ? "pole-lines" : "existing-ducts")
                                         : fmt::format("trenches-{}-{}", index + 1, plain_id(look.id));
        svg_.open("g", {{"id", ids_.id(layer)}});
        svg_.text("title", {}, reused ? look.name : "Trench: " + look.name);
    }

    void write_cables() {
        const double thickness = result_.plan && has_many_cables(*result_.plan) ? 0.7 : 1;
        for (const RoleLook& look : role_looks) {
            bool open = false;
            for (std::size_t c = 0; c < cables_.size(); ++c) {
                const PlannedCable& cable = result_.plan->cables[c];
                if (cable.role != look.role) continue;
                if (!open) svg_.open("g", {{"id", ids_.id(look.layer)}});
                open = true;
                write_cable_line(svg_, path_of(cables_[c]), look, cable_in_words(scenario_, cable), thickness);
            }
            if (!open) continue;
            svg_.close();
            legend_.roles.push_back(look);
        }
    }

    void place_labels_of_all() {
        wishes_ = label_wishes(signs_);
        const std::vector<LabelWish> lengths = segment_wishes(scenario_, trenches_);
        wishes_.insert(wishes_.end(), lengths.begin(), lengths.end());
        MapClutter clutter;
        for (const PlaceSign& sign : signs_)
            clutter.symbols.push_back(around(sign.at, sign.half));
        for (const DrawnTrench& trench : trenches_)
            clutter.lines.push_back(trench.line);
        clutter.lines.insert(clutter.lines.end(), cables_.begin(), cables_.end());
        const Rectangle& map = map_.rectangle();
        labels_ = place_labels(wishes_, clutter, {map.left + 3, map.top + 3, map.right - 3, map.bottom - 3});
        legend_.leaders = std::any_of(labels_.begin(), labels_.end(),
                                      [](const PlacedLabel& label) { return label.leader.has_value(); });
    }

    /// Legend, title block and index; returns the height of the whole.
    double write_below() {
        for (const PlaceSign& sign : signs_)
            legend_.signs.insert(sign.kind);
        const double left = margin;
        const double right = usable_width(frame_) - margin;
        double y = map_.rectangle().bottom + furniture_height + 10;
        y = write_plan_legend(svg_, ids_, left, right, y, legend_) + 8;
        y = write_title_block(svg_, ids_, left, right, y, plan_title_rows(scenario_, result_, map_));
        if (any_numbered(labels_)) y = write_index(svg_, ids_, left, right, y + 14, wishes_, labels_);
        return y + margin;
    }

    const Scenario& scenario_;
    const LayoutResult& result_;
    const Frame& frame_;
    Ids ids_;
    std::vector<GroundLook> looks_;
    MapFrame map_;
    std::vector<DrawnTrench> trenches_;
    std::vector<std::vector<Point>> cables_;
    std::vector<PlaceSign> signs_;
    std::vector<LabelWish> wishes_;
    std::vector<PlacedLabel> labels_;
    PlanLegend legend_;
    SvgWriter svg_{1};
};

}  // namespace

std::string plan_svg(const Scenario& scenario, const LayoutResult& result, const Frame& frame) {
    return PlanDrawing(scenario, result, frame).run();
}

}  // namespace spadework::drawing
