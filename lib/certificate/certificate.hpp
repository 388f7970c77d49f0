#pragma once

// What is needed to check one layout's plan and its bound again, without trusting the program that found them.
//
// One JSON file a layout. All numbers are whole: money in minor units of the currency, lengths in millimetres, and what
// routing charges in solver units, of which `units_a_minor` make one minor unit of money. How to check a file:
//
// 1. Plan. Each cable walks from place to place over segments (each in one of its ways: the methods of its ground in
//    order, then its existing duct, then its pole line, counted from 0), and the plan as a whole is one of the layout
//    that meets the site's rules. Priced with the site's prices it comes to `total`.
// 2. Figures. For each piece of `evidence` under `proof`, the charges of the cables it names as demands (a building's
//    own cable each; the hub stands for a trunk's) are not above what the site's prices come to at least:
//    a. Edges. Every way of every segment that may be used has an edge of its segment in the list that charges no more
//       than the way does: `opening` to open it, and for each demand weight * `length` + multiplicity * `passage` for a
//       cable through it: the cheapest cable that is large enough, its duct, and its pulling. With its own length
//       goes half a coil for each end that is a handhole, neither the hub's nor a building's place. An edge with a
//       `room_price` stands for a duct with `room` for so many cables, and may charge that price more for each cable.
//       What that counts too much in any plan, the sum over edges of room * room_price (the rebate), is taken off
//       again (Geoffrion 1974).
//    b. `constant`, with a root's own `cost`, is not above what every plan that fans out there pays beside its routes,
//       less half a coil of each cable where that is an enclosure in a handhole and edges charge coils, as it leaves
//       none there; and what a cable's charges leave out on each edge, added up along the way from the root on which
//       they leave out least.
// 3. Prices. In each set of prices, each demand has a list of triples: edge (position in the list of edges), direction
//    (0: the path runs from the segment's `from` to its `to`; 1: the other way), and price, in parts of which `parts`
//    make one solver unit. Demands whose weight and multiplicity are in one proportion form a group (all demands form
//    one where every edge's length, or every edge's passage, is 0). Add up each group's prices for each direction of an
//    edge, take the larger direction, and add over groups: that may not pass parts * opening (weak duality of the
//    multicommodity flow model; see graph/shared_cost_solver.hpp for the sources).
// 4. Distances. For each root and each demand, the shortest path from root to demand where passing an edge costs
//    parts * (weight * length + multiplicity * passage) + price in that direction. Their sum over demands, divided by
//    parts and rounded up to the next multiple of the greatest common divisor of all openings, all weight * length and
//    all multiplicity * passage, is what routes cost at least: every plan's cost is such a multiple.
// 5. Bound. That and the root's cost, less the rebate (nothing where that is below nothing), rounded down to minor
//    units, and the constant: no plan that fans out from this root has a smaller direct cost. Of several sets and
//    several pieces of evidence the best counts for each root; of the roots (the hub for home runs; every place that
//    may hold the enclosure and that the hub reaches for one trunk) the least counts. Contingency and tax on top, each
//    rounded half up, make it `bound`.
// 6. Cables as they are bought. Where every edge's passage is 0, a set of prices may prove more for a root. For each
//    demand take instead of its distance, and of what 2b counts for its cable (its ends without work, what it costs
//    beyond that on the shortest way, what charges leave out), the least that any path from root to demand comes to:
//    its prices, ducts and pulling, and the cheapest product for its length and coils, in whole steps of length, with
//    ends and joints. So much more may be counted as leaves S_a / k_a + S_b / k_b below twice the `length` of every
//    edge on which demands a and b have prices in opposite directions, for S what is counted more and k a demand's
//    charge (`weight`) a unit of `length`. layout/bought_bound.hpp says why.
// 7. Splits. Evidence may have `splits`: parts into which all plans are split by whether they use an edge, again and
//    again (Land and Doig 1960). A part has its `choices`, pairs of edge and 1 where all its plans use that edge or 0
//    where none does, and `parts` and `prices` of its own. The parts are all plans where there is one part without
//    choices, or where all begin with the same edge, and both those that use it and those that do not are, from their
//    next choice on, all plans again; no part chooses an edge twice. Steps 3 to 6 are taken for each part: edges in use
//    have an opening of 0, and what opening them really costs is added to what routes cost; no path leads over edges
//    out of use, whose figures count towards step 4's divisor all the same. Part by part the more of steps 5 and 6
//    counts, a part in which some demand cannot be reached from the root has no plans, and the least over the parts is
//    proved of the root.
//
// Evidence of `trunks` (layouts with any number of enclosures) and of `chains` has edges, a constant and prices of the
// same kind and is checked in the same order, with rules of its own for what the prices prove:
//
// - `trunks`: set by set of enclosure places, as certificate/set_bounds.hpp says. All demands measure paths alike. On
//   each arc a set's prices come to no more than parts * opening. Every set of places that may be open is bounded by
//   the entries under `sets` that name it (positions under `sites`; `units` least and most for each of them; together
//   they leave out no way of sharing the strands in use), each with its own `asks` and its own `prices`; where no entry
//   names it, by the first prices and each place's `ask`. `home_run` is what a home run costs more than service by a
//   place (below 0: it saves), and `size_costs` what each size costs more at that place.
// - `chains`: by the claim of graph/chain_certificate.hpp, whose w, v, u, p, g and N are `hop_charges`,
//   `joining_prices`, `arrival_prices`, `visit_prices`, `entry_prices` (of the sets of `buildings` they name) and
//   `neighbours` (positions of buildings in the site's order); for rings by that of graph/ring_certificate.hpp, whose x
//   and s are `closing_prices` and `pass_charges`.
//
// Either may prove a cost below nothing for the routes; minor units are rounded down then too.
//
// Where a layout's plans are all among another's, `proof` may name that layout instead: its bound is a bound here.
// Where a layout's bound has no evidence that this format can hold, `proof` says so, and the bound is not proved.
//
// Where plans lay straight lines over open ground that the site's files do not have, `straight_lines` lists them: each
// is a further segment between two places, as long as the straight line, of the ground and with the charges of the
// segment that it is `like`. It has to lie in that segment's open ground and overlays all along, and outside all
// obstacles. Plans and bounds speak of the map with these lines, which must be the same in all files of a folder.
//
// Where the site's rules leave the strand use to the price, `strand_use` says which one the plan's links have, and
// `proof` bounds the plans of that one alone. `other_strand_use` bounds those of the other, by a `proof` of the same
// kind; or says by a `proof` of null that there are none to bound, which the site's figures must show: some building
// that no optic of that strand use reaches, or a catalogue without gear for it. The smaller bound of the two counts. A
// layout that names another as containing it does so strand use by strand use.
//
// The last member, `seal`, is a checksum (FNV-1a, 64 bits) of all bytes before its key. It shows that a file is as it
// was written; no proof rests on it.

#include <optional>
#include <string>
#include <vector>

#include "comparison/comparison.hpp"
#include "layout/bound_certificate.hpp"
#include "layout/plan.hpp"
#include "scenario/scenario.hpp"
#include "units/money.hpp"

namespace spadework::certificate {

/// The format's number; files of another are refused.
inline constexpr int format_version = 1;

/// What bounds plans of the strand use that the plan does not have, on sites whose rules allow either.
struct OtherUseProof {
    StrandUse use = StrandUse::duplex;
    bool impossible = false;  ///< The site's figures leave no plan of that strand use, and nothing to bound.
    BoundCertificate proof;
};

struct Certificate {
    std::string site_name;
    std::string site_digest;      ///< Of every byte of the site's files; see Scenario::digest.
    std::vector<LayoutKind> all;  ///< Layouts that were certified together.
    LayoutKind layout = LayoutKind::home_runs;
    Money total;         ///< What the customer pays for the plan.
    Money bound;         ///< No plan of this layout costs less.
    Money direct_bound;  ///< The same before contingency and tax.
    Plan plan;
    BoundCertificate proof;
    std::optional<OtherUseProof> other_use;
};

/// "home-runs.certificate.json".
std::string file_name(LayoutKind layout);

/// Certificates of the layouts that have a plan.
std::vector<Certificate> certificates_of(const Scenario& scenario, const Comparison& comparison);

}  // namespace spadework::certificate
