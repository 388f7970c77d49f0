#include "strands/spare_policies.hpp"

#include <doctest/doctest.h>

namespace spadework {
namespace {

/// One building with so many duplex links, and cables of the usual sizes.
Scenario site_with(int links) {
    Scenario site;
    Building building;
    building.id = "house";
    building.links = {{BitRate::from_megabits(1000), links}};
    site.buildings = {building};
    for (const int strands : {12, 24, 48, 72, 144, 200}) {
        CableProduct cable;
        cable.id = "cable-" + std::to_string(strands);
        cable.strands = strands;
        cable.price_per_metre = UnitPrice::from_minor(50 + 4 * strands);
        site.catalogue.cables.push_back(cable);
    }
    return site;
}

struct Wanted {
    int strands = 0;
    int cable = 0;  ///< Strands of the cable; 0 for none.
};

/// What the policy whose source begins so wants.
Wanted wanted(const Scenario& site, const std::string& source, const std::string& name = "") {
    const StrandStudy study = study_strands(site);
    for (const SparePolicy& policy : spare_policies(site, study)) {
        if (policy.source.rfind(source, 0) != 0 || policy.name.rfind(name, 0) != 0) continue;
        if (policy.size < 0) return {policy.strands, 0};
        const int product = study.sizes[static_cast<std::size_t>(policy.size)].product;
        return {policy.strands, site.catalogue.cables[static_cast<std::size_t>(product)].strands};
    }
    return {};
}

}  // namespace

TEST_CASE("40 strands with 20 % growth and 5 % spare are 50 and take 72 (SPA-1, MIL-HDBK-2051(SH) 5.3.1.2.3)") {
    const Wanted result = wanted(site_with(20), "MIL-HDBK-2051");
    CHECK(result.strands == 50);
    CHECK(result.cable == 72);
}

TEST_CASE("25 % on 12 at least are 15, on 16 they are 20, and both take 24 (SPA-2, UFGS-40 95 33.23 20)") {
    CHECK(wanted(site_with(2), "UFGS").strands == 15);
    CHECK(wanted(site_with(6), "UFGS").strands == 15);
    CHECK(wanted(site_with(6), "UFGS").cable == 24);
    CHECK(wanted(site_with(8), "UFGS").strands == 20);
    CHECK(wanted(site_with(8), "UFGS").cable == 24);
}

TEST_CASE("60 outlets of a pair each way are 120, with 30 % 156, and take 200 (SPA-3, Illinois State University)") {
    const Wanted result = wanted(site_with(60), "Illinois");
    CHECK(result.strands == 156);
    CHECK(result.cable == 200);
}

TEST_CASE("a target chance wants the least strands that reach it, with 2 links expected 5 for 95 %") {
    Scenario site = site_with(3);
    site.growth.horizon_years = 10;
    site.growth.unnamed_links_per_year = 0.2;
    CHECK(wanted(site, "the site's growth", "90 %").strands == 6 + 2 * 4);
    CHECK(wanted(site, "the site's growth", "95 %").strands == 6 + 2 * 5);
    CHECK(wanted(site, "the site's growth", "99 %").strands == 6 + 2 * 6);
}

TEST_CASE("a policy that no cable meets says so") {
    CHECK(wanted(site_with(90), "Illinois").strands == 234);
    CHECK(wanted(site_with(90), "Illinois").cable == 0);
}

}  // namespace spadework
