#include "checks/next_rate.hpp"

#include <algorithm>

#include "catalogue/standard_optics.hpp"
#include "layout/link_choice.hpp"
#include "rates/link_loss.hpp"

namespace spadework {

namespace {

constexpr double rounding = 1e-9;

std::optional<BitRate> slowest_above(const std::vector<OpticProduct>& optics, BitRate rate, StrandUse use) {
    std::optional<BitRate> slowest;
    for (const OpticProduct& optic : optics) {
        if (optic.strand_use != use || optic.rate <= rate) continue;
        slowest = std::min(slowest.value_or(optic.rate), optic.rate);
    }
    return slowest;
}

std::vector<const OpticProduct*> optics_at(const std::vector<OpticProduct>& optics, BitRate rate, StrandUse use) {
    std::vector<const OpticProduct*> found;
    for (const OpticProduct& optic : optics) {
        if (optic.strand_use == use && optic.rate == rate) found.push_back(&optic);
    }
    return found;
}

/// A limit and by how much it is missed; kept or missed.
struct Miss {
    const char* limit;
    double by;
    const char* unit;
};

/// Every limit that an optic misses, lengths first.
std::vector<Miss> misses(const OpticProduct& optic, const GlassPath& path, const LossRules& loss) {
    std::vector<Miss> all = {{"reach", path.glass.metres() - optic.reach.metres(), "m"}};
    const auto worst = [&](auto beyond) { return std::max(beyond(optic.to_building), beyond(optic.to_hub)); };
    all.push_back({"loss", worst([&](const OpticalFigures& figures) {
                       return greatest_loss_db(path, figures.wavelength_nm, loss) - loss_limit_db(figures);
                   }),
                   "dB"});
    all.push_back({"overload", worst([&](const OpticalFigures& figures) {
                       return overload_excess_db(figures, least_loss_db(path, figures.wavelength_nm, loss));
                   }),
                   "dB"});
    all.push_back({"least-length", optic.least_length.metres() - path.glass.metres(), "m"});
    std::erase_if(all, [](const Miss& miss) { return miss.by <= rounding; });
    return all;
}

double margin_of(const Scenario& scenario, const OpticProduct& optic, const GlassPath& path, const Lighting& lit) {
    const Attenuation behind =
        attenuation_of(scenario.catalogue, optic, lit.attenuator_at_start, lit.attenuator_at_end);
    const auto margin = [&](const OpticalFigures& figures, double attenuator_db) {
        return loss_limit_db(figures) - greatest_loss_db(path, figures.wavelength_nm, scenario.rules.loss) -
               attenuator_db;
    };
    return std::min(margin(optic.to_building, behind.to_building_db), margin(optic.to_hub, behind.to_hub_db));
}

/// Looks at the optics of one rate and notes the first that passes, or the nearest.
void try_optics(const Scenario& scenario, const std::vector<const OpticProduct*>& optics, const GlassPath& path,
                NextRate& next) {
    std::size_t fewest = 0;
    for (const OpticProduct* optic : optics) {
        if (const auto lit = with_attenuators(scenario, *optic, path)) {
            next.optic = optic->id;
            next.passes = true;
            next.attenuated = lit->attenuator_at_start || lit->attenuator_at_end;
            next.margin_db = margin_of(scenario, *optic, path, *lit);
            next.limit.clear();
            next.unit.clear();
            next.short_by = 0;
            return;
        }
        const std::vector<Miss> missed = misses(*optic, path, scenario.rules.loss);
        if (missed.empty() || (!next.limit.empty() && missed.size() >= fewest)) continue;
        fewest = missed.size();
        next.optic = optic->id;
        next.limit = missed.front().limit;
        next.short_by = missed.front().by;
        next.unit = missed.front().unit;
    }
}

NextRate next_rate(const Scenario& scenario, const PlannedLink& link) {
    const auto& catalogue = scenario.catalogue.optics;
    const StrandUse use = catalogue[static_cast<std::size_t>(link.optic)].strand_use;
    const auto listed = slowest_above(catalogue, link.rate, use);
    const auto standard = slowest_above(standard_optics(), link.rate, use);
    NextRate next;
    next.rate = listed && standard ? std::min(*listed, *standard) : listed ? listed : standard;
    if (!next.rate) return next;
    next.in_catalogue = listed == next.rate;
    try_optics(scenario, optics_at(next.in_catalogue ? catalogue : standard_optics(), *next.rate, use),
               {link.glass, link.mated_pairs, link.splices}, next);
    return next;
}

}  // namespace

std::vector<NextRate> next_rates(const Scenario& scenario, const Plan& plan) {
    std::vector<NextRate> rates;
    for (std::size_t i = 0; i < plan.links.size(); ++i) {
        rates.push_back(next_rate(scenario, plan.links[i]));
        rates.back().link = static_cast<int>(i);
    }
    return rates;
}

}  // namespace spadework
