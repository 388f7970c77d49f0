#include <algorithm>

#include <fmt/format.h>

#include "geometry/vertex_grid.hpp"
#include "report/figures.hpp"
#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"
#include "report/survey_report.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

namespace {

using survey::SurveyFindings;

constexpr std::size_t rows_shown = 20;

std::string whole(int value) {
    return figure(std::int64_t{value});
}

std::string metres(double value) {
    return figure(value, 1);
}

std::string count_of(int count, const char* one, const char* many) {
    return whole(count) + " " + (count == 1 ? one : many);
}

class SurveyText {
public:
    SurveyText(const SurveyFindings& findings, bool all) : findings_(findings), all_(all) {}

    std::string write(const std::string& site_name) {
        text_ = shown(site_name) + "\n";
        text_ += paragraph(fmt::format(
            "{} and the hub, {} and {} in the site. Lengths in metres.",
            count_of(static_cast<int>(findings_.laterals.size()) - 1, "building", "buildings"),
            count_of(findings_.places, "place", "places"), count_of(findings_.segments, "segment", "segments")));
        add_sources();
        add_fits();
        add_grounds();
        add_network();
        add_left_over();
        add_laterals();
        add_left_out();
        return std::move(text_);
    }

private:
    [[nodiscard]] std::size_t shown_of(std::size_t rows) const { return all_ ? rows : std::min(rows, rows_shown); }

    void say_rest(std::size_t rows) {
        if (shown_of(rows) < rows)
            text_ += fmt::format("… and {} more; --verbose and --format json list all.\n",
                                 figure(static_cast<std::int64_t>(rows - shown_of(rows))));
    }

    void add_sources() {
        text_ += heading("Maps");
        TextTable table({{"File", Align::left, true},
                         {"Format", Align::left},
                         {"Lines", Align::right},
                         {"Areas", Align::right},
                         {"Points", Align::right},
                         {"Not used", Align::left, true}});
        for (const survey::SourceFindings& source : findings_.sources) {
            std::string left_out;
            for (const auto& [what, count] : source.left_out)
                left_out += (left_out.empty() ? "" : ", ") + whole(count) + " " + what;
            table.add({shown(source.source), shown(source.format), whole(source.lines), whole(source.areas),
                       whole(source.points), shown(left_out)});
        }
        text_ += table.text();
    }

    void add_fits() {
        for (const survey::PlanFit& fit : findings_.fits) {
            text_ += heading("Plan laid on the map");
            TextTable table({{"x (m)", Align::right},
                             {"y (m)", Align::right},
                             {"Longitude", Align::right},
                             {"Latitude", Align::right},
                             {"Off by (m)", Align::right}});
            for (const survey::Residual& residual : fit.residuals) {
                table.add({figure(residual.point.plan.x, 2), figure(residual.point.plan.y, 2),
                           fmt::format("{:.7f}", residual.point.map.x), fmt::format("{:.7f}", residual.point.map.y),
                           figure(residual.metres, 3)});
            }
            table.add_total({"Root mean square", "", "", "", figure(fit.root_mean_square_metres, 3)});
            text_ += table.text();
            text_ += paragraph(fmt::format("Turned by {:.3f} degrees anticlockwise, scaled by {:.6f}.",
                                           fit.rotation_degrees, fit.scale));
            if (fit.residuals.size() == 2)
                text_ += paragraph("Two points always fit: a third would show a mistake in either.");
            if (fit.scale < 0.95 || fit.scale > 1.05)
                text_ +=
                    paragraph("A scale this far from 1 means that the plan is not in metres, or a point is wrong.");
        }
    }

    void add_grounds() {
        text_ += heading("Metres by ground");
        TextTable table({{"Ground", Align::left},
                         {"Settled by", Align::left, true},
                         {"Segments", Align::right},
                         {"Length (m)", Align::right},
                         {"Share (%)", Align::right}});
        double sum = 0;
        double by_source[3] = {0, 0, 0};
        int segments = 0;
        for (const survey::GroundFindings& ground : findings_.grounds) {
            sum += ground.metres;
            by_source[static_cast<int>(ground.choice.source)] += ground.metres;
            segments += ground.segments;
        }
        const auto share = [sum](double length) { return figure(sum > 0 ? 100 * length / sum : 0, 1); };
        for (const survey::GroundFindings& ground : findings_.grounds)
            table.add({shown(ground.choice.ground), settled_by(ground.choice), whole(ground.segments),
                       metres(ground.metres), share(ground.metres)});
        table.add_total({"Ways", "", whole(segments), metres(sum), share(sum)});
        text_ += table.text();
        text_ += paragraph(fmt::format(
            "The map states the surface of {} m ({} %); {} m ({} %) are assumed from the kind of way, and {} m ({} %) "
            "have the default ground.",
            metres(by_source[0]), share(by_source[0]), metres(by_source[1]), share(by_source[1]), metres(by_source[2]),
            share(by_source[2])));
        add_barred();
    }

    void add_barred() {
        for (const survey::BarredFindings& barred : findings_.barred)
            text_ += paragraph(fmt::format("Barred: {}, {} m: {}.", count_of(barred.segments, "segment", "segments"),
                                           metres(barred.metres), shown(barred.reason)));
        if (findings_.lines_barred_apart > 0)
            text_ += paragraph(fmt::format("{} apart from these, {} m, not in the site.",
                                           count_of(findings_.lines_barred_apart, "barred line", "barred lines"),
                                           metres(findings_.metres_barred_apart)));
    }

    static std::string settled_by(const survey::GroundChoice& choice) {
        if (choice.source == survey::GroundSource::fallback) return "default";
        const char* how = choice.source == survey::GroundSource::stated ? "stated: " : "assumed: ";
        return how + (choice.tag.empty() ? "every line" : shown(choice.tag));
    }

    void add_network() {
        text_ += heading("How the lines hang together");
        text_ += paragraph(fmt::format(
            "{} of {} m drawn, in {}.", count_of(findings_.lines, "line", "lines"), metres(findings_.metres_drawn),
            findings_.parts == 1 ? std::string("one part that hangs together")
                                 : whole(findings_.parts) + " parts that do not hang together"));
        if (findings_.pieces_without_length > 0)
            text_ +=
                paragraph(count_of(findings_.pieces_without_length, "piece", "pieces") + " without length vanished.");
        if (findings_.pieces_repeated > 0)
            text_ += paragraph(fmt::format("{} drawn twice vanished, {} m.",
                                           count_of(findings_.pieces_repeated, "piece", "pieces"),
                                           metres(findings_.metres_repeated)));
        add_crossings("Crossings without a common vertex, joined", findings_.crossings_joined, false);
        add_crossings("Crossings on different levels, left apart", findings_.crossings_apart, true);
        add_dead_ends();
    }

    void add_crossings(const char* title, const std::vector<survey::CrossingFinding>& crossings, bool levels) {
        if (crossings.empty()) return;
        text_ += fmt::format("\n{}: {}\n", title, crossings.size());
        std::vector<Column> columns = {{"Line", Align::left, true}, {"Crosses", Align::left, true}};
        if (levels) columns.insert(columns.end(), {{"Levels", Align::left, true}});
        columns.push_back({"At", Align::left});
        TextTable table(std::move(columns));
        for (std::size_t i = 0; i < shown_of(crossings.size()); ++i) {
            const survey::CrossingFinding& crossing = crossings[i];
            std::vector<std::string> cells = {shown(crossing.way), shown(crossing.other_way)};
            if (levels) cells.push_back(to_text(crossing.level) + " / " + to_text(crossing.other_level));
            cells.push_back(junction_name(crossing.at));
            table.add(std::move(cells));
        }
        text_ += table.text();
        say_rest(crossings.size());
    }

    void add_dead_ends() {
        if (findings_.dead_ends.empty()) return;
        text_ += fmt::format("\nDead ends led on to a line within {} m: {}\n", plain(findings_.snap_metres, 3),
                             findings_.dead_ends.size());
        TextTable table({{"Line", Align::left, true},
                         {"Led on to", Align::left, true},
                         {"Over (m)", Align::right},
                         {"At", Align::left}});
        for (std::size_t i = 0; i < shown_of(findings_.dead_ends.size()); ++i) {
            const survey::DeadEndFinding& end = findings_.dead_ends[i];
            table.add({shown(end.way), shown(end.other_way), figure(end.metres, 2), junction_name(end.at)});
        }
        text_ += table.text();
        say_rest(findings_.dead_ends.size());
    }

    void add_left_over() {
        if (findings_.left_over.empty()) return;
        text_ += heading("Lines left over: not joined to the hub's");
        TextTable table({{"Nearest line of it", Align::left, true},
                         {"Lines", Align::right},
                         {"Length (m)", Align::right},
                         {"Away (m)", Align::right},
                         {"At", Align::left}});
        double sum = 0;
        for (std::size_t i = 0; i < findings_.left_over.size(); ++i) {
            const survey::LeftOverPart& part = findings_.left_over[i];
            sum += part.metres;
            if (i < shown_of(findings_.left_over.size()))
                table.add({shown(part.way), whole(part.lines), metres(part.metres), metres(part.metres_away),
                           junction_name(part.at)});
        }
        table.add_total({"All parts left over", "", metres(sum)});
        text_ += table.text();
        say_rest(findings_.left_over.size());
    }

    void add_laterals() {
        text_ += heading("Laterals to the buildings");
        TextTable table({{"Building", Align::left, true},
                         {"Length (m)", Align::right},
                         {"Enters at", Align::left},
                         {"Passes through", Align::left, true}});
        std::vector<survey::LateralFinding> laterals = findings_.laterals;
        std::stable_sort(laterals.begin(), laterals.end(),
                         [](const auto& a, const auto& b) { return a.metres > b.metres; });
        double sum = 0;
        for (std::size_t i = 0; i < laterals.size(); ++i) {
            sum += laterals[i].metres;
            if (i < shown_of(laterals.size()))
                table.add({shown(laterals[i].building), metres(laterals[i].metres),
                           laterals[i].to_entrance ? "entrance" : "nearest wall", shown(laterals[i].through)});
        }
        table.add_total({"All laterals", metres(sum)});
        text_ += table.text();
        say_rest(laterals.size());
        text_ +=
            paragraph(fmt::format("Straight lines through {}, the longest first.", shown(findings_.lateral_ground)));
        if (findings_.cut_off.empty()) return;
        text_ += fmt::format("\nBuildings left out: {}\n", findings_.cut_off.size());
        TextTable cut_off({{"Building", Align::left, true}, {"Away (m)", Align::right}, {"Why", Align::left, true}});
        for (std::size_t i = 0; i < shown_of(findings_.cut_off.size()); ++i) {
            const survey::CutOffFinding& building = findings_.cut_off[i];
            cut_off.add({shown(building.building), metres(building.metres),
                         building.stands_on.empty()
                             ? fmt::format("beyond {} m", plain(findings_.longest_lateral_metres, 3))
                             : "stands where " + shown(building.stands_on) + " stands"});
        }
        text_ += cut_off.text();
        say_rest(findings_.cut_off.size());
    }

    void add_left_out() {
        std::vector<std::string> said;
        const auto say = [&said](int count, const char* one, const char* many, const char* why) {
            if (count > 0) said.push_back(count_of(count, one, many) + why);
        };
        say(findings_.lines_left_out, "line", "lines", " left out by the table of tags");
        say(findings_.areas_left_out, "area", "areas", " left out by the table of tags, or without a rule in it");
        say(findings_.points_left_out, "point", "points", " left out by the table of tags, or without a rule in it");
        say(findings_.repeated_features, "thing", "things", " drawn twice, taken once");
        say(findings_.points_in_buildings, "point", "points", " inside the outline of a building, taken as its name");
        say(findings_.areas_not_asked_for, "area", "areas",
            " (open ground, obstacles, overlays) left out; --open-ground takes them");
        say(findings_.areas_taken, "area", "areas", " (open ground, obstacles, overlays) taken");
        say(findings_.areas_far_away, "area", "areas", " of open ground or overlay far from every segment, left out");
        for (const std::string& area : findings_.areas_broken)
            said.push_back("area " + shown(area) + " left out: its border crosses itself");
        if (said.empty()) return;
        text_ += heading("Left out and taken together");
        text_ += bullets(said);
    }

    const SurveyFindings& findings_;
    bool all_;
    std::string text_;
};

}  // namespace

std::string survey_text(const std::string& site_name, const SurveyFindings& findings, bool all) {
    return SurveyText(findings, all).write(site_name);
}

}  // namespace spadework::report
