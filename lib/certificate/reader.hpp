#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "certificate/certificate.hpp"
#include "diagnostics/diagnostic.hpp"
#include "json/fields.hpp"
#include "open_ground/straight_lines.hpp"
#include "scenario/scenario.hpp"

namespace spadework::certificate {

using json::Fields;
using json::JsonKind;
using json::JsonValue;
using json::Problems;
using json::Range;

/// Largest file taken, in bytes.
inline constexpr std::size_t largest_file_bytes = std::size_t{64} * 1024 * 1024;

/// What became of a certificate's text.
struct ReadCertificate {
    std::optional<Certificate> certificate;  ///< Nothing when the diagnostics hold an error.
    Diagnostics diagnostics;
    std::string other_site;   ///< Why it was not read further: it speaks of another site or of an earlier one.
    std::string broken_seal;  ///< How the file differs from what was written; "" when it does not.
    std::vector<open_ground::StraightLine> lines;  ///< Over open ground, by places and segments of the site.
    /// The site with these lines, which the certificate speaks of; null where there are none.
    std::shared_ptr<const Scenario> with_lines;
};

/// Reads a certificate for the site. Everything named by id is looked up in the site, and every problem is told with
/// what would be right. A certificate of another site is not read beyond that. Any bytes are taken without harm.
ReadCertificate read_certificate(const Scenario& scenario, const std::string& file, std::string_view text);

/// The plan of an object; problems are noted.
Plan read_plan(const JsonValue& value, const Scenario& scenario, LayoutKind layout, Problems& problems);

/// What a bound rests on; problems are noted.
BoundCertificate read_proof(const JsonValue& value, const Scenario& scenario, Problems& problems);

/// Straight lines over open ground; problems are noted.
std::vector<open_ground::StraightLine> read_straight_lines(const JsonValue& value, const Scenario& scenario,
                                                           Problems& problems);

/// The layout that a text names; problems are noted.
LayoutKind read_layout(const JsonValue& value, Problems& problems);

}  // namespace spadework::certificate
