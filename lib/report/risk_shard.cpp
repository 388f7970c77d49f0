#include "doubt/shards.hpp"
#include "report/json_writer.hpp"
#include "report/risk_report.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

void write_head(JsonWriter& json, const RiskHead& head) {
    json.key("format").text(shard_format);
    json.key("version").whole(shard_version);
    json.key("site").begin_object(Shape::one_line);
    json.key("name").text(head.site);
    json.key("digest").text(head.digest);
    json.end();
    json.key("currency").begin_object(Shape::one_line);
    json.key("code").text(head.currency.code);
    json.key("digits").whole(head.currency.minor_digits);
    json.end();
    json.key("contingency_thousandths").whole(head.contingency_thousandths);
    json.key("random_seed").text(std::to_string(head.random_seed));
    json.key("draws").whole(head.draws);
    json.key("planned_anew").whole(head.replans);
    json.key("checked").whole(head.checks);
    json.key("lengths_vary").whole(head.lengths_vary ? 1 : 0);
    json.key("ranges").begin_list();
    for (const std::string& key : head.keys)
        json.text(key);
    json.end();
}

void write_drivers(JsonWriter& json, const RiskHead& head) {
    json.key("drivers").begin_list();
    for (const Driver& driver : head.drivers) {
        json.begin_object(Shape::one_line);
        json.key("name").text(driver.name);
        json.key("is_group").whole(driver.is_group ? 1 : 0);
        json.key("ranges").begin_list(Shape::one_line);
        for (const int value : driver.values)
            json.whole(value);
        json.end();
        json.end();
    }
    json.end();
}

void write_layout(JsonWriter& json, const SampledLayout& layout) {
    json.begin_object(Shape::one_line);
    json.key("layout").text(id_of(layout.layout));
    json.key("reason").text(layout.reason);
    json.key("total").whole(layout.likely_total);
    json.key("direct").whole(layout.likely_direct);
    json.key("bound").whole(layout.likely_bound);
    json.key("plans_made").whole(layout.plans_made);
    json.key("plans_kept").whole(layout.plans_kept);
    json.key("checks").begin_list(Shape::one_line);
    for (const PoolCheck& check : layout.checks) {
        json.begin_list(Shape::one_line);
        json.whole(check.known);
        json.whole(check.planned);
        json.whole(check.bound);
        json.end();
    }
    json.end();
    json.end();
}

}  // namespace

std::string shard_json(const RiskSample& sample) {
    JsonWriter json;
    json.begin_object();
    write_head(json, sample.head);
    write_drivers(json, sample.head);
    json.key("layouts").begin_list();
    for (const SampledLayout& layout : sample.head.layouts)
        write_layout(json, layout);
    json.end();
    json.key("first_draw").whole(sample.first);
    json.key("totals").begin_list();
    const std::size_t width = sample.head.layouts.size();
    for (std::size_t at = 0; at < sample.totals.size(); at += width) {
        json.begin_list(Shape::one_line);
        for (std::size_t layout = 0; layout < width; ++layout) {
            json.whole(sample.totals[at + layout].best);
            json.whole(sample.totals[at + layout].today);
        }
        json.end();
    }
    json.end();
    json.end();
    return json.finished();
}

}  // namespace spadework::report
