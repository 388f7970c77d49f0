#include "strands/strand_need.hpp"

#include <algorithm>
#include <cstdint>

namespace spadework {

namespace {

int share_rounded_up(int count, Percent share) {
    return static_cast<int>((std::int64_t{count} * share.thousandths() + 99999) / 100000);
}

}  // namespace

int strands_per_link(StrandUse use) {
    return use == StrandUse::duplex ? 2 : 1;
}

std::vector<StrandUse> strand_uses(const Rules& rules) {
    if (rules.either_strand_use) return {StrandUse::duplex, StrandUse::bidirectional};
    return {rules.strand_use};
}

Scenario settled_on(const Scenario& scenario, StrandUse use) {
    Scenario settled = scenario;
    settled.rules.strand_use = use;
    settled.rules.either_strand_use = false;
    return settled;
}

const char* name_of(StrandUse use) {
    return use == StrandUse::duplex ? "duplex" : "bidirectional";
}

int link_count(const Building& building) {
    int count = 0;
    for (const LinkDemand& demand : building.links)
        count += demand.count;
    return count;
}

int strands_in_use(const Building& building, const Rules& rules) {
    return link_count(building) * strands_per_link(rules.strand_use);
}

StrandNeed drop_need(int in_use, const Rules& rules) {
    return {in_use, rules.spare.drop_spare_least, 0};
}

StrandNeed trunk_need(int in_use, const Rules& rules, const Growth& growth) {
    const int spare = std::max(rules.spare.trunk_spare_least, share_rounded_up(in_use, rules.spare.trunk_spare));
    return {in_use, spare, share_rounded_up(in_use, growth.headroom)};
}

}  // namespace spadework
