// Splits are held to the optimum by trial, and proofs that leave out plans are told from those that do not.

#include "graph/splitting.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include <doctest/doctest.h>

#include "graph/support/small_problems.hpp"
#include "support/effort.hpp"

using namespace spadework::graph;
using namespace spadework::graph::testing;
using spadework::effort;

namespace {

/// Demands that measure paths each in a way of its own leave prices a gap now and then.
constexpr ProblemShape kUneven{6, 10, 4, 1, 20, 3, 8};

SolveLimits with_splits(int most) {
    SolveLimits limits;
    limits.seconds = 2.0;
    limits.most_splits = most;
    return limits;
}

/// Calls with each of some random problems whose proof takes splits, and its solution.
template <class Check>
void for_split_problems(int problems, std::uint64_t random_seed, Check check) {
    Dice dice(random_seed);
    int split = 0;
    for (int i = 0; i < problems; ++i) {
        const SharedCostProblem problem = random_problem(kUneven, dice);
        const SharedCostSolution solution = solve(problem, with_splits(100));
        if (solution.certificate.splits.empty()) continue;
        ++split;
        check(problem, solution);
    }
    MESSAGE(split << " took splits");
    CHECK(split > 0);
}

/// Some edges chosen one after the other, down to single parts, with random prices that keep the rules.
std::vector<PartProof> random_splits(const SharedCostProblem& problem, Dice& dice, std::vector<EdgeChoice> choices,
                                     int depth) {
    if (depth == 0 || dice.upto(3) == 0) {
        PartProof part;
        part.choices = std::move(choices);
        part.prices.resize(problem.demands.size());
        for (std::size_t e = 0; e < problem.edges.size() && !problem.demands.empty(); ++e) {
            const bool used = std::any_of(part.choices.begin(), part.choices.end(),
                                          [&](EdgeChoice c) { return c.used && c.edge == static_cast<EdgeId>(e); });
            const Cost price = used ? 0 : dice.upto(problem.edges[e].opening);
            const auto payer =
                static_cast<std::size_t>(dice.upto(static_cast<std::int64_t>(problem.demands.size()) - 1));
            if (price > 0) part.prices[payer].push_back({static_cast<EdgeId>(e), price, dice.upto(1) == 1});
        }
        return {std::move(part)};
    }
    const auto edge = static_cast<EdgeId>(dice.upto(static_cast<std::int64_t>(problem.edges.size()) - 1));
    std::vector<PartProof> parts;
    for (const bool used : {true, false}) {
        choices.push_back({edge, used});
        for (PartProof& part : random_splits(problem, dice, choices, depth - 1))
            parts.push_back(std::move(part));
        choices.pop_back();
    }
    return parts;
}

}  // namespace

TEST_CASE("where prices leave a gap a few splits close it") {
    for_split_problems(effort(1500), 4, [](const SharedCostProblem& problem, const SharedCostSolution& solution) {
        // Plans are trees, and the best plan need not be one where demands measure paths differently.
        CHECK(solution.bound == optimum_by_trial(problem));
        CHECK(solution.plan->value >= solution.bound);
        const SharedCostSolution without = solve(problem, with_splits(0));
        CHECK(without.bound <= solution.bound);
        CHECK(without.certificate.splits.empty());
        CHECK(solve(problem, with_splits(1)).certificate.splits.size() <= 2);
    });
}

TEST_CASE("whatever edges plans are split by, what is proved is no more than the optimum by trial") {
    Dice dice(11);
    int proved = 0;
    for (int i = 0; i < effort(600); ++i) {
        CAPTURE(i);
        const SharedCostProblem problem = random_problem(kUneven, dice);
        const auto optimum = optimum_by_trial(problem);
        SharedCostCertificate certificate;
        certificate.prices.resize(problem.demands.size());
        certificate.splits = random_splits(problem, dice, {}, 4);
        const auto bounds = bound_proved(problem, certificate);
        REQUIRE(bounds);
        if (!optimum) continue;
        CHECK(bounds->front() <= *optimum);
        certificate.splits.clear();
        if (bounds->front() > bound_proved(problem, certificate)->front()) ++proved;
    }
    CHECK(proved > effort(100));
}

TEST_CASE("splits that leave plans out prove nothing") {
    const auto refused = [](const SharedCostProblem& problem, const SharedCostCertificate& certificate) {
        CHECK(!bound_proved(problem, certificate));
    };
    for_split_problems(effort(1500), 4, [&](const SharedCostProblem& problem, const SharedCostSolution& solution) {
        const SharedCostCertificate& right = solution.certificate;
        REQUIRE(bound_proved(problem, right) == std::vector<Cost>{solution.bound});
        for (std::size_t i = 0; i < right.splits.size(); ++i) {
            CAPTURE(i);
            SharedCostCertificate wrong = right;
            wrong.splits.erase(wrong.splits.begin() + static_cast<std::ptrdiff_t>(i));
            if (!wrong.splits.empty()) refused(problem, wrong);
            wrong = right;
            wrong.splits[i].choices.back().used = !wrong.splits[i].choices.back().used;
            refused(problem, wrong);
            wrong = right;
            wrong.splits[i].choices.pop_back();
            refused(problem, wrong);
            wrong = right;
            wrong.splits[i].choices.back().edge = static_cast<EdgeId>(problem.edges.size());
            refused(problem, wrong);
            wrong = right;
            wrong.splits[i].prices.pop_back();
            refused(problem, wrong);
        }
        SharedCostCertificate wrong = right;
        std::reverse(wrong.splits.begin(), wrong.splits.end());
        refused(problem, wrong);
        wrong = right;
        for (PartProof& part : wrong.splits)
            part.choices.front().edge = static_cast<EdgeId>(problem.edges.size());
        refused(problem, wrong);
    });
}

TEST_CASE("an edge that plans of a part use may not be paid for again by prices") {
    // Two demands behind one edge; it is used, so that its opening counts once.
    SharedCostProblem problem{2, {{0, 1, 10, 1, 0}}, {{1, 1, 0}, {1, 1, 0}}, {{0, 0}}};
    SharedCostCertificate certificate;
    certificate.prices.resize(2);
    certificate.splits = {{{{0, true}}, {{}, {}}, 1}, {{{0, false}}, {{}, {}}, 1}};
    CHECK(bound_proved(problem, certificate) == std::vector<Cost>{12});
    certificate.splits[0].prices[0] = {{0, 10, false}};
    CHECK(!bound_proved(problem, certificate));
}

TEST_CASE("a gap that is not worth a split is left") {
    for_split_problems(effort(1500), 4, [](const SharedCostProblem& problem, const SharedCostSolution& best) {
        SolveLimits limits = with_splits(100);
        limits.gap_unsplit = 1.0;
        const SharedCostSolution none = solve(problem, limits);
        CHECK(none.certificate.splits.empty());
        limits.gap_unsplit = static_cast<double>(best.bound - none.bound) / 2.0 / static_cast<double>(best.plan->value);
        const SharedCostSolution some = solve(problem, limits);
        CHECK(some.bound >= (none.bound + best.bound) / 2);
        CHECK(some.certificate.splits.size() <= best.certificate.splits.size());
    });
}

TEST_CASE("limits on splits, a wanted bound and several roots are heeded") {
    Dice dice(4);
    for (int i = 0; i < effort(300); ++i) {
        SharedCostProblem problem = random_problem(kUneven, dice);
        const SharedCostSolution best = solve(problem, with_splits(100));
        if (!best.plan || best.plan->value < 4) continue;
        SolveLimits enough = with_splits(100);
        enough.bound_wanted = best.plan->value / 2;
        const SharedCostSolution solution = solve(problem, enough);
        CHECK(solution.bound >= enough.bound_wanted);
        CHECK(solution.plan->value >= best.plan->value);
        problem.roots.push_back(problem.roots.front());
        CHECK(solve(problem, with_splits(100)).certificate.splits.empty());
    }
}

namespace {

/// Asks to stop once it has been asked so often.
class StopAfter : public Progress {
public:
    explicit StopAfter(int times) : left_(times) {}
    void improved(std::int64_t /*value*/, std::int64_t /*bound*/) override {}
    [[nodiscard]] bool should_stop() const override { return --left_ < 0; }

private:
    mutable int left_;
};

}  // namespace

TEST_CASE("wherever the work is stopped, the certificate proves the bound that is given") {
    int stopped = 0;
    for_split_problems(effort(1500), 4, [&](const SharedCostProblem& problem, const SharedCostSolution&) {
        for (int times = 0; times < 1000; times += 3) {
            CAPTURE(times);
            StopAfter progress(times);
            SolveLimits limits = with_splits(100);
            limits.progress = &progress;
            const SharedCostSolution solution = solve(problem, limits);
            CHECK(bound_proved(problem, solution.certificate) == solution.root_bounds);
            CHECK(solution.bound == solution.root_bounds.front());
            if (!solution.interrupted) break;
            stopped += solution.certificate.splits.empty() ? 0 : 1;
        }
    });
    CHECK(stopped > 0);
}
