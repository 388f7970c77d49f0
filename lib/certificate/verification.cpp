#include "certificate/verification.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>

#include "comparison/ground_check.hpp"
#include "rates/quote_rates.hpp"
#include "scenario/lookup.hpp"
#include "strands/strand_need.hpp"

namespace spadework::certificate {

namespace {

/// Whose plans are all among whose.
constexpr std::array<std::pair<LayoutKind, LayoutKind>, 4> contained = {{
    {LayoutKind::trunk_one, LayoutKind::trunk},
    {LayoutKind::trunk_one, LayoutKind::mixed},
    {LayoutKind::trunk, LayoutKind::mixed},
    {LayoutKind::home_runs, LayoutKind::mixed},
}};

bool is_contained(LayoutKind narrow, LayoutKind wide) {
    return std::find(contained.begin(), contained.end(), std::pair(narrow, wide)) != contained.end();
}

/// One certificate after another; a layout is checked before those whose bound is taken over from it.
class Check {
public:
    Check(const Scenario& scenario, const std::vector<NamedCertificate>& certificates) : scenario_(scenario) {
        for (const NamedCertificate& named : certificates)
            files_[named.layout] = &named.read;
    }

    std::vector<Verdict> run() {
        std::set<LayoutKind> layouts;
        for (const auto& [layout, read] : files_) {
            layouts.insert(layout);
            if (read->certificate) layouts.insert(read->certificate->all.begin(), read->certificate->all.end());
        }
        std::vector<Verdict> verdicts;
        for (const LayoutKind layout : layouts)
            verdicts.push_back(checked(layout).verdict);
        return verdicts;
    }

private:
    /// Bound proved on the direct cost of plans with one strand use.
    struct UseBound {
        std::optional<Money> direct;
        bool no_plan = false;  ///< There are none to bound.
    };
    struct Checked {
        Verdict verdict;
        std::map<StrandUse, UseBound> by_use;
        std::optional<Money> direct;  ///< The smallest of these.
    };

    const Checked& checked(LayoutKind layout) {
        const auto known = checked_.find(layout);
        if (known != checked_.end()) return known->second;
        return checked_[layout] = check(layout);
    }

    Checked check(LayoutKind layout) {
        Checked result;
        result.verdict.layout = layout;
        std::vector<std::string>& faults = result.verdict.faults;
        const auto file = files_.find(layout);
        if (file == files_.end()) {
            faults.push_back(fmt::format("there is no file {}", file_name(layout)));
        } else if (!file->second->other_site.empty()) {
            faults.push_back(file->second->other_site);
        } else if (!file->second->certificate) {
            faults.emplace_back("the file cannot be read");
        } else if (file->second->certificate->layout != layout) {
            faults.push_back(fmt::format("the file is of layout {}", id_of(file->second->certificate->layout)));
        } else {
            check_content(*file->second, result);
        }
        result.verdict.proved = faults.empty();
        return result;
    }

    void check_content(const ReadCertificate& read, Checked& result) {
        const Certificate& certificate = *read.certificate;
        std::vector<std::string>& faults = result.verdict.faults;
        if (!read.broken_seal.empty()) faults.push_back(read.broken_seal);
        result.verdict.claimed = certificate.bound;
        const Scenario& map = read.with_lines ? *read.with_lines : scenario_;
        faults = joined(std::move(faults), line_faults(read, map));
        const StrandUse use = certificate.plan.strand_use;
        faults = joined(std::move(faults), plan_faults(settled(map, use), certificate, result.verdict.total));
        faults = joined(std::move(faults), bound_faults(map, certificate, result));
    }

    /// What is wrong with the straight lines over open ground that the map is said to have besides.
    std::vector<std::string> line_faults(const ReadCertificate& read, const Scenario& map) const {
        std::vector<std::string> faults;
        for (const auto& [layout, other] : files_) {
            if (other->certificate && other->lines != read.lines) {
                faults.push_back(fmt::format("its straight lines over open ground are not those of {}", id_of(layout)));
            }
        }
        for (const StraightSegment& straight : map.open_ground.straight) {
            const auto& line = map.segments[static_cast<std::size_t>(find_segment(map, straight.id).value())];
            const auto& like = map.segments[static_cast<std::size_t>(find_segment(map, straight.like).value())];
            std::string fault = verification::ground_fault(map, line);
            if (!fault.empty()) {
                faults.push_back(std::move(fault));
            } else if (!verification::same_ground(map, line, like)) {
                faults.push_back(fmt::format("{} does not lie in the same open ground and overlays as {} all along",
                                             straight.id, straight.like));
            }
        }
        return faults;
    }

    std::vector<std::string> bound_faults(const Scenario& map, const Certificate& certificate, Checked& result) {
        std::vector<std::string> faults;
        for (const StrandUse use : strand_uses(map.rules)) {
            const UseBound bound = bound_of_use(map, certificate, use, faults);
            result.by_use[use] = bound;
            if (bound.no_plan) continue;
            if (!bound.direct) return faults;
            result.direct = std::min(result.direct.value_or(*bound.direct), *bound.direct);
        }
        if (!result.direct) return faults;
        result.verdict.proved_bound = quote_for(*result.direct, scenario_.rules).total();
        if (certificate.direct_bound > *result.direct) {
            faults.push_back(fmt::format("a direct cost of {} is claimed as bound, the evidence proves {}",
                                         certificate.direct_bound.minor(), result.direct->minor()));
        }
        const Money quoted = quote_for(certificate.direct_bound, scenario_.rules).total();
        if (certificate.bound != quoted) {
            faults.push_back(fmt::format("the bound is {}; with contingency and tax it would be {}",
                                         certificate.bound.minor(), quoted.minor()));
        }
        if (result.verdict.total && certificate.bound > *result.verdict.total) {
            faults.emplace_back("the bound is above the plan's total");
        }
        return faults;
    }

    /// The site where plans have one strand use; a copy only where the rules allow either.
    const Scenario& settled(const Scenario& map, StrandUse use) {
        if (!map.rules.either_strand_use) return map;
        const auto [entry, fresh] = settled_.try_emplace({&map, use});
        if (fresh) entry->second = settled_on(map, use);
        return entry->second;
    }

    UseBound bound_of_use(const Scenario& map, const Certificate& certificate, StrandUse use,
                          std::vector<std::string>& faults) {
        const Scenario& site = settled(map, use);
        if (use == certificate.plan.strand_use) return proved_on(site, certificate, use, faults);
        const auto& other = certificate.other_use;
        if (!other || other->use != use) {
            faults.push_back(fmt::format("nothing bounds {} plans", name_of(use)));
            return {};
        }
        if (other->impossible) {
            if (is_impossible(site, certificate.layout)) return {std::nullopt, true};
            faults.push_back(
                fmt::format("{} plans are said to be impossible, which the site's figures do not show", name_of(use)));
            return {};
        }
        Certificate of_other = certificate;
        of_other.proof = other->proof;
        return proved_on(site, of_other, use, faults);
    }

    UseBound proved_on(const Scenario& site, const Certificate& certificate, StrandUse use,
                       std::vector<std::string>& faults) {
        UseBound bound;
        std::vector<std::string> found = proof_faults(site, certificate, bound.direct);
        if (certificate.proof.contained_in) take_over(certificate, use, bound, found);
        if (!bound.direct && !bound.no_plan && found.empty())
            found.emplace_back("the certificate holds no evidence for its bound");
        faults = joined(std::move(faults), std::move(found));
        return bound;
    }

    /// The bound of a layout that contains this one.
    void take_over(const Certificate& certificate, StrandUse use, UseBound& bound, std::vector<std::string>& faults) {
        const LayoutKind wide = *certificate.proof.contained_in;
        if (!is_contained(certificate.layout, wide)) {
            faults.push_back(fmt::format("layout {} does not contain {}", id_of(wide), id_of(certificate.layout)));
            return;
        }
        const Checked& other = checked(wide);
        const auto of_use = other.by_use.find(use);
        const bool known = of_use != other.by_use.end() && (of_use->second.direct || of_use->second.no_plan);
        if (!known || !other.verdict.proved) {
            faults.push_back(fmt::format("its bound is that of {}, which is not proved", id_of(wide)));
            return;
        }
        bound.no_plan = of_use->second.no_plan;
        if (!bound.no_plan)
            bound.direct = std::max(bound.direct.value_or(*of_use->second.direct), *of_use->second.direct);
    }

    static std::vector<std::string> joined(std::vector<std::string> all, std::vector<std::string> some) {
        all.insert(all.end(), std::make_move_iterator(some.begin()), std::make_move_iterator(some.end()));
        return all;
    }

    const Scenario& scenario_;
    std::map<LayoutKind, const ReadCertificate*> files_;
    std::map<LayoutKind, Checked> checked_;
    std::map<std::pair<const Scenario*, StrandUse>, Scenario> settled_;
};

}  // namespace

std::vector<Verdict> verify(const Scenario& scenario, const std::vector<NamedCertificate>& certificates) {
    return Check(scenario, certificates).run();
}

}  // namespace spadework::certificate
