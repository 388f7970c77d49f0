#include "strands/growth_rates.hpp"

#include <algorithm>
#include <iterator>

namespace spadework {

namespace {

/// Rates that a table shows, links a year.
constexpr double shown_rates[] = {0, 0.1, 0.2, 0.5, 1, 2, 3, 5, 10};
/// How closely switches are found, links a year.
constexpr double closeness = 0.001;
/// Beyond the largest rate shown switches are not looked for.
constexpr double greatest_searched = 10;

class RateWalk {
public:
    RateWalk(const Scenario& scenario, const TrunkRun& run) : scenario_(scenario), run_(run) {}

    RateOfGrowth at(double rate) {
        scenario_.growth.unnamed_links_per_year = rate;
        const StrandStudy study = study_strands(scenario_, run_);
        RateOfGrowth result;
        result.links_per_year = rate;
        result.recommended = study.recommended;
        if (study.recommended < 0) return result;
        const CableSizeOption& size = study.sizes[static_cast<std::size_t>(study.recommended)];
        result.spare_duct = size.duct_pays();
        result.sum = size.best_sum();
        result.chance_enough = size.chance_enough;
        return result;
    }

    /// Every switch between two rates, however many lie between them as far as halving tells them apart.
    void switches_between(const RateOfGrowth& low, const RateOfGrowth& high, std::vector<RateSwitch>& found) {
        if (same(low, high)) return;
        if (high.links_per_year - low.links_per_year <= closeness) {
            found.push_back({high.links_per_year, low.recommended, high.recommended, low.spare_duct, high.spare_duct});
            return;
        }
        const RateOfGrowth middle = at((low.links_per_year + high.links_per_year) / 2);
        switches_between(low, middle, found);
        switches_between(middle, high, found);
    }

private:
    static bool same(const RateOfGrowth& a, const RateOfGrowth& b) {
        return a.recommended == b.recommended && a.spare_duct == b.spare_duct;
    }

    Scenario scenario_;
    const TrunkRun& run_;
};

}  // namespace

GrowthRates recommendations_by_rate(const Scenario& scenario, const TrunkRun& run) {
    const double own = scenario.growth.unnamed_links_per_year;
    std::vector<double> rates(std::begin(shown_rates), std::end(shown_rates));
    if (std::find(rates.begin(), rates.end(), own) == rates.end()) rates.push_back(own);
    std::sort(rates.begin(), rates.end());
    RateWalk walk(scenario, run);
    GrowthRates result;
    for (const double rate : rates) {
        result.rates.push_back(walk.at(rate));
        result.rates.back().of_the_site = rate == own;
        const std::size_t count = result.rates.size();
        if (count > 1 && rate <= greatest_searched)
            walk.switches_between(result.rates[count - 2], result.rates[count - 1], result.switches);
    }
    return result;
}

}  // namespace spadework
