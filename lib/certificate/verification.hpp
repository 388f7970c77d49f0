#pragma once

// Checks certificates against a site with code of its own: nothing here calls what plans, routes or solves.

#include <optional>
#include <string>
#include <vector>

#include "certificate/certificate.hpp"
#include "certificate/reader.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

/// The file of one layout: what it is named for, and what was read from it.
struct NamedCertificate {
    LayoutKind layout = LayoutKind::home_runs;
    ReadCertificate read;
};

/// What the check of one layout came to.
struct Verdict {
    LayoutKind layout = LayoutKind::home_runs;
    bool proved = false;                ///< Plan and bound both hold.
    std::vector<std::string> faults;    ///< Why not, a sentence part each; empty when proved.
    std::optional<Money> total;         ///< Of the plan priced anew, where it can be.
    std::optional<Money> claimed;       ///< Bound the certificate claims.
    std::optional<Money> proved_bound;  ///< Bound its evidence proves, on the same total; empty where it proves none.
};

/// A verdict for each certificate, and for each layout that was certified with one and has none; in the order of
/// LayoutKind.
std::vector<Verdict> verify(const Scenario& scenario, const std::vector<NamedCertificate>& certificates);

/// What is wrong with the plan and its total, and what the total is. Never fails on any plan that was read.
std::vector<std::string> plan_faults(const Scenario& scenario, const Certificate& certificate,
                                     std::optional<Money>& total);

/// What is wrong with the evidence, and the direct cost that it proves no plan undercuts.
std::vector<std::string> proof_faults(const Scenario& scenario, const Certificate& certificate,
                                      std::optional<Money>& direct);

/// Whether the site's figures show that no plan of the layout exists.
bool is_impossible(const Scenario& scenario, LayoutKind layout);

/// The verdicts as a table with a line of reasons below each that is not proved.
std::string verdicts_text(const Scenario& scenario, const std::vector<Verdict>& verdicts);

}  // namespace spadework::certificate
