#pragma once

// Readings as a crew hands them in: the test sheet with its blank columns filled in, or a table with the same headings.

#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostic.hpp"
#include "plan_file/as_built.hpp"

namespace spadework::acceptance {

/// Largest file taken, in bytes.
inline constexpr std::size_t largest_file_bytes = std::size_t{64} * 1024 * 1024;

/// A row of which something was measured.
struct Reading {
    std::string layout;  ///< Id of the layout whose sheet it is of; empty where the table does not say.
    plan_file::ReadingKey key;
    std::optional<std::int64_t> loss_mdb;
    std::optional<Length> length;
    std::string date;
    std::string tested_by;
    int line = 0;  ///< Of the file.
};

struct ReadReadings {
    std::vector<Reading> readings;  ///< Not to be used when the diagnostics hold an error.
    Diagnostics diagnostics;
};

/// Reads a table of readings: CSV with commas, semicolons or tabs, in UTF-8, UTF-16 or Windows-1252. The headings
/// `building`, `link`, `strand`, `measured_from`, `wavelength_nm` and `measured_loss_db` must be there; `layout`,
/// `measured_length_m` (or `_ft`), `date` and `tested_by` may be; others are passed over. Rows without loss and length
/// are blank. Where every number of the file has a decimal comma and none a point, commas are read as points, with a
/// warning. Every problem is told in one pass: numbers that are none, units in cells, negative losses, a reading given
/// twice, a file that is empty or in which nothing was filled in.
ReadReadings read_readings(const std::string& file, std::string_view bytes);

}  // namespace spadework::acceptance
