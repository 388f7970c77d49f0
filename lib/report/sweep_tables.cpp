#include "report/sweep_tables.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

std::string amount_of(std::int64_t minor, const Scenario& scenario) {
    if (minor == no_plan) return "-";
    return figure(static_cast<double>(minor) / std::pow(10.0, scenario.currency.minor_digits), 0);
}

std::string described(const SweptInput& input) {
    return fmt::format("{} from {} to {}{}, {} points", shown(input.key), input_text(input.from), input_text(input.to),
                       input.unit.empty() ? "" : " " + shown(input.unit), input.points);
}

/// A capital where the winner is proven.
char letter_of(const SweptPoint& point) {
    if (!point.winner) return '-';
    return static_cast<char>((point.proven ? 'A' : 'a') + *point.winner);
}

std::string proof_of(const Sweep& sweep, const WinnerChange& change) {
    if (change.proven()) {
        return fmt::format(" Proven: {} wins at {}, {} at {}; the change lies between, whatever plans there may be.",
                           winner_name(sweep, change.before), input_text(*change.proven_from),
                           winner_name(sweep, change.after), input_text(*change.proven_to));
    }
    if (change.proven_from) {
        return fmt::format(" Not proven: up to {} {} is proven to win, beyond it no winner is.",
                           input_text(*change.proven_from), winner_name(sweep, change.before));
    }
    if (change.proven_to) {
        return fmt::format(" Not proven: from {} on {} is proven to win, before it no winner is.",
                           input_text(*change.proven_to), winner_name(sweep, change.after));
    }
    return " Not proven: on neither side do the lower bounds exclude every other layout.";
}

std::string how_planned(const Sweep& sweep) {
    if (sweep.prices_alone) {
        return fmt::format(
            "Prices alone move: every layout was planned at {} points, and all these plans are priced at every other. "
            "Totals are linear in a price, so that between two lower bounds the chord less the most that rounding "
            "makes is one too.",
            sweep.planned);
    }
    const bool everywhere = std::ranges::all_of(sweep.points, [](const SweptPoint& point) { return point.planned; });
    if (everywhere) return fmt::format("Every layout was planned at each of {} points.", sweep.planned);
    std::string text = fmt::format("Every layout was planned at {} points", sweep.planned);
    if (sweep.planned_in_part > 0) {
        text +=
            fmt::format(", and at {} more those that may win or that had to be proven dearer", sweep.planned_in_part);
    }
    return text +
           ". At every point the routes of all these plans were laid out again, with cables and gear chosen anew; "
           "what passed every check and costs least is shown.";
}

}  // namespace

std::string input_text(double value) {
    return plain(value, std::abs(value) >= 100 ? 2 : 4);
}

std::string winner_name(const Sweep& sweep, std::optional<int> winner) {
    return winner ? name_of(sweep.layouts[static_cast<std::size_t>(*winner)]) : "no layout";
}

std::string sweep_opening(const Sweep& sweep) {
    std::string text = "Swept: " + described(sweep.inputs[0]);
    if (sweep.inputs.size() > 1) text += "; " + described(sweep.inputs[1]);
    return text + ".";
}

std::string sweep_note(const Sweep& sweep) {
    std::string text = how_planned(sweep) +
                       " A winner is proven where its total is no more than the lower bound of every layout that does "
                       "not include its plans.";
    if (sweep.interrupted) text += " Cut short: what was not planned by then is missing or not proven.";
    return text;
}

std::vector<std::string> change_sentences(const Sweep& sweep) {
    std::vector<std::string> sentences;
    for (const WinnerChange& change : sweep.changes) {
        sentences.push_back(fmt::format("Between {} and {}: {} gives way to {}.{}", input_text(change.from),
                                        input_text(change.to), winner_name(sweep, change.before),
                                        winner_name(sweep, change.after), proof_of(sweep, change)));
    }
    if (!sentences.empty() || sweep.points.empty()) return sentences;
    const bool proven =
        std::all_of(sweep.points.begin(), sweep.points.end(), [](const SweptPoint& point) { return point.proven; });
    sentences.push_back(fmt::format("The winner does not change: {} at every point{}.",
                                    winner_name(sweep, sweep.points.front().winner),
                                    proven ? ", proven at each" : ", though not proven at each"));
    return sentences;
}

TextTable points_table(const Scenario& scenario, const Sweep& sweep) {
    std::vector<Column> columns = {{"Value", Align::right}};
    for (const LayoutKind layout : sweep.layouts) {
        std::string heading = name_of(layout);
        if (const std::size_t comma = heading.find(", "); comma != std::string::npos) heading.replace(comma, 2, ",\n");
        columns.push_back({fmt::format("{}\n({})", heading, scenario.currency.code), Align::right});
    }
    columns.push_back({"Winner", Align::left, true});
    columns.push_back({"Proven"});
    TextTable table(std::move(columns));
    for (const SweptPoint& point : sweep.points) {
        std::vector<std::string> cells = {input_text(point.x)};
        for (const SweptTotal& total : point.totals)
            cells.push_back(amount_of(total.total, scenario));
        cells.push_back(winner_name(sweep, point.winner));
        cells.push_back(point.proven ? "yes" : "no");
        table.add(cells);
    }
    return table;
}

TextTable winners_table(const Sweep& sweep) {
    TextTable table(
        {{"Value", Align::right},
         {fmt::format("Winner along {}, for each value of {}", shown(sweep.inputs[0].key), shown(sweep.inputs[1].key)),
          Align::left, true}});
    std::string letters;
    for (std::size_t i = 0; i < sweep.points.size(); ++i) {
        letters += letter_of(sweep.points[i]);
        const bool row_ends = i + 1 == sweep.points.size() || sweep.points[i + 1].y != sweep.points[i].y;
        if (!row_ends) continue;
        table.add({input_text(sweep.points[i].y), letters});
        letters.clear();
    }
    return table;
}

std::vector<std::string> winner_letters(const Sweep& sweep) {
    std::set<int> winners;
    for (const SweptPoint& point : sweep.points) {
        if (point.winner) winners.insert(*point.winner);
    }
    std::vector<std::string> texts;
    for (const int winner : winners)
        texts.push_back(fmt::format("{}: {}", static_cast<char>('A' + winner), winner_name(sweep, winner)));
    texts.emplace_back("A capital: proven; a small letter: the cheapest known.");
    return texts;
}

}  // namespace spadework::report
