#include <cmath>

#include "report/json_writer.hpp"
#include "report/risk_report.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

class RiskJson {
public:
    RiskJson(const RiskSample& sample, const RiskStudy& study)
        : sample_(sample), study_(study), unit_(std::pow(10.0, sample.head.currency.minor_digits)) {}

    std::string text() {
        json_.begin_object();
        json_.key("site").begin_object(Shape::one_line);
        json_.key("name").text(sample_.head.site);
        json_.key("digest").text(sample_.head.digest);
        json_.end();
        json_.key("currency").text(sample_.head.currency.code);
        json_.key("random_seed").unsigned_whole(sample_.head.random_seed);
        json_.key("draws").whole(study_.draws);
        json_.key("interrupted").text(sample_.interrupted);
        json_.key("recommended");
        if (study_.recommended) {
            json_.text(id_of(sample_.head.layouts[static_cast<std::size_t>(*study_.recommended)].layout));
        } else {
            json_.null();
        }
        json_.key("planned_anew").whole(sample_.head.replans);
        json_.key("checked").whole(sample_.head.checks);
        write_layouts();
        write_drivers();
        write_contingency();
        json_.end();
        return json_.finished();
    }

private:
    void amount(const char* key, double minor) { json_.key(key).number(minor / unit_, 2); }
    void estimate(const char* key, const Estimate& of, double unit) {
        json_.key(key).begin_list(Shape::one_line);
        json_.number(of.value / unit, 6);
        json_.number(of.half_width / unit, 6);
        json_.end();
    }

    void write_layouts() {
        json_.key("layouts").begin_list();
        for (std::size_t i = 0; i < sample_.head.layouts.size(); ++i) {
            const SampledLayout& layout = sample_.head.layouts[i];
            json_.begin_object();
            json_.key("layout").text(id_of(layout.layout));
            json_.key("reason").text(layout.reason);
            json_.key("likely_total").money(Money::from_minor(layout.likely_total), sample_.head.currency);
            json_.key("likely_lower_bound").money(Money::from_minor(layout.likely_bound), sample_.head.currency);
            if (i < study_.layouts.size() && layout.planned()) write_outlook(study_.layouts[i]);
            write_checks(layout);
            json_.end();
        }
        json_.end();
    }

    void write_outlook(const LayoutOutlook& outlook) {
        for (std::size_t q = 0; q < outlook_percents.size(); ++q)
            estimate(("p" + std::to_string(outlook_percents[q])).c_str(), outlook.quantiles[q], unit_);
        estimate("mean", outlook.mean, unit_);
        amount("deviation", outlook.deviation);
        estimate("cheapest_share", outlook.cheapest, 1);
        json_.key("no_plan_share").number(outlook.no_plan_share, 6);
        estimate("regret", outlook.regret, unit_);
        amount("regret_p90", outlook.regret_90);
        estimate("held_plan_extra", outlook.held, unit_);
    }

    void write_checks(const SampledLayout& layout) {
        json_.key("plans_made").whole(layout.plans_made);
        json_.key("plans_kept").whole(layout.plans_kept);
        json_.key("checks").begin_list();
        for (const PoolCheck& check : layout.checks) {
            json_.begin_object(Shape::one_line);
            json_.key("known").money(Money::from_minor(check.known), sample_.head.currency);
            json_.key("planned").money(Money::from_minor(check.planned), sample_.head.currency);
            json_.key("lower_bound").money(Money::from_minor(check.bound), sample_.head.currency);
            json_.end();
        }
        json_.end();
    }

    void write_drivers() {
        json_.key("drivers").begin_list();
        for (const DriverShare& share : study_.drivers) {
            const Driver& driver = sample_.head.drivers[static_cast<std::size_t>(share.driver)];
            json_.begin_object();
            json_.key("name").text(driver.name);
            json_.key("is_group").flag(driver.is_group);
            json_.key("ranges").begin_list();
            for (const int value : driver.values)
                json_.text(sample_.head.keys[static_cast<std::size_t>(value)]);
            json_.end();
            estimate("variance_share", share.share, 1);
            json_.key("rank_correlation").number(share.correlation, 6);
            amount("mean_lowest_tenth", share.low_mean);
            amount("mean_highest_tenth", share.high_mean);
            json_.end();
        }
        json_.end();
    }

    void write_contingency() {
        json_.key("contingency").begin_list();
        for (const ContingencyRow& row : study_.contingency) {
            json_.begin_object(Shape::one_line);
            json_.key("confidence").number(row.confidence, 6);
            json_.key("percent").number(row.percent, 4);
            amount("contingency", row.contingency);
            estimate("total", row.total, unit_);
            json_.key("of_site").flag(row.of_site);
            json_.end();
        }
        json_.end();
    }

    const RiskSample& sample_;
    const RiskStudy& study_;
    double unit_;
    JsonWriter json_;
};

}  // namespace

std::string risk_json(const RiskSample& sample, const RiskStudy& study) {
    return RiskJson(sample, study).text();
}

}  // namespace spadework::report
