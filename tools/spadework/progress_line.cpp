#include "spadework/progress_line.hpp"

#include <algorithm>
#include <sys/ioctl.h>
#include <unistd.h>

#include <fmt/format.h>

#include "spadework/interrupt.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

constexpr std::chrono::milliseconds least_time_between_draws{100};

/// Columns of the terminal that standard error is, or the customary 80 where it does not say.
std::size_t terminal_columns() {
    winsize size{};
    if (ioctl(STDERR_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return 80;
    return size.ws_col;
}

/// "1.25 %": how far the bound is below the best value, as a share of the value.
std::string gap_text(std::int64_t value, std::int64_t bound) {
    const double gap = value > 0 ? 1.0 - static_cast<double>(bound) / static_cast<double>(value) : 0.0;
    return fmt::format("{:.2f} %", 100 * gap);
}

}  // namespace

ProgressLine::ProgressLine(bool wanted)
    : draws_(wanted && isatty(STDERR_FILENO) == 1), last_drawn_(Clock::now() - least_time_between_draws) {}

void ProgressLine::started(LayoutKind layout) {
    state_[layout] = "...";
    draw();
}

void ProgressLine::improved(LayoutKind layout, std::int64_t value, std::int64_t bound) {
    state_[layout] = gap_text(value, bound);
    draw();
}

void ProgressLine::explained(int done, int of) {
    explained_ = fmt::format("alternatives: {} of {}", done, of);
    draw();
}

bool ProgressLine::should_stop() const {
    return InterruptWatch::interrupted();
}

void ProgressLine::draw() {
    const Clock::time_point now = Clock::now();
    if (!draws_ || now - last_drawn_ < least_time_between_draws) return;
    last_drawn_ = now;
    std::string line = explained_;
    if (line.empty()) {
        line = "gap:";
        for (const auto& [layout, state] : state_)
            line += fmt::format(" {} {} ", id_of(layout), state);
    }
    line.resize(std::min(line.size(), terminal_columns() - 1));
    const auto width = static_cast<std::size_t>(columns_drawn_);
    columns_drawn_ = static_cast<int>(line.size());
    line.resize(std::max(line.size(), width), ' ');
    complain("\r" + line);
}

void ProgressLine::erase() {
    if (columns_drawn_ == 0) return;
    complain("\r" + std::string(static_cast<std::size_t>(columns_drawn_), ' ') + "\r");
    columns_drawn_ = 0;
}

}  // namespace spadework
