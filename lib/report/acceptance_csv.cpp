#include "acceptance/words.hpp"
#include "report/acceptance_report.hpp"
#include "report/csv_writer.hpp"
#include "report/figures.hpp"

namespace spadework::report {

namespace {

using acceptance::JudgedReading;
using plan_file::PlanFile;
using plan_file::Verdict;

std::string length_digits(const PlanFile& plan, Length length) {
    return plan.feet ? plain(length.feet(), 3) : plain_metres(length);
}

/// Thousandths in digits, zeros dropped; empty where there are none.
std::string thousandths_digits(const std::optional<std::int64_t>& value) {
    return value ? plain(static_cast<double>(*value) / 1000, 3) : "";
}

void write_limits(CsvWriter& csv, const PlanFile& plan, const JudgedReading& judged) {
    if (judged.reading.verdict == Verdict::not_in_plan) {
        csv.text("").text("").text("").text("");
        return;
    }
    csv.number(length_digits(plan, judged.expected)).number(thousandths_digits(judged.limit.calculated_mdb));
    csv.number(thousandths_digits(judged.limit.pass_mdb)).number(thousandths_digits(judged.limit.least_mdb));
}

void write_row(CsvWriter& csv, const PlanFile& plan, const JudgedReading& judged) {
    const plan_file::NamedReading& reading = judged.reading;
    csv.text(id_of(plan.layout)).text(reading.key.building).whole(reading.key.link).whole(reading.key.leg);
    csv.text(judged.way).text(reading.key.from).number(acceptance::nanometres(reading.key.wavelength_pm));
    write_limits(csv, plan, judged);
    csv.number(thousandths_digits(reading.loss_mdb));
    csv.number(reading.length ? length_digits(plan, *reading.length) : "");
    csv.text(reading.date).text(reading.tested_by);
    const bool has_margin = reading.loss_mdb && reading.verdict != Verdict::not_in_plan;
    csv.number(has_margin ? thousandths_digits(judged.limit.pass_mdb - *reading.loss_mdb) : "");
    csv.text(plan_file::verdict_words()[static_cast<std::size_t>(reading.verdict)]).text(reading.why).end_row();
}

}  // namespace

std::string as_built_csv(const PlanFile& plan, const acceptance::Acceptance& acceptance) {
    const std::string unit = plan.feet ? "ft" : "m";
    CsvWriter csv({"layout", "building", "link", "strand", "way", "measured_from", "wavelength_nm", "fibre_" + unit,
                   "calculated_loss_db", "pass_limit_db", "too_good_below_db", "measured_loss_db",
                   "measured_length_" + unit, "date", "tested_by", "margin_db", "verdict", "why"});
    for (const JudgedReading& judged : acceptance.readings)
        write_row(csv, plan, judged);
    return csv.table();
}

}  // namespace spadework::report
