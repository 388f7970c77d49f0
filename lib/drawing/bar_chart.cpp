#include "drawing/bar_chart.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "drawing/legend_flow.hpp"

namespace spadework::drawing {

namespace {

constexpr double margin = 16;
constexpr double bar_height = 22;
constexpr double gap_apart = 5;
constexpr double mark_overhang = 4;

constexpr Lettering normal{text_size, false};
constexpr Lettering strong{text_size, true};

double sum_of(const std::vector<BarPiece>& pieces) {
    double sum = 0;
    for (const BarPiece& piece : pieces)
        sum += piece.amount;
    return sum;
}

double reach_of(const Bar& bar) {
    return std::max(sum_of(bar.pieces) + sum_of(bar.apart), bar.mark.value_or(0));
}

class ChartDrawing {
public:
    ChartDrawing(const BarChart& chart, const Heading& heading, const Frame& frame)
        : chart_(chart),
          heading_(heading),
          frame_(frame),
          ids_(frame, heading.kind),
          fills_(ids_),
          right_(usable_width(frame) - margin) {
        double most = 0;
        for (const Bar& bar : chart.bars)
            most = std::max(most, reach_of(bar));
        // Leave room for the last tick's text and for the gap before what stands apart.
        ticks_ = round_ticks(most, right_ - margin > 600 ? 8 : 4);
        units_per_amount_ = (right_ - margin - gap_apart - 2) / std::max(ticks_.last(), most);
    }

    std::string run() {
        y_ = margin + title_size;
        for (const std::string& line : wrapped(chart_.title, right_ - margin, {title_size, true})) {
            write_text(body_, margin, y_, line, {{title_size, true}});
            y_ += line_height(title_size);
        }
        y_ += 2;
        if (!chart_.legend.empty()) draw_legend();
        if (chart_.bars.empty()) draw_sentence(chart_.when_empty);
        draw_bars();
        if (has_bars()) draw_axis();
        SvgWriter whole(1);
        whole.add(fills_.definitions());
        whole.add(body_);
        return picture(frame_, heading_, y_ + margin, whole);
    }

private:
    [[nodiscard]] bool has_bars() const {
        return std::any_of(chart_.bars.begin(), chart_.bars.end(), [](const Bar& bar) { return bar.instead.empty(); });
    }

    [[nodiscard]] double x_at(double amount) const { return margin + amount * units_per_amount_; }

    void draw_sentence(const std::string& sentence) {
        y_ = write_lines(body_, margin, y_, wrapped(sentence, right_ - margin, normal, 4), {normal, colour::quiet});
    }

    void draw_legend() {
        body_.open("g", {{"id", ids_.id("legend")}});
        LegendFlow flow(margin, right_, y_);
        for (const LegendEntry& entry : chart_.legend) {
            const LegendSpot spot = flow.next(entry.text);
            if (entry.is_mark) {
                write_line(body_, spot.x + 9, spot.y - 13, spot.x + 9, spot.y + 4, colour::ink, 2.5);
            } else {
                body_.leaf("rect", {{"x", spot.x},
                                    {"y", spot.y - 11},
                                    {"width", 18},
                                    {"height", 14},
                                    {"fill", fills_.use(entry.fill)},
                                    {"stroke", colour::ink},
                                    {"stroke-width", 0.6}});
            }
            write_text(body_, spot.text_x, spot.y, spot.text, {{small_size}});
        }
        body_.close();
        y_ = flow.below() + 6;
    }

    void draw_bars() {
        if (chart_.bars.empty()) return;
        body_.open("g", {{"id", ids_.id(chart_.id)}});
        for (const Bar& bar : chart_.bars)
            draw_bar(bar);
        body_.close();
    }

    void draw_bar(const Bar& bar) {
        const Lettering lettering = bar.best ? strong : normal;
        y_ += text_size;
        const double figure_width = width_of(bar.figure, lettering);
        write_text(body_, margin, y_, shortened(bar.label, right_ - margin - figure_width - 12, lettering),
                   {lettering});
        if (!bar.figure.empty()) write_text(body_, right_, y_, bar.figure, {lettering, colour::ink, Anchor::end});
        y_ += 7;
        if (!bar.instead.empty()) {
            y_ += text_size - 3;
            draw_sentence(bar.instead);
            y_ += 2;
            return;
        }
        draw_pieces(bar);
        y_ += bar_height + 14;
    }

    void draw_pieces(const Bar& bar) {
        double at = 0;
        for (const BarPiece& piece : bar.pieces)
            at = draw_piece(piece, x_at(at), at);
        for (const BarPiece& piece : bar.apart)
            at = draw_piece(piece, x_at(at) + gap_apart, at);
        if (!bar.mark) return;
        const double x = x_at(*bar.mark);
        // A line of ink on one of paper shows on every fill.
        write_line(body_, x, y_ - mark_overhang, x, y_ + bar_height + mark_overhang, colour::paper, 4);
        body_.titled("line",
                     {{"x1", x},
                      {"y1", y_ - mark_overhang},
                      {"x2", x},
                      {"y2", y_ + bar_height + mark_overhang},
                      {"stroke", colour::ink},
                      {"stroke-width", 2}},
                     bar.mark_title);
    }

    double draw_piece(const BarPiece& piece, double x, double at) {
        if (piece.amount <= 0) return at;
        body_.titled("rect",
                     {{"x", x},
                      {"y", y_},
                      {"width", piece.amount * units_per_amount_},
                      {"height", bar_height},
                      {"fill", fills_.use(piece.fill)},
                      {"stroke", colour::ink},
                      {"stroke-width", 0.6}},
                     piece.title);
        return at + piece.amount;
    }

    void draw_axis() {
        body_.open("g", {{"id", ids_.id("axis")}});
        write_line(body_, margin, y_ - 4, right_, y_ - 4, colour::rule, 1);
        double free_from = 0;
        for (const double tick : ticks_.at) {
            const double x = x_at(tick);
            if (x > right_ + 0.5) break;
            write_line(body_, x, y_ - 4, x, y_ + 1, colour::rule, 1);
            const std::string text = chart_.tick(tick, ticks_.step);
            const double width = width_of(text, {small_size});
            const double left = std::clamp(x - width / 2, margin, std::max(margin, right_ - width));
            if (left < free_from) continue;
            write_text(body_, left + width / 2, y_ + 15, text, {{small_size}, colour::ink, Anchor::middle});
            free_from = left + width + 10;
        }
        y_ += 15 + line_height(small_size);
        y_ = write_lines(body_, margin, y_, wrapped(chart_.axis_text, right_ - margin, {small_size}),
                         {{small_size}, colour::quiet});
        body_.close();
        y_ -= line_height(small_size);
    }

    const BarChart& chart_;
    const Heading& heading_;
    const Frame& frame_;
    Ids ids_;
    Fills fills_;
    double right_ = 0;
    double y_ = 0;
    RoundTicks ticks_;
    double units_per_amount_ = 1;
    SvgWriter body_{1};
};

}  // namespace

std::string bar_chart_svg(const BarChart& chart, const Heading& heading, const Frame& frame) {
    return ChartDrawing(chart, heading, frame).run();
}

}  // namespace spadework::drawing
