#include "study/explanation.hpp"

#include <algorithm>
#include <functional>
#include <mutex>
#include <utility>

#include "graph/progress.hpp"
#include "study/explanation_jobs.hpp"
#include "study/served.hpp"
#include "study/side_by_side.hpp"
#include "study/strand_choice.hpp"
#include "study/time_shares.hpp"

namespace spadework {

namespace {

/// Passes on the wish to stop; a single alternative's progress means nothing to anybody.
class WishToStop : public graph::Progress {
public:
    explicit WishToStop(const StudyObserver* observer) : observer_(observer) {}
    void improved(std::int64_t /*value*/, std::int64_t /*bound*/) override {}
    [[nodiscard]] bool should_stop() const override { return observer_ != nullptr && observer_->should_stop(); }

private:
    const StudyObserver* observer_;
};

/// What is known without solving anything.
Explanation begun(const Scenario& scenario, const LayoutResult& best) {
    const Plan& plan = *best.plan;
    Explanation explanation;
    explanation.layout = best.layout;
    for (const PlannedEnclosure& enclosure : plan.enclosures) {
        EnclosureReason reason;
        reason.place = enclosure.place;
        reason.buildings_served = static_cast<int>(enclosure.serves.size());
        explanation.enclosures.push_back(std::move(reason));
    }
    for (std::size_t b = 0; b < scenario.buildings.size(); ++b) {
        BuildingReason reason;
        reason.building = static_cast<BuildingIndex>(b);
        reason.service = service_of(plan, reason.building);
        const OwnAndShared trench = trench_along(scenario, plan, reason.building);
        reason.own_trench = trench.own;
        reason.shared_trench = trench.shared;
        explanation.buildings.push_back(std::move(reason));
    }
    return explanation;
}

/// The quick work first: time it leaves over goes to the enclosures.
std::vector<ExplanationJob> jobs_for(const Explained& what, Explanation& explanation) {
    std::vector<ExplanationJob> jobs;
    for (BuildingReason& reason : explanation.buildings) {
        jobs.push_back([&what, &reason](const DesignLimits& limits) { return serve_otherwise(what, limits, reason); });
        jobs.push_back(
            [&what, &reason](const DesignLimits& limits) { return leave_out_building(what, limits, reason); });
    }
    for (EnclosureReason& reason : explanation.enclosures) {
        jobs.push_back([&what, &reason](const DesignLimits& limits) { return move_enclosure(what, limits, reason); });
        jobs.push_back(
            [&what, &reason](const DesignLimits& limits) { return leave_out_enclosure(what, limits, reason); });
    }
    return jobs;
}

void run(const std::vector<ExplanationJob>& jobs, const StudyOptions& options, Explanation& explanation) {
    const int count = static_cast<int>(jobs.size());
    const int workers = std::clamp(options.threads, 1, std::max(count, 1));
    TimeShares shares(options.seconds, count, workers);
    WishToStop stop(options.observer);
    std::vector<JobOutcome> outcomes(jobs.size());
    std::mutex mutex;
    int done = 0;
    do_side_by_side(count, workers, [&](int job) {
        const double seconds = shares.begin_job();
        if (seconds <= 0 || stop.should_stop()) {
            outcomes[static_cast<std::size_t>(job)].interrupted = true;
            return;
        }
        outcomes[static_cast<std::size_t>(job)] = jobs[static_cast<std::size_t>(job)](
            {.seconds = seconds, .threads = 1, .seed = options.seed, .progress = &stop});
        const std::scoped_lock lock(mutex);
        ++done;
        if (options.observer != nullptr) options.observer->explained(done, count);
    });
    for (JobOutcome& outcome : outcomes) {
        explanation.interrupted = explanation.interrupted || outcome.interrupted;
        for (std::string& violation : outcome.violations)
            explanation.violations.push_back(std::move(violation));
    }
}

/// The layouts whose plans have one strand use, that of the cheapest, or no plan. Their bounds hold for it too.
Comparison of_one_strand_use(const Comparison& comparison, StrandUse use) {
    Comparison alike;
    alike.verdict = comparison.verdict;
    for (std::size_t i = 0; i < comparison.layouts.size(); ++i) {
        const LayoutResult& layout = comparison.layouts[i];
        if (layout.plan && layout.plan->strand_use != use) continue;
        if (static_cast<int>(i) == comparison.cheapest) alike.cheapest = static_cast<int>(alike.layouts.size());
        alike.layouts.push_back(layout);
    }
    return alike;
}

}  // namespace

std::optional<Explanation> explain(const Scenario& scenario, const Comparison& comparison,
                                   const StudyOptions& options) {
    if (!comparison.cheapest) return std::nullopt;
    const StrandUseSites sites(scenario);
    const LayoutResult& cheapest = comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)];
    const Scenario& site = sites.of(cheapest);
    const Comparison alike = of_one_strand_use(comparison, cheapest.plan->strand_use);
    const LayoutResult& best = alike.layouts[static_cast<std::size_t>(*alike.cheapest)];
    const Explained what(site, alike, best);
    Explanation explanation = begun(site, best);
    explanation.of_one_strand_use = scenario.rules.either_strand_use;
    run(jobs_for(what, explanation), options, explanation);
    return explanation;
}

}  // namespace spadework
