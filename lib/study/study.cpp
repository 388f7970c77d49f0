#include "study/study.hpp"

#include <algorithm>
#include <map>
#include <mutex>
#include <optional>
#include <utility>

#include "comparison/verification.hpp"
#include "layout/assembly.hpp"
#include "layout/reconcile.hpp"
#include "study/place_reason.hpp"
#include "study/side_by_side.hpp"
#include "study/strand_choice.hpp"
#include "study/time_shares.hpp"

namespace spadework {

namespace {

/// Passes a solver's progress on as that of one layout. The observer hears one thing at a time.
class LayoutProgress : public graph::Progress {
public:
    LayoutProgress(LayoutKind layout, StudyObserver& observer, std::mutex& mutex)
        : layout_(layout), observer_(observer), mutex_(mutex) {
        const std::scoped_lock lock(mutex_);
        observer_.started(layout_);
    }
    void improved(std::int64_t value, std::int64_t bound) override {
        const std::scoped_lock lock(mutex_);
        observer_.improved(layout_, value, bound);
    }
    [[nodiscard]] bool should_stop() const override { return observer_.should_stop(); }

private:
    LayoutKind layout_;
    StudyObserver& observer_;
    std::mutex& mutex_;
};

/// Whom to tell where the caller wants to hear nothing.
class NoObserver : public StudyObserver {
public:
    void started(LayoutKind /*layout*/) override {}
    void improved(LayoutKind /*layout*/, std::int64_t /*value*/, std::int64_t /*bound*/) override {}
    [[nodiscard]] bool should_stop() const override { return false; }
};

std::vector<LayoutKind> layouts_to_study(const Scenario& scenario, const StudyOptions& options) {
    std::vector<LayoutKind> layouts = options.layouts.empty() ? layouts_allowed(scenario.rules) : options.layouts;
    std::sort(layouts.begin(), layouts.end());
    layouts.erase(std::unique(layouts.begin(), layouts.end()), layouts.end());
    return layouts;
}

/// Buildings times segments of sites whose layouts all end long before any usual limit.
constexpr std::size_t quick_to_compare = 100'000;

/// Positions of the layouts in the order to begin them: first those that keep to their share of the time and make the
/// most of it, as others may run over theirs. Rings take longest where there is time enough, so they do not come last
/// then; where there is not, they wait.
std::vector<std::size_t> in_order_of_work(const Scenario& scenario, const std::vector<LayoutKind>& layouts) {
    std::vector<LayoutKind> order = {LayoutKind::home_runs, LayoutKind::trunk_one,   LayoutKind::mixed,
                                     LayoutKind::trunk,     LayoutKind::daisy_chain, LayoutKind::ring};
    if (scenario.buildings.size() * scenario.segments.size() <= quick_to_compare) std::swap(order[4], order[5]);
    std::vector<std::size_t> positions;
    for (const LayoutKind kind : order) {
        const auto found = std::find(layouts.begin(), layouts.end(), kind);
        if (found != layouts.end()) positions.push_back(static_cast<std::size_t>(found - layouts.begin()));
    }
    return positions;
}

/// Designs layouts as jobs that may run side by side.
class DesignJobs {
public:
    DesignJobs(const Scenario& scenario, const std::vector<LayoutKind>& layouts, const StudyOptions& options)
        : scenario_(scenario),
          layouts_(layouts),
          options_(options),
          observer_(options.observer == nullptr ? nobody_ : *options.observer),
          jobs_(in_order_of_work(scenario, layouts)),
          workers_(std::clamp(options.threads, 1, std::max(static_cast<int>(jobs_.size()), 1))),
          shares_(options.seconds, static_cast<int>(jobs_.size()), workers_),
          designs_(layouts.size()) {
        const bool with_mixed = std::ranges::count(layouts, LayoutKind::mixed) > 0;
        const auto trunk = std::ranges::find(layouts, LayoutKind::trunk);
        if (!with_mixed || trunk == layouts.end()) return;
        trunk_ = static_cast<std::size_t>(trunk - layouts.begin());
        std::erase(jobs_, *trunk_);
    }

    std::vector<Design> run() {
        do_side_by_side(static_cast<int>(jobs_.size()), workers_, [&](int job) {
            const std::size_t at = jobs_[static_cast<std::size_t>(job)];
            const int threads = threads_for(job);
            if (layouts_[at] == LayoutKind::mixed && trunk_) {
                design_with_trunk(at, threads);
            } else {
                design_at(at, shares_.begin_job(), threads);
            }
        });
        return std::move(designs_);
    }

private:
    /// The workers share the threads; the last job to begin has them all, as others will have ended before it does.
    [[nodiscard]] int threads_for(int job) const {
        const bool last = job + 1 == static_cast<int>(jobs_.size());
        return std::max(1, last ? options_.threads : options_.threads / workers_);
    }

    void design_at(std::size_t at, double seconds, int threads) {
        LayoutProgress progress(layouts_[at], observer_, mutex_);
        const DesignLimits limits{.seconds = seconds,
                                  .threads = threads,
                                  .seed = options_.seed,
                                  .progress = &progress,
                                  .target_gap = options_.target_gap};
        designs_[at] = design(layouts_[at], scenario_, limits);
    }

    /// The mixed layout decides all that the trunk layout does, so that often nothing is left to do for the trunk, save
    /// with one enclosure, which is bounded more closely alone. It may take half of the trunk's time besides its own.
    void design_with_trunk(std::size_t mixed, int threads) {
        const double own = shares_.begin_job();
        const double of_trunk = shares_.begin_job() / 2;
        design_at(mixed, own + of_trunk, threads);
        auto known = trunk_within(designs_[mixed]);
        if (!known || scenario_.rules.most_enclosures == 1) return design_at(*trunk_, of_trunk, threads);
        LayoutProgress progress(LayoutKind::trunk, observer_, mutex_);
        designs_[*trunk_] = std::move(*known);
    }

    const Scenario& scenario_;
    const std::vector<LayoutKind>& layouts_;
    const StudyOptions& options_;
    NoObserver nobody_;
    StudyObserver& observer_;
    std::mutex mutex_;
    std::vector<std::size_t> jobs_;     ///< Positions of layouts, in the order to begin them.
    std::optional<std::size_t> trunk_;  ///< Position of the trunk layout, where it comes after the mixed one.
    int workers_;
    TimeShares shares_;
    std::vector<Design> designs_;  ///< By position.
};

/// Takes over plans known before where they are cheaper. The bounds found now hold for them too.
void take_over_known(const Scenario& scenario, const std::vector<Design>& known, std::vector<Design>& designs) {
    for (Design& design : designs) {
        const auto before = std::find_if(known.begin(), known.end(),
                                         [&design](const Design& other) { return other.layout == design.layout; });
        if (before == known.end() || !before->plan) continue;
        if (design.plan && cost_to_build(scenario, *design.plan) <= cost_to_build(scenario, *before->plan)) continue;
        design.plan = before->plan;
        design.notes = before->notes;
        design.reason.clear();
    }
}

std::vector<LayoutResult> assess_all(const Scenario& scenario, std::vector<Design> designs, const KeptMap& kept) {
    std::vector<LayoutResult> results;
    results.reserve(designs.size());
    for (Design& design : designs)
        results.push_back(assess(scenario, std::move(design), kept));
    return results;
}

void append_violations(const Scenario& scenario, const LayoutResult& result, std::vector<std::string>& all) {
    const std::vector<std::string> found = violations(scenario, result);
    all.insert(all.end(), found.begin(), found.end());
}

bool was_interrupted(const LayoutResult& result) {
    return result.interrupted;
}

using ResultByPlace = std::map<PlaceIndex, LayoutResult>;

/// Feasible places as a ranking, the others as barred by what makes them infeasible.
void rank(const Scenario& scenario, ResultByPlace results, EnclosureStudy& study) {
    for (auto& [place, result] : results) {
        study.interrupted = study.interrupted || result.interrupted;
        if (result.feasible()) {
            study.ranking.push_back({.place = place, .result = std::move(result), .over_best = {}, .why = {}});
        } else {
            study.barred.push_back({.place = place, .reason = result.reason});
        }
    }
    std::sort(study.ranking.begin(), study.ranking.end(), [](const PlaceRank& a, const PlaceRank& b) {
        return std::pair(a.result.total, a.place) < std::pair(b.result.total, b.place);
    });
    for (PlaceRank& ranked : study.ranking) {
        const LayoutResult& best = study.ranking.front().result;
        ranked.over_best = ranked.result.total - best.total;
        ranked.why = why_dearer(scenario, ranked.result, best);
    }
}

void add_barred_places(const Scenario& scenario, std::vector<BarredPlace>& barred) {
    for (std::size_t i = 0; i < scenario.places.size(); ++i) {
        const Place& place = scenario.places[i];
        if (!place.enclosure_allowed && !place.laid_out) {
            barred.push_back({.place = static_cast<PlaceIndex>(i), .reason = place.enclosure_reason});
        }
    }
    std::sort(barred.begin(), barred.end(),
              [](const BarredPlace& a, const BarredPlace& b) { return a.place < b.place; });
}

/// Searches for trunk plans one after the other, within shares of the study's time.
class SearchRounds {
public:
    SearchRounds(const StudyOptions& options, int rounds)
        : options_(options),
          progress_(LayoutKind::trunk_one, options.observer == nullptr ? nobody_ : *options.observer, mutex_),
          shares_(options.seconds, rounds, 1) {}
    DesignLimits next() {
        return {
            .seconds = shares_.begin_job(), .threads = options_.threads, .seed = options_.seed, .progress = &progress_};
    }

private:
    const StudyOptions& options_;
    NoObserver nobody_;
    std::mutex mutex_;
    LayoutProgress progress_;
    TimeShares shares_;
};

/// Every place looked at, with the cheaper strand use where both are allowed. A place that a strand use was not looked
/// at with, for want of time or of any plan, has the other's answer alone.
ResultByPlace results_at_places(const StrandUseSites& sites, const Scenario& scenario, SearchRounds& rounds) {
    ResultByPlace results;
    for (const StrandUse use : sites.uses()) {
        for (PlaceDesign& at : design_at_every_place(sites.of(use), rounds.next())) {
            LayoutResult result = assess(sites.of(use), std::move(at.design));
            const auto known = results.find(at.place);
            if (known == results.end()) {
                results.emplace(at.place, std::move(result));
            } else {
                known->second = cheaper_of(scenario, std::move(known->second), std::move(result));
            }
        }
    }
    return results;
}

void rank_places(const StrandUseSites& sites, const Scenario& scenario, SearchRounds& rounds, EnclosureStudy& study) {
    rank(scenario, results_at_places(sites, scenario, rounds), study);
    add_barred_places(scenario, study.barred);
    if (study.ranking.empty()) {
        study.reason = design(LayoutKind::trunk_one, sites.of(sites.uses().front()), rounds.next()).reason;
    }
    for (const PlaceRank& ranked : study.ranking)
        append_violations(sites.of(ranked.result), ranked.result, study.violations);
}

/// The best plan for each number of enclosures, with the cheaper strand use.
std::vector<LayoutResult> results_by_count(const StrandUseSites& sites, const Scenario& scenario,
                                           SearchRounds& rounds) {
    std::vector<LayoutResult> results;
    for (const StrandUse use : sites.uses()) {
        auto found = assess_all(sites.of(use), design_by_enclosure_count(sites.of(use), rounds.next()), {});
        for (std::size_t i = 0; i < found.size(); ++i) {
            if (i >= results.size()) {
                results.push_back(std::move(found[i]));
            } else {
                results[i] = cheaper_of(scenario, std::move(results[i]), std::move(found[i]));
            }
        }
    }
    return results;
}

/// Designs, checks, prices and verifies every layout of a site whose plans have one strand use.
Study compare_settled(const Scenario& scenario, const StudyOptions& options) {
    const std::vector<LayoutKind> layouts = layouts_to_study(scenario, options);
    std::vector<Design> designs = DesignJobs(scenario, layouts, options).run();
    take_over_known(scenario, options.known, designs);
    reconcile(scenario, designs);
    std::vector<LayoutResult> results = assess_all(scenario, std::move(designs), options.kept);
    Study study;
    for (const LayoutResult& result : results)
        append_violations(scenario, result, study.violations);
    study.interrupted = std::any_of(results.begin(), results.end(), was_interrupted);
    study.comparison = compare(scenario, std::move(results));
    return study;
}

/// Both strand uses one after the other within the time, and of each layout the cheaper.
Study compare_both_uses(const Scenario& scenario, const StudyOptions& options) {
    const StrandUseSites sites(scenario);
    TimeShares shares(options.seconds, static_cast<int>(sites.uses().size()), 1);
    Study study;
    std::vector<LayoutResult> results;
    for (const StrandUse use : sites.uses()) {
        StudyOptions one = options;
        one.seconds = shares.begin_job();
        std::erase_if(one.known, [use](const Design& design) { return design.plan && design.plan->strand_use != use; });
        Study found = compare_settled(sites.of(use), one);
        study.interrupted = study.interrupted || found.interrupted;
        study.violations.insert(study.violations.end(), found.violations.begin(), found.violations.end());
        std::vector<LayoutResult>& layouts = found.comparison.layouts;
        for (std::size_t i = 0; i < layouts.size(); ++i) {
            if (i >= results.size()) {
                results.push_back(std::move(layouts[i]));
            } else {
                results[i] = cheaper_of(scenario, std::move(results[i]), std::move(layouts[i]));
            }
        }
    }
    study.comparison = compare(scenario, std::move(results));
    return study;
}

}  // namespace

std::vector<LayoutKind> layouts_allowed(const Rules& rules) {
    std::vector<LayoutKind> layouts = {LayoutKind::home_runs, LayoutKind::trunk, LayoutKind::daisy_chain,
                                       LayoutKind::ring};
    if (rules.most_enclosures >= 1) layouts.push_back(LayoutKind::mixed);
    if (rules.most_enclosures >= 2) layouts.push_back(LayoutKind::trunk_one);
    std::sort(layouts.begin(), layouts.end());
    return layouts;
}

Study compare_layouts(const Scenario& scenario, const StudyOptions& options) {
    if (scenario.rules.either_strand_use) return compare_both_uses(scenario, options);
    return compare_settled(scenario, options);
}

EnclosureStudy rank_places_for_one(const Scenario& scenario, const StudyOptions& options) {
    const StrandUseSites sites(scenario);
    SearchRounds rounds(options, static_cast<int>(sites.uses().size()));
    EnclosureStudy study;
    rank_places(sites, scenario, rounds, study);
    return study;
}

EnclosureStudy rank_enclosure_places(const Scenario& scenario, const StudyOptions& options) {
    const StrandUseSites sites(scenario);
    SearchRounds rounds(options, 2 * static_cast<int>(sites.uses().size()));
    EnclosureStudy study;
    rank_places(sites, scenario, rounds, study);
    study.by_count = results_by_count(sites, scenario, rounds);
    for (const LayoutResult& result : study.by_count)
        append_violations(sites.of(result), result, study.violations);
    study.interrupted = study.interrupted || std::any_of(study.by_count.begin(), study.by_count.end(), was_interrupted);
    return study;
}

}  // namespace spadework
