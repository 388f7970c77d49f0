#include "drawing/legend_flow.hpp"

namespace spadework::drawing {

namespace {

constexpr double line_step = 20;
constexpr double sign_to_text = 6;
constexpr double between_entries = 18;

}  // namespace

LegendFlow::LegendFlow(double left, double right, double top, double sign_width)
    : left_(left), right_(right), x_(left), baseline_(top + small_size), sign_width_(sign_width) {}

LegendSpot LegendFlow::next(std::string_view text) {
    const double room = right_ - left_ - sign_width_ - sign_to_text;
    LegendSpot spot;
    spot.text = shortened(text, room, {small_size});
    const double width = sign_width_ + sign_to_text + width_of(spot.text, {small_size});
    if (x_ > left_ && x_ + width > right_) {
        x_ = left_;
        baseline_ += line_step;
    }
    spot.x = x_;
    spot.y = baseline_;
    spot.text_x = x_ + sign_width_ + sign_to_text;
    x_ += width + between_entries;
    return spot;
}

double LegendFlow::below() const {
    return baseline_ + line_step - small_size;
}

}  // namespace spadework::drawing
