#include "doubt/shards.hpp"

#include <doctest/doctest.h>

#include "report/risk_report.hpp"

using namespace spadework;

namespace {

RiskSample part(std::int64_t first, std::int64_t count) {
    RiskSample sample;
    sample.head.site = "Two \"houses\"";
    sample.head.digest = "0123456789abcdef";
    sample.head.draws = 6;
    sample.head.random_seed = 18'446'744'073'709'551'615U;
    sample.head.keys = {"labour.installer-rate", "rules.slack.coil"};
    sample.head.drivers = {{"crews", true, {0, 1}}};
    SampledLayout runs;
    runs.likely_total = 100;
    runs.checks = {{110, 105, 100}};
    SampledLayout chain;
    chain.layout = LayoutKind::daisy_chain;
    chain.reason = "no switch";
    sample.head.layouts = {runs, chain};
    sample.first = first;
    for (std::int64_t draw = first; draw < first + count; ++draw) {
        sample.totals.push_back({100 + draw, 101 + draw});
        sample.totals.push_back({no_plan, no_plan});
    }
    return sample;
}

std::string problems_of(std::vector<NamedSample> parts) {
    Diagnostics diagnostics;
    const auto whole = merged(std::move(parts), diagnostics);
    CHECK(whole.has_value() == diagnostics.empty());
    std::string text;
    for (const Diagnostic& diagnostic : diagnostics)
        text += to_text(diagnostic) + "\n";
    return text;
}

std::string problems_of_text(const std::string& text) {
    const ReadShard read = read_shard("part.json", text);
    CHECK(read.sample.has_value() == read.diagnostics.empty());
    std::string all;
    for (const Diagnostic& diagnostic : read.diagnostics)
        all += to_text(diagnostic) + "\n";
    return all;
}

std::string changed(std::string text, const std::string& passage, const std::string& replacement) {
    const std::size_t at = text.find(passage);
    REQUIRE(at != std::string::npos);
    return text.replace(at, passage.size(), replacement);
}

}  // namespace

TEST_CASE("a part reads back as it was written") {
    const RiskSample sample = part(2, 3);
    const ReadShard read = read_shard("part", report::shard_json(sample));
    REQUIRE(read.sample);
    CHECK(read.sample->head == sample.head);
    CHECK(read.sample->first == 2);
    CHECK(read.sample->totals == sample.totals);
}

TEST_CASE("parts in any order make the whole") {
    Diagnostics diagnostics;
    const auto whole = merged({{"b", part(4, 2)}, {"a", part(0, 4)}}, diagnostics);
    REQUIRE(whole);
    CHECK(whole->totals == part(0, 6).totals);
    CHECK(whole->first == 0);
}

TEST_CASE("missing, doubled and foreign draws are told") {
    CHECK(problems_of({{"a", part(0, 2)}, {"b", part(3, 3)}}) ==
          "b: error: draw 2 before it are in no file; expected every draw\n");
    CHECK(problems_of({{"a", part(0, 4)}, {"b", part(3, 3)}}) ==
          "b: error: draw 3 a second time; expected each draw once\n");
    CHECK(problems_of({{"a", part(0, 4)}}) == "a: error: draws 4 to 5 are in no file; expected every draw\n");
    RiskSample other = part(4, 2);
    other.head.digest = "other";
    RiskSample third = part(4, 2);
    third.head.layouts[0].likely_total = 99;
    const std::string all = problems_of({{"a", part(0, 4)}, {"b", other}, {"c", third}});
    CHECK(all.find("b: error: another site, or another state of its files; expected a part of the study in a\n") !=
          std::string::npos);
    CHECK(all.find("c: error: a study with other layouts, plans or checks") != std::string::npos);
}

TEST_CASE("every problem of a file is told with its place") {
    std::string text = report::shard_json(part(0, 6));
    text = changed(text, "\"random_seed\": \"18446744073709551615\"", "\"random_seed\": \"x\"");
    text = changed(text, "\"daisy-chain\"", "\"daisy-chian\"");
    text = changed(text, "[101, 102, -1, -1]", "[101, 102, -2, -1]");
    text = changed(text, "[102, 103, -1, -1]", "[102, 103]");
    text = changed(text, "\"digits\": 2", "\"digits\": 9");
    const std::string all = problems_of_text(text);
    CHECK(all.find("text 'x'; expected a whole number from 0 to 2^64-1, as a text") != std::string::npos);
    CHECK(all.find("did you mean 'daisy-chain'?") != std::string::npos);
    CHECK(all.find("number -2 in a list") != std::string::npos);
    CHECK(all.find("a list of 2; expected two totals a layout, 4 in all") != std::string::npos);
    CHECK(all.find("number 9; expected a whole number from 0 to 4") != std::string::npos);
}

TEST_CASE("what is no part at all is refused") {
    CHECK_FALSE(problems_of_text("").empty());
    CHECK_FALSE(problems_of_text("{}").empty());
    CHECK_FALSE(problems_of_text("[1, 2, 3]").empty());
    CHECK(problems_of_text(changed(report::shard_json(part(0, 6)), "risk shard", "certificate")).find("format '") !=
          std::string::npos);
    CHECK(problems_of_text(changed(report::shard_json(part(0, 6)), "\"first_draw\": 0", "\"first_draw\": 1"))
              .find("draws to 7 of 6") != std::string::npos);
}
