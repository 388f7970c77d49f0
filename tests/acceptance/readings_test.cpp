#include "acceptance/readings.hpp"

#include <doctest/doctest.h>

namespace spadework::acceptance {
namespace {

const std::string headings =
    "building,link,strand,measured_from,wavelength_nm,measured_loss_db,measured_length_m,date\n";

std::vector<Reading> readings_of(const std::string& text) {
    const ReadReadings read = read_readings("r.csv", text);
    for (const Diagnostic& diagnostic : read.diagnostics)
        MESSAGE(to_text(diagnostic));
    CHECK_FALSE(has_errors(read.diagnostics));
    return read.readings;
}

std::vector<std::string> problems_of(const std::string& text) {
    std::vector<std::string> problems;
    for (const Diagnostic& diagnostic : read_readings("r.csv", text).diagnostics)
        problems.push_back(to_text(diagnostic));
    return problems;
}

std::string problem_of(const std::string& text) {
    const auto problems = problems_of(text);
    REQUIRE_MESSAGE(problems.size() == 1, (problems.empty() ? "no problem" : problems[1]));
    return problems.front();
}

}  // namespace

TEST_CASE("rows with a loss or a length are readings, and blank ones are not") {
    const auto readings = readings_of(headings +
                                      "mill,1,2,hub,1310,0.35,149.6,2026-11-20\nmill,1,1,hub,1310,,,\n"
                                      "barn,1,1,hub,1550.12,,20,\n");
    REQUIRE(readings.size() == 2);
    CHECK(readings[0].key == plan_file::ReadingKey{"mill", 1, 2, "hub", 1310000});
    CHECK(readings[0].loss_mdb == 350);
    CHECK(readings[0].length == Length::from_millimetres(149600));
    CHECK(readings[0].date == "2026-11-20");
    CHECK(readings[0].line == 2);
    CHECK(readings[1].key.wavelength_pm == 1550120);
    CHECK_FALSE(readings[1].loss_mdb);
}

TEST_CASE("headings may be in any order and case, with columns beside them that are passed over") {
    const auto readings = readings_of(
        "Remark;MEASURED_LOSS_DB;wavelength_nm;measured_from;strand;link;building\n"
        "wet day;0.4;1310;hub;1;1;'=mill\n");
    REQUIRE(readings.size() == 1);
    CHECK(readings[0].key.building == "=mill");
    CHECK(readings[0].loss_mdb == 400);
}

TEST_CASE("lengths in feet are read as feet") {
    const auto readings = readings_of(
        "building,link,strand,measured_from,wavelength_nm,measured_loss_db,"
        "measured_length_ft\nmill,1,1,hub,1310,0.4,100\n");
    CHECK(readings[0].length == Length::from_millimetres(30480));
}

TEST_CASE("a file with decimal commas throughout is read, and the reader says so") {
    const ReadReadings read = read_readings("r.csv",
                                            "building;link;strand;measured_from;wavelength_nm;"
                                            "measured_loss_db\nmill;1;1;hub;1310;0,35\n");
    REQUIRE(read.readings.size() == 1);
    CHECK(read.readings[0].loss_mdb == 350);
    REQUIRE(read.diagnostics.size() == 1);
    CHECK(to_text(read.diagnostics[0]) ==
          "r.csv:2:19: warning: '0,35' with a decimal comma; expected a decimal point; every comma in a number of this "
          "file is taken for one");
}

TEST_CASE("a decimal comma among decimal points is refused, in quotes or as a cell too many") {
    CHECK(problem_of(headings + "mill,1,1,hub,1310,0.35,,\nmill,1,2,hub,1310,\"0,35\",,\n") ==
          "r.csv:3:19: error: '0,35'; expected a loss in dB, without a sign, with a decimal point, as elsewhere in the "
          "file");
    CHECK(problem_of(headings + "mill,1,1,hub,1310,0.3,2,x,y\n").find("9 cells under 8 headings") != std::string::npos);
}

TEST_CASE("units in cells, signs, texts and numbers that are none are all told in one pass") {
    const auto problems = problems_of(headings +
                                      "mill,1,1,hub,1310,0.35 dB,,\n"
                                      "mill,1,2,hub,1310,-0.35,,\n"
                                      "mill,one,1,hub,1310,0.3,,\n"
                                      "mill,1.5,1,hub,1310,0.3,,\n"
                                      "mill,1,1,,1310,0.3,nan,\n");
    REQUIRE(problems.size() == 6);
    CHECK(problems[0] ==
          "r.csv:2:19: error: '0.35 dB'; expected a loss in dB, without a sign, alone: the heading has "
          "the unit");
    CHECK(problems[1] == "r.csv:3:19: error: '-0.35'; expected a loss in dB, without a sign, from 0 to 1000");
    CHECK(problems[2] == "r.csv:4:6: error: 'one'; expected a whole number");
    CHECK(problems[3] == "r.csv:5:6: error: '1.5'; expected a whole number");
    CHECK(problems[4] ==
          "r.csv:6:10: error: a reading without 'measured_from'; expected which strand it is of, as on "
          "the test sheet");
    CHECK(problems[5] == "r.csv:6:20: error: 'nan'; expected a length in metres");
}

TEST_CASE("a reading given twice is refused with the line of the first") {
    CHECK(problem_of(headings + "mill,1,1,hub,1310,0.3,,\nmill,1,1,mill,1310,0.3,,\nmill,1,1,hub,1310,0.4,,\n") ==
          "r.csv:4:1: error: a second reading of what line 2 has; expected one reading each: the one that counts");
}

TEST_CASE("an empty file, headings alone and a sheet that nobody filled in are told apart") {
    CHECK(problem_of("").find("an empty file; expected the test sheet") != std::string::npos);
    CHECK(problem_of(headings).find("headings and no rows") != std::string::npos);
    CHECK(problem_of(headings + "mill,1,1,hub,1310,,,\n") ==
          "r.csv: error: no reading in any of 1 rows; expected numbers under 'measured_loss_db'");
}

TEST_CASE("a heading that is missing is told with the one that was probably meant") {
    CHECK(problem_of("building,link,strand,measured_from,wavelength_nm,measured_los_db\nx,1,1,hub,1310,1\n") ==
          "r.csv:1:1: error: no heading 'measured_loss_db'; expected the headings of the test sheet; did you mean "
          "'measured_los_db'?");
    CHECK(problem_of("building,link,strand,measured_from,wavelength_nm,measured_loss_db,measured_lenght_m\n"
                     "x,1,1,hub,1310,1,2\n")
              .find("warning: heading 'measured_lenght_m' is not read") != std::string::npos);
}

TEST_CASE("quotes that nothing closes and bytes that are no text do no harm") {
    CHECK(problems_of(headings + "mill,1,1,\"hub,1310,0.3,,\n").size() == 1);
    for (const std::string& bytes :
         {std::string("\xff\xfe\0\0", 4), std::string(200, '\0'), std::string("\xef\xbb\xbf")})
        CHECK(problems_of(bytes).size() >= 1);
}

}  // namespace spadework::acceptance
