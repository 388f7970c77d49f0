#include "comparison/verdict.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <limits>
#include <utility>

#include <fmt/format.h>

#include "comparison/money_words.hpp"

namespace spadework {

namespace {

const LayoutResult& at(const std::vector<LayoutResult>& layouts, int index) {
    return layouts[static_cast<std::size_t>(index)];
}

std::string lower_first(std::string text) {
    if (!text.empty()) text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
    return text;
}

std::string name_inside(const LayoutResult& layout) {
    return lower_first(name_of(layout.layout));
}

/// "cost" or "costs", as the layout's name asks.
const char* costs(const LayoutResult& layout) {
    return layout.layout == LayoutKind::home_runs ? "cost" : "costs";
}

bool is_direct(Category category) {
    return category != Category::contingency && category != Category::tax;
}

/// Beyond a tenfold change a turning point says nothing that could happen.
constexpr double farthest_worth_telling = 10;

/// How far a change is from none at all: halving is as far as doubling.
double distance(const TurningPoint& point) {
    const double factor = 1 + point.change;
    if (factor <= 0) return std::numeric_limits<double>::infinity();
    return factor < 1 ? 1 / factor : factor;
}

std::optional<TurningPoint> turning_point(const LayoutResult& winner, const LayoutResult& other, Category category) {
    const std::int64_t winner_part = winner.bill.total(category).minor();
    const std::int64_t other_part = other.bill.total(category).minor();
    if (winner_part == other_part) return std::nullopt;
    const std::int64_t rest =
        (direct_cost(other.bill).minor() - other_part) - (direct_cost(winner.bill).minor() - winner_part);
    const double factor = static_cast<double>(rest) / static_cast<double>(winner_part - other_part);
    if (factor < 0) return std::nullopt;
    return TurningPoint{0, category, factor - 1};
}

/// Feasible, and not the winner nor at the winner's total.
bool is_dearer(const std::vector<LayoutResult>& layouts, int index, int cheapest) {
    return at(layouts, index).feasible() && at(layouts, index).total > at(layouts, cheapest).total;
}

/// The cheapest layout that costs more than the winner; ties go to the earlier.
std::optional<int> runner_up(const std::vector<LayoutResult>& layouts, int cheapest) {
    std::optional<int> second;
    for (int i = 0; i < static_cast<int>(layouts.size()); ++i) {
        if (!is_dearer(layouts, i, cheapest)) continue;
        if (!second || at(layouts, i).total < at(layouts, *second).total) second = i;
    }
    return second;
}

/// " (trunk costs the same)", or nothing.
std::string ties_in_words(const std::vector<LayoutResult>& layouts, int cheapest) {
    std::vector<std::string> names;
    const char* verb = "cost";
    for (int i = 0; i < static_cast<int>(layouts.size()); ++i) {
        const LayoutResult& layout = at(layouts, i);
        if (i == cheapest || !layout.feasible() || layout.total != at(layouts, cheapest).total) continue;
        names.push_back(name_inside(layout));
        verb = costs(layout);
    }
    if (names.empty()) return "";
    return fmt::format(" ({} {} the same)", fmt::join(names, " and "), names.size() == 1 ? verb : "cost");
}

/// How much cheaper than the winner an undiscovered plan of another layout might be, by its bound; 0 when none can.
Money room_below(const std::vector<LayoutResult>& layouts, int cheapest) {
    Money room;
    for (int i = 0; i < static_cast<int>(layouts.size()); ++i) {
        if (i == cheapest || !at(layouts, i).feasible()) continue;
        room = std::max(room, at(layouts, cheapest).total - at(layouts, i).bound);
    }
    return room;
}

std::string proof_clause(const Scenario& scenario, const std::vector<LayoutResult>& layouts, int cheapest) {
    const Money room = room_below(layouts, cheapest);
    if (room == Money()) return "the lower bounds prove that no plan of another layout costs less";
    return fmt::format("the lower bounds prove that no plan of another layout undercuts it by more than {}",
                       money_in_words(room, scenario.currency));
}

std::string who_wins(const Scenario& scenario, const std::vector<LayoutResult>& layouts, int cheapest, int second) {
    const LayoutResult& winner = at(layouts, cheapest);
    const LayoutResult& other = at(layouts, second);
    const Money lead = other.total - winner.total;
    const std::string proof = proof_clause(scenario, layouts, cheapest);
    const double percent = 100.0 * static_cast<double>(lead.minor()) / static_cast<double>(other.total.minor());
    return fmt::format("{} {} least at {}{}, which is {} ({:.1f} %) below {}, the next best; {}.",
                       name_of(winner.layout), costs(winner), money_in_words(winner.total, scenario.currency),
                       ties_in_words(layouts, cheapest), money_in_words(lead, scenario.currency), percent,
                       name_inside(other), proof);
}

struct Difference {
    Category category = Category::groundworks;
    Money amount;  ///< Winner less other.
};

/// The category in which the winner saves most (`sign` -1) or spends most more (`sign` +1) against another layout.
std::optional<Difference> largest_difference(const LayoutResult& winner, const LayoutResult& other, int sign) {
    std::optional<Difference> largest;
    for (int i = 0; i < category_count; ++i) {
        const auto category = static_cast<Category>(i);
        const Money amount = (winner.bill.total(category) - other.bill.total(category)) * sign;
        if (!is_direct(category) || amount <= Money()) continue;
        if (!largest || amount > largest->amount) largest = Difference{category, amount};
    }
    return largest;
}

std::string where_it_saves(const Scenario& scenario, const LayoutResult& winner, const LayoutResult& other) {
    const auto saved = largest_difference(winner, other, -1);
    const auto spent = largest_difference(winner, other, +1);
    std::string text;
    if (saved) {
        text = fmt::format("It saves most on {} ({} less)", lower_first(name_of(saved->category)),
                           money_in_words(saved->amount, scenario.currency));
    }
    if (spent) {
        text += saved ? " and spends more on " : "It spends more on ";
        text += fmt::format("{} ({} more)", lower_first(name_of(spent->category)),
                            money_in_words(spent->amount, scenario.currency));
    }
    return text.empty() ? "Category by category the two cost the same" : text;
}

/// "38 % less", rounded away from no change so that the stated change is enough.
std::string change_in_words(double change) {
    if (change <= -1) return "nothing";
    if (change > 2) return fmt::format("{:.1f} times as much", std::ceil((1 + change) * 10.0 - 1e-9) / 10.0);
    const double percent = std::abs(change) * 100.0;
    const std::string figure = percent < 10 ? fmt::format("{:.1f}", std::ceil(percent * 10.0 - 1e-9) / 10.0)
                                            : fmt::format("{:.0f}", std::ceil(percent - 1e-9));
    return fmt::format("{} % {}", figure, change < 0 ? "less" : "more");
}

std::string turns_in_words(const std::vector<LayoutResult>& layouts, const std::vector<TurningPoint>& points) {
    if (points.empty())
        return "with the plans as they are, no other layout would overtake it whatever any one category cost";
    if (distance(points.front()) > farthest_worth_telling) {
        return "with the plans as they are, no other layout would overtake it even if one category cost ten times as "
               "much or a tenth";
    }
    const TurningPoint& first = points.front();
    std::string text = fmt::format("with the plans as they are, {} would draw level if {} cost {}",
                                   name_inside(at(layouts, first.layout)), lower_first(name_of(first.category)),
                                   change_in_words(first.change));
    const auto second = std::find_if(points.begin() + 1, points.end(), [&](const TurningPoint& point) {
        return point.layout == first.layout && distance(point) <= farthest_worth_telling;
    });
    if (second == points.end()) return text;
    return text + fmt::format(", or {} {}", lower_first(name_of(second->category)), change_in_words(second->change));
}

std::string without_full_stop(std::string text) {
    while (!text.empty() && text.back() == '.')
        text.pop_back();
    return text;
}

/// "home runs, trunk: …; daisy chain: …" for the layouts that cannot be built, those with the same reason together.
std::string obstacles(const std::vector<LayoutResult>& layouts) {
    std::vector<std::pair<std::string, std::string>> names_by_reason;
    for (const LayoutResult& layout : layouts) {
        if (layout.feasible()) continue;
        const std::string reason = without_full_stop(layout.reason);
        const auto same = std::find_if(names_by_reason.begin(), names_by_reason.end(),
                                       [&](const auto& entry) { return entry.first == reason; });
        if (same == names_by_reason.end()) {
            names_by_reason.emplace_back(reason, name_inside(layout));
        } else {
            same->second += ", " + name_inside(layout);
        }
    }
    std::string text;
    for (const auto& entry : names_by_reason)
        text += (text.empty() ? "" : "; ") + entry.second + ": " + entry.first;
    return text;
}

std::string nothing_dearer(const Scenario& scenario, const std::vector<LayoutResult>& layouts, int cheapest) {
    const LayoutResult& winner = at(layouts, cheapest);
    const std::string what =
        fmt::format("{} {} {}{}", name_of(winner.layout), costs(winner),
                    money_in_words(winner.total, scenario.currency), ties_in_words(layouts, cheapest));
    const std::string stopped = obstacles(layouts);
    if (stopped.empty()) {
        return what +
               ", with no dearer layout looked at. Nothing is compared with it, so no change in price would change "
               "the choice.";
    }
    return fmt::format(
        "{}, and no other layout looked at can be built. Another could win only once what stops it is gone "
        "({}).",
        what, stopped);
}

}  // namespace

std::vector<TurningPoint> turning_points(const std::vector<LayoutResult>& layouts, int cheapest) {
    std::vector<TurningPoint> points;
    for (int i = 0; i < static_cast<int>(layouts.size()); ++i) {
        if (!is_dearer(layouts, i, cheapest)) continue;
        for (int c = 0; c < category_count; ++c) {
            const auto category = static_cast<Category>(c);
            if (!is_direct(category)) continue;
            auto point = turning_point(at(layouts, cheapest), at(layouts, i), category);
            if (!point) continue;
            point->layout = i;
            points.push_back(*point);
        }
    }
    std::stable_sort(points.begin(), points.end(),
                     [](const TurningPoint& a, const TurningPoint& b) { return distance(a) < distance(b); });
    return points;
}

std::string verdict(const Scenario& scenario, const std::vector<LayoutResult>& layouts, std::optional<int> cheapest) {
    if (!cheapest) {
        return fmt::format("No layout can be built as the site stands. What stops each one: {}.", obstacles(layouts));
    }
    const auto second = runner_up(layouts, *cheapest);
    if (!second) return nothing_dearer(scenario, layouts, *cheapest);
    return fmt::format("{} {}; {}.", who_wins(scenario, layouts, *cheapest, *second),
                       where_it_saves(scenario, at(layouts, *cheapest), at(layouts, *second)),
                       turns_in_words(layouts, turning_points(layouts, *cheapest)));
}

}  // namespace spadework
