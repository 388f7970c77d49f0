#include "doubt/risk.hpp"

#include <algorithm>
#include <cmath>

#include <doctest/doctest.h>

#include "doubt/risk_study.hpp"
#include "doubt/shards.hpp"
#include "doubt/support/open_sites.hpp"
#include "report/risk_report.hpp"

using namespace spadework;
using namespace spadework::testing;

namespace {

RiskOptions few_draws(std::int64_t draws = 320) {
    RiskOptions options;
    options.draws = draws;
    options.replans = 4;
    options.checks = 1;
    options.study.seconds = 60;
    return options;
}

RiskSample sample_of(const site_file::LoadedSite& site, const RiskOptions& options) {
    RiskRun run = run_risk(*site.scenario, *site.varying, options);
    CHECK(run.violations.empty());
    CHECK(run.sample.interrupted.empty());
    return std::move(run.sample);
}

std::string report_of(const RiskSample& sample) {
    const RiskStudy study = study_risk(sample);
    return report::risk_text(sample, study) + report::risk_json(sample, study);
}

}  // namespace

TEST_CASE("the same draws give the same bytes, whatever the number of threads") {
    const site_file::LoadedSite site = open_lakeside();
    RiskOptions options = few_draws();
    const std::string one = report::shard_json(sample_of(site, options));
    options.study.threads = 3;
    CHECK(report::shard_json(sample_of(site, options)) == one);
    options.study.seed = 2;
    CHECK(report::shard_json(sample_of(site, options)) != one);
}

TEST_CASE("shards read back and put together are the whole, bit for bit") {
    const site_file::LoadedSite site = open_lakeside();
    RiskOptions options = few_draws(333);
    const RiskSample whole = sample_of(site, options);
    std::vector<NamedSample> parts;
    for (const int number : {3, 1, 4, 2}) {
        options.shard = {number, 4};
        const std::string text = report::shard_json(sample_of(site, options));
        const ReadShard read = read_shard(std::to_string(number), text);
        REQUIRE(read.sample);
        CHECK(report::shard_json(*read.sample) == text);
        parts.push_back({std::to_string(number), *read.sample});
    }
    Diagnostics problems;
    const auto together = merged(parts, problems);
    CHECK(problems.empty());
    REQUIRE(together);
    CHECK(together->totals == whole.totals);
    CHECK(report_of(*together) == report_of(whole));
}

TEST_CASE("a site whose ranges have no width costs what it costs, at every draw") {
    const site_file::LoadedSite site = lakeside({{"groundworks-rate: 62", "groundworks-rate: {low: 62, high: 62}"}});
    const RiskSample sample = sample_of(site, few_draws(32));
    const RiskStudy study = study_risk(sample);
    REQUIRE(study.recommended);
    for (std::size_t i = 0; i < study.layouts.size(); ++i) {
        const auto likely = static_cast<double>(sample.head.layouts[i].likely_total);
        CHECK(study.layouts[i].quantiles[0].value == likely);
        CHECK(study.layouts[i].quantiles[3].value == likely);
        CHECK(study.layouts[i].deviation == 0);
        CHECK(study.layouts[i].held.value == 0);
    }
    CHECK(study.layouts[static_cast<std::size_t>(*study.recommended)].cheapest.value == 1);
    CHECK(study.drivers[0].share.value == 0);
}

TEST_CASE("totals of a job with one price that is doubted follow that price") {
    // Mobilisation is on the bill once: the total is linear in it, with contingency 10 % and tax 20 % on top.
    const site_file::LoadedSite site = lakeside({{"mobilisation: 600", "mobilisation: {low: 0, high: 10000}"}});
    const RiskSample sample = sample_of(site, few_draws(4096));
    const RiskStudy study = study_risk(sample);
    REQUIRE(study.recommended);
    const LayoutOutlook& outlook = study.layouts[static_cast<std::size_t>(*study.recommended)];
    const double per_cent = 1.1 * 1.2 * 1'000'000;  // Of the range, in cents.
    CHECK(outlook.quantiles[3].value - outlook.quantiles[0].value == doctest::Approx(0.8 * per_cent).epsilon(0.001));
    CHECK(outlook.deviation == doctest::Approx(per_cent / std::sqrt(12.0)).epsilon(0.001));
    CHECK(study.drivers[0].share.value == doctest::Approx(1).epsilon(0.001));
    CHECK(study.drivers[0].correlation == doctest::Approx(1).epsilon(1e-6));
    // Mobilisation is 5000 at its likely value, so that half of the draws need no contingency at all.
    const auto half = std::find_if(study.contingency.begin(), study.contingency.end(),
                                   [](const ContingencyRow& row) { return row.confidence == 0.5; });
    REQUIRE(half != study.contingency.end());
    CHECK(std::abs(half->percent) < 0.01);
}

TEST_CASE("layouts that contain others never cost more, and today's plan never costs less than the cheapest known") {
    const site_file::LoadedSite site = open_lakeside();
    const RiskSample sample = sample_of(site, few_draws());
    const std::size_t width = sample.head.layouts.size();
    const auto index = [&](LayoutKind kind) {
        for (std::size_t i = 0; i < width; ++i) {
            if (sample.head.layouts[i].layout == kind) return i;
        }
        return width;
    };
    for (std::size_t at = 0; at < sample.totals.size(); at += width) {
        for (std::size_t i = 0; i < width; ++i)
            CHECK(sample.totals[at + i].best <= sample.totals[at + i].today);
        CHECK(sample.totals[at + index(LayoutKind::mixed)].best <= sample.totals[at + index(LayoutKind::trunk)].best);
        CHECK(sample.totals[at + index(LayoutKind::mixed)].best <=
              sample.totals[at + index(LayoutKind::home_runs)].best);
    }
}

TEST_CASE("what a check plans anew is never above what the bound allows the plans known to be") {
    const site_file::LoadedSite site = open_lakeside();
    RiskOptions options = few_draws(64);
    options.checks = 3;
    const RiskSample sample = sample_of(site, options);
    CHECK(sample.head.checks == 3);
    CHECK(sample.head.replans == 4);
    for (const SampledLayout& layout : sample.head.layouts) {
        CHECK(layout.plans_made == 4);
        CHECK(layout.checks.size() == 3);
        for (const PoolCheck& check : layout.checks) {
            CHECK(check.bound <= check.planned);
            CHECK(check.bound <= check.known);
        }
    }
}

TEST_CASE("where lengths are doubted cables are cut anew at each draw") {
    const site_file::LoadedSite site = lakeside(
        {{"{id: avenue, from: gate, to: lawn-corner, ground: grass}",
          "{id: avenue, from: gate, to: lawn-corner, ground: grass, length: {low: 150, likely: 180, high: 400}}"}});
    CHECK(site.varying->lengths_vary());
    const RiskSample sample = sample_of(site, few_draws(64));
    const RiskStudy study = study_risk(sample);
    REQUIRE(study.recommended);
    CHECK(study.layouts[static_cast<std::size_t>(*study.recommended)].deviation > 0);
    CHECK(study.drivers[0].correlation > 0.99);
}

TEST_CASE("a layout that cannot be built is named with its reason, and none at all is a result too") {
    const site_file::LoadedSite site = lakeside({{"groundworks-rate: 62", "groundworks-rate: {low: 50, high: 90}"},
                                                 {"max-enclosures: 2", "max-enclosures: 0"}});
    const RiskSample sample = sample_of(site, few_draws(32));
    const auto trunk = std::find_if(sample.head.layouts.begin(), sample.head.layouts.end(),
                                    [](const SampledLayout& l) { return l.layout == LayoutKind::trunk; });
    REQUIRE(trunk != sample.head.layouts.end());
    CHECK_FALSE(trunk->planned());
    CHECK(report_of(sample).find("Trunk: ") != std::string::npos);
    RiskOptions only_trunk = few_draws(32);
    only_trunk.study.layouts = {LayoutKind::trunk};
    const RiskSample none = sample_of(site, only_trunk);
    CHECK_FALSE(study_risk(none).recommended);
    CHECK(report_of(none).find("No layout can be built at every draw") != std::string::npos);
}

namespace {

class StopAtOnce : public StudyObserver {
public:
    void started(LayoutKind) override {}
    void improved(LayoutKind, std::int64_t, std::int64_t) override {}
    [[nodiscard]] bool should_stop() const override { return true; }
};

}  // namespace

TEST_CASE("a study that is stopped says what it rests on") {
    const site_file::LoadedSite site = open_lakeside();
    StopAtOnce stop;
    RiskOptions options = few_draws(5000);
    options.study.observer = &stop;
    const RiskRun run = run_risk(*site.scenario, *site.varying, options);
    CHECK_FALSE(run.sample.interrupted.empty());
    CHECK(run.sample.count() > 0);
    CHECK(run.sample.count() < 5000);
    CHECK(report_of(run.sample).find("Cut short") != std::string::npos);
}
