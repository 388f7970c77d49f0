#include "report/figures.hpp"
#include "report/json_writer.hpp"
#include "report/layout_json.hpp"
#include "report/lookup.hpp"
#include "report/strands_report.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

void write_need(JsonWriter& json, const Scenario& scenario, const StrandStudy& study) {
    json.key("buildings").begin_list();
    for (const BuildingStrands& building : study.buildings) {
        json.begin_object(Shape::one_line);
        json.key("building").text(building_at(scenario, building.building).id);
        json.key("links").whole(building.links);
        json.key("strands").whole(building.strands);
        json.end();
    }
    json.end();
    json.key("need").begin_object(Shape::one_line);
    json.key("in_use").whole(study.need.in_use);
    json.key("spare").whole(study.need.spare);
    json.key("headroom").whole(study.need.headroom);
    json.key("total").whole(study.need.total());
    json.end();
}

void write_size(JsonWriter& json, const Scenario& scenario, const CableSizeOption& size, bool recommended) {
    const CableProduct& product = scenario.catalogue.cables[static_cast<std::size_t>(size.product)];
    json.begin_object(Shape::one_line);
    json.key("cable").text(product.id);
    json.key("strands").whole(product.strands);
    json.key("price_per_m").unit_price(size.price_per_metre, scenario.currency);
    json.key("spare_strands").whole(size.spare_strands);
    json.key("headroom_percent").number(size.headroom_percent, 4);
    json.key("chance_enough").number(size.chance_enough, 9);
    json.key("meets_policy").flag(size.meets_policy);
    json.key("recommended").flag(recommended);
    json.end();
}

}  // namespace

std::string strands_json(const Scenario& scenario, const StrandStudy& study) {
    JsonWriter json;
    json.begin_object();
    write_site(json, scenario);
    json.key("length_unit").text("m");
    write_need(json, scenario, study);
    json.key("growth_distribution").begin_list(Shape::one_line);
    for (const double chance : study.growth_distribution)
        json.number(chance, 9);
    json.end();
    json.key("sizes").begin_list();
    for (std::size_t i = 0; i < study.sizes.size(); ++i)
        write_size(json, scenario, study.sizes[i], static_cast<int>(i) == study.recommended);
    json.end();
    json.key("recommended");
    if (study.recommended >= 0) {
        const CableSizeOption& size = study.sizes[static_cast<std::size_t>(study.recommended)];
        json.text(scenario.catalogue.cables[static_cast<std::size_t>(size.product)].id);
    } else {
        json.null();
    }
    json.key("reason").text(study.reason);
    json.end();
    return json.finished();
}

}  // namespace spadework::report
