#include "report/figures.hpp"
#include "report/json_writer.hpp"
#include "report/layout_json.hpp"
#include "report/lookup.hpp"
#include "report/strand_amounts.hpp"
#include "report/strands_report.hpp"
#include "strands/spare_policies.hpp"

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

void write_cable_id(JsonWriter& json, const Scenario& scenario, int product) {
    product < 0 ? json.null() : json.text(scenario.catalogue.cables[static_cast<std::size_t>(product)].id);
}

/// The id of the cable of one of the study's sizes; null for -1.
void write_cable_at(JsonWriter& json, const Scenario& scenario, const StrandStudy& study, int size) {
    write_cable_id(json, scenario, size < 0 ? -1 : study.sizes[static_cast<std::size_t>(size)].product);
}

void write_chances(JsonWriter& json, const char* key, const Distribution& distribution) {
    json.key(key).begin_list(Shape::one_line);
    for (const double chance : distribution)
        json.number(chance, 9);
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
    json.key("price_now").unit_price(trunk_price(size.price_now), scenario.currency);
    json.key("expected_later").unit_price(trunk_price(size.later.expected), scenario.currency);
    json.key("sum").unit_price(trunk_price(size.sum()), scenario.currency);
    json.key("spare_duct_now").unit_price(trunk_price(size.duct_now), scenario.currency);
    json.key("expected_later_with_duct").unit_price(trunk_price(size.later_with_duct.expected), scenario.currency);
    json.key("sum_with_duct").unit_price(trunk_price(size.sum_with_duct()), scenario.currency);
    json.key("later_cable");
    write_cable_id(json, scenario, size.later.product);
    json.key("chance_run_out_by_year").begin_list(Shape::one_line);
    for (const GrowthYear& year : size.later.years)
        json.number(year.chance_run_out, 9);
    json.end();
    json.key("expected_by_year").begin_list(Shape::one_line);
    for (const GrowthYear& year : size.later.years)
        json.unit_price(trunk_price(year.expected), scenario.currency);
    json.end();
    json.key("recommended").flag(recommended);
    json.end();
}

void write_trunk(JsonWriter& json, const Scenario& scenario, const TrunkRun& run) {
    json.key("trunk").begin_object();
    json.key("planned").flag(run.planned);
    json.key("to");
    run.planned ? json.text(run.place) : json.null();
    json.key("length").metres(run.length);
    json.key("stretches").begin_list();
    for (const TrunkStretch& stretch : run.stretches) {
        json.begin_object(Shape::one_line);
        json.key("ground").text(stretch.ground);
        json.key("length").metres(stretch.length);
        json.key("room");
        stretch.room < 0 ? json.null() : json.whole(stretch.room);
        json.key("spare_duct_per_m").unit_price(stretch.duct_per_metre, scenario.currency);
        json.key("opening_again").money(stretch.opening_again, scenario.currency);
        json.end();
    }
    json.end();
    json.end();
}

void write_policies(JsonWriter& json, const Scenario& scenario, const StrandStudy& study) {
    json.key("policies").begin_list();
    for (const SparePolicy& policy : spare_policies(scenario, study)) {
        json.begin_object(Shape::one_line);
        json.key("policy").text(policy.name);
        json.key("source").text(policy.source);
        json.key("strands").whole(policy.strands);
        json.key("cable");
        write_cable_at(json, scenario, study, policy.size);
        json.end();
    }
    json.end();
}

void write_rates(JsonWriter& json, const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates) {
    json.key("by_growth_rate").begin_list();
    for (const RateOfGrowth& rate : rates.rates) {
        json.begin_object(Shape::one_line);
        json.key("links_per_year").number(rate.links_per_year, 6);
        json.key("of_the_site").flag(rate.of_the_site);
        json.key("recommended");
        write_cable_at(json, scenario, study, rate.recommended);
        json.key("spare_duct").flag(rate.spare_duct);
        json.key("sum").unit_price(trunk_price(rate.sum), scenario.currency);
        json.key("chance_enough").number(rate.chance_enough, 9);
        json.end();
    }
    json.end();
    json.key("switches").begin_list();
    for (const RateSwitch& change : rates.switches) {
        json.begin_object(Shape::one_line);
        json.key("links_per_year").number(change.links_per_year, 6);
        json.key("from");
        write_cable_at(json, scenario, study, change.from);
        json.key("spare_duct_from").flag(change.duct_from);
        json.key("to");
        write_cable_at(json, scenario, study, change.to);
        json.key("spare_duct_to").flag(change.duct_to);
        json.end();
    }
    json.end();
}

}  // namespace

std::string strands_json(const Scenario& scenario, const StrandStudy& study, const GrowthRates& rates) {
    JsonWriter json;
    json.begin_object();
    write_site(json, scenario);
    json.key("length_unit").text("m");
    write_need(json, scenario, study);
    json.key("horizon_years").whole(scenario.growth.horizon_years);
    json.key("unnamed_links_per_year").number(scenario.growth.unnamed_links_per_year, 6);
    json.key("discount_rate_percent").number(scenario.growth.discount_rate.percent(), 3);
    write_chances(json, "named_growth_distribution", study.named_growth_distribution);
    write_chances(json, "growth_distribution", study.growth_distribution);
    write_trunk(json, scenario, study.run);
    json.key("sizes").begin_list();
    for (std::size_t i = 0; i < study.sizes.size(); ++i)
        write_size(json, scenario, study.sizes[i], static_cast<int>(i) == study.recommended);
    json.end();
    write_policies(json, scenario, study);
    write_rates(json, scenario, study, rates);
    json.key("recommended");
    write_cable_at(json, scenario, study, study.recommended);
    json.key("spare_duct");
    json.flag(study.recommended >= 0 && study.sizes[static_cast<std::size_t>(study.recommended)].duct_pays());
    json.key("reason").text(study.reason);
    json.end();
    return json.finished();
}

}  // namespace spadework::report
