#include "report/json_writer.hpp"
#include "report/survey_report.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;
using survey::SurveyFindings;

class SurveyJson {
public:
    explicit SurveyJson(const SurveyFindings& findings) : findings_(findings) {}

    std::string write(const std::string& site_name) {
        json_.begin_object();
        json_.key("site").text(site_name);
        json_.key("length_unit").text("m");
        write_counts();
        write_sources();
        write_fits();
        write_grounds();
        write_crossings("crossings_joined", findings_.crossings_joined);
        write_crossings("crossings_apart", findings_.crossings_apart);
        write_dead_ends();
        write_left_over();
        write_laterals();
        write_areas();
        json_.end();
        return json_.finished();
    }

private:
    void count(const char* key, int value) { json_.key(key).whole(value); }
    void metres(const char* key, double value) { json_.key(key).number(value, 3); }
    void position(const char* key, const Position& at) {
        json_.key(key).begin_list(Shape::one_line);
        json_.number(at.x, 7);
        json_.number(at.y, 7);
        json_.end();
    }

    void write_counts() {
        count("places", findings_.places);
        count("segments", findings_.segments);
        count("buildings", static_cast<int>(findings_.laterals.size()) - 1);
        count("buildings_mapped", findings_.buildings_mapped);
        count("lines", findings_.lines);
        metres("metres_drawn", findings_.metres_drawn);
        count("parts", findings_.parts);
        count("lines_barred_apart", findings_.lines_barred_apart);
        metres("metres_barred_apart", findings_.metres_barred_apart);
        count("pieces_without_length", findings_.pieces_without_length);
        count("pieces_repeated", findings_.pieces_repeated);
        metres("metres_repeated", findings_.metres_repeated);
        metres("snapping_distance", findings_.snap_metres);
        metres("longest_lateral", findings_.longest_lateral_metres);
        count("lines_left_out", findings_.lines_left_out);
        count("areas_left_out", findings_.areas_left_out);
        count("points_left_out", findings_.points_left_out);
        count("repeated_features", findings_.repeated_features);
        count("points_in_buildings", findings_.points_in_buildings);
    }

    void write_sources() {
        json_.key("maps").begin_list();
        for (const survey::SourceFindings& source : findings_.sources) {
            json_.begin_object(Shape::one_line);
            json_.key("file").text(source.source);
            json_.key("format").text(source.format);
            count("lines", source.lines);
            count("areas", source.areas);
            count("points", source.points);
            json_.key("not_used").begin_object(Shape::one_line);
            for (const auto& [what, number] : source.left_out)
                json_.key(what).whole(number);
            json_.end();
            json_.end();
        }
        json_.end();
    }

    void write_fits() {
        json_.key("plans").begin_list();
        for (const survey::PlanFit& fit : findings_.fits) {
            json_.begin_object();
            json_.key("control_points").text(fit.source);
            json_.key("scale").number(fit.scale, 9);
            json_.key("rotation_degrees").number(fit.rotation_degrees, 6);
            metres("root_mean_square_metres", fit.root_mean_square_metres);
            json_.key("residuals").begin_list();
            for (const survey::Residual& residual : fit.residuals) {
                json_.begin_object(Shape::one_line);
                json_.key("x").number(residual.point.plan.x, 3);
                json_.key("y").number(residual.point.plan.y, 3);
                position("at", residual.point.map);
                metres("metres", residual.metres);
                json_.end();
            }
            json_.end();
            json_.end();
        }
        json_.end();
    }

    void write_grounds() {
        json_.key("grounds").begin_list();
        for (const survey::GroundFindings& ground : findings_.grounds) {
            json_.begin_object(Shape::one_line);
            json_.key("ground").text(ground.choice.ground);
            json_.key("settled_by")
                .text(ground.choice.source == survey::GroundSource::stated ? "map"
                      : ground.choice.source == survey::GroundSource::kind ? "kind of way"
                                                                           : "default");
            json_.key("tag").text(ground.choice.tag);
            count("segments", ground.segments);
            metres("metres", ground.metres);
            json_.end();
        }
        json_.end();
        json_.key("barred").begin_list();
        for (const survey::BarredFindings& barred : findings_.barred) {
            json_.begin_object(Shape::one_line);
            json_.key("reason").text(barred.reason);
            count("segments", barred.segments);
            metres("metres", barred.metres);
            json_.end();
        }
        json_.end();
    }

    void write_crossings(const char* key, const std::vector<survey::CrossingFinding>& crossings) {
        json_.key(key).begin_list();
        for (const survey::CrossingFinding& crossing : crossings) {
            json_.begin_object(Shape::one_line);
            json_.key("line").text(crossing.way);
            json_.key("level").text(to_text(crossing.level));
            json_.key("other_line").text(crossing.other_way);
            json_.key("other_level").text(to_text(crossing.other_level));
            position("at", crossing.at);
            json_.end();
        }
        json_.end();
    }

    void write_dead_ends() {
        json_.key("dead_ends_joined").begin_list();
        for (const survey::DeadEndFinding& end : findings_.dead_ends) {
            json_.begin_object(Shape::one_line);
            json_.key("line").text(end.way);
            json_.key("other_line").text(end.other_way);
            metres("metres", end.metres);
            position("at", end.at);
            json_.end();
        }
        json_.end();
    }

    void write_left_over() {
        json_.key("left_over").begin_list();
        for (const survey::LeftOverPart& part : findings_.left_over) {
            json_.begin_object(Shape::one_line);
            json_.key("nearest_line").text(part.way);
            count("lines", part.lines);
            metres("metres", part.metres);
            metres("metres_away", part.metres_away);
            position("at", part.at);
            json_.end();
        }
        json_.end();
    }

    void write_laterals() {
        json_.key("lateral_ground").text(findings_.lateral_ground);
        json_.key("laterals").begin_list();
        for (const survey::LateralFinding& lateral : findings_.laterals) {
            json_.begin_object(Shape::one_line);
            json_.key("building").text(lateral.building);
            metres("metres", lateral.metres);
            json_.key("to_entrance").flag(lateral.to_entrance);
            json_.key("passes_through").text(lateral.through);
            json_.end();
        }
        json_.end();
        json_.key("buildings_left_out").begin_list();
        for (const survey::CutOffFinding& building : findings_.cut_off) {
            json_.begin_object(Shape::one_line);
            json_.key("building").text(building.building);
            metres("metres_away", building.metres);
            json_.key("stands_where").text(building.stands_on);
            json_.end();
        }
        json_.end();
    }

    void write_areas() {
        count("areas_taken", findings_.areas_taken);
        count("areas_not_asked_for", findings_.areas_not_asked_for);
        count("areas_far_away", findings_.areas_far_away);
        json_.key("areas_broken").begin_list(Shape::one_line);
        for (const std::string& area : findings_.areas_broken)
            json_.text(area);
        json_.end();
    }

    const SurveyFindings& findings_;
    JsonWriter json_;
};

}  // namespace

std::string survey_json(const std::string& site_name, const SurveyFindings& findings) {
    return SurveyJson(findings).write(site_name);
}

}  // namespace spadework::report
