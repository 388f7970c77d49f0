#pragma once

#include <string>

#include "certificate/certificate.hpp"
#include "report/json_writer.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

/// The text of a certificate's file.
std::string to_json(const Scenario& scenario, const Certificate& certificate);

/// The plan as a JSON object, everything named by id.
void write_plan(report::JsonWriter& json, const Scenario& scenario, const Plan& plan);

}  // namespace spadework::certificate
