#pragma once

// The plan file of the shipped lakeside site (a trunk to an enclosure, four drops, a duplex link each at 1310 nm), and
// readings for it.

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "acceptance/acceptance.hpp"
#include "plan_file/reader.hpp"

namespace spadework::acceptance::testing {

inline plan_file::PlanFile lakeside() {
    const auto path = std::filesystem::path(SPADEWORK_SOURCE_DIR) / "tests/fuzz/corpus/plan_file/trunk-one.plan.json";
    std::ifstream file(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    auto read = plan_file::read_plan_file("plan.json", text);
    if (!read.plan) throw std::runtime_error("the plan file of the corpus is valid");
    return *read.plan;
}

/// A reading for every row of a plan's test sheet: as much below the limit as above the least, lengths as planned.
inline std::vector<Reading> good_readings(const plan_file::PlanFile& plan) {
    std::vector<Reading> readings;
    for (const plan_file::NamedTest& test : plan.tests) {
        for (const std::string& from : {test.from, test.building}) {
            for (const plan_file::NamedLimit& limit : test.limits) {
                Reading reading;
                reading.key = {test.building, test.link, test.leg, from, limit.wavelength_pm};
                reading.loss_mdb = (limit.pass_mdb + limit.least_mdb) / 2;
                reading.length = test.glass;
                reading.date = "2026-11-20";
                readings.push_back(reading);
            }
        }
    }
    return readings;
}

/// The readings of one strand.
inline std::vector<Reading*> of_strand(std::vector<Reading>& readings, const std::string& building, int leg) {
    std::vector<Reading*> found;
    for (Reading& reading : readings) {
        if (reading.key.building == building && reading.key.leg == leg) found.push_back(&reading);
    }
    return found;
}

}  // namespace spadework::acceptance::testing
