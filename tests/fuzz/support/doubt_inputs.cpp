#include "doubt/shards.hpp"
#include "drawing/doubt_charts.hpp"
#include "fuzz/support/inputs.hpp"
#include "fuzz/support/promises.hpp"
#include "report/risk_report.hpp"

namespace spadework::fuzz {

void try_doubt(std::string_view bytes) {
    const ReadShard read = read_shard("shard", bytes);
    require_clean(read.sample.has_value(), read.diagnostics);
    if (!read.sample) return;
    const std::string text = report::shard_json(*read.sample);
    const ReadShard again = read_shard("shard", text);
    require(again.sample.has_value(), "what is written can be read");
    require(report::shard_json(*again.sample) == text, "what is read is written with the same bytes");
    Diagnostics problems;
    const auto twice = merged({{"a", *read.sample}, {"b", *read.sample}}, problems);
    require(twice.has_value() != has_errors(problems), "parts make a whole or an error");
    require(!twice || read.sample->count() == 0, "no draw counts twice");
    problems.clear();
    const auto whole = merged({{"a", *read.sample}}, problems);
    require(whole.has_value() != has_errors(problems), "a part is the whole or an error");
    if (!whole) return;
    require(whole->count() == whole->head.draws, "a whole has all draws");
    const RiskStudy study = study_risk(*whole);
    require(!report::risk_text(*whole, study).empty(), "there is a report");
    require(!report::risk_json(*whole, study).empty() && !report::risk_html(*whole, study).empty(), "in every form");
    require(!report::risk_csv(*whole, study).empty(), "with its tables");
    require(!drawing::risk_curves_svg(*whole, {.width = 960, .id_prefix = "", .own_file = true}).empty(),
            "and picture");
}

}  // namespace spadework::fuzz
