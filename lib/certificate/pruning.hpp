#pragma once

#include "certificate/certificate.hpp"

namespace spadework::certificate {

/// The proof without sets of prices that the claimed bound does not need. Takes the set that settles most places first,
/// earlier ones first among equals. Where the bound does not follow from what is there, everything stays.
BoundCertificate pruned(const Scenario& scenario, const BoundCertificate& proof, Money direct_bound);

/// Evidence of trunks without the prices and the entries that the claimed bound does not need.
std::shared_ptr<const TrunkEvidence> pruned(const Scenario& scenario, const TrunkEvidence& evidence,
                                            Money direct_bound);

}  // namespace spadework::certificate
