#include "plan_file/reader.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <doctest/doctest.h>

namespace spadework::plan_file {
namespace {

/// The plan of the shipped lakeside site: a trunk to an enclosure and four drops.
std::string lakeside() {
    const auto path = std::filesystem::path(SPADEWORK_SOURCE_DIR) / "tests/fuzz/corpus/plan_file/trunk-one.plan.json";
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// The same with the first `what` behind `from` in other words.
std::string with(std::string text, const std::string& from, const std::string& what, const std::string& instead) {
    const std::size_t start = text.find(from);
    REQUIRE(start != std::string::npos);
    const std::size_t at = text.find(what, start);
    REQUIRE(at != std::string::npos);
    return text.replace(at, what.size(), instead);
}

std::vector<std::string> problems_of(const std::string& text) {
    std::vector<std::string> problems;
    const ReadPlanFile read = read_plan_file("plan.json", text);
    for (const Diagnostic& diagnostic : read.diagnostics)
        problems.push_back(to_text(diagnostic));
    CHECK(read.plan.has_value() == problems.empty());
    return problems;
}

/// The one problem of a text.
std::string problem_of(const std::string& text) {
    const std::vector<std::string> problems = problems_of(text);
    REQUIRE_MESSAGE(problems.size() == 1, (problems.empty() ? "no problem" : problems.front()));
    return problems.front();
}

}  // namespace

TEST_CASE("a plan file comes apart as it was put together") {
    const auto read = read_plan_file("plan.json", lakeside());
    CHECK(read.diagnostics.empty());
    REQUIRE(read.plan);
    CHECK(read.plan->site_name == "Lakeside holiday park");
    CHECK(read.plan->layout == LayoutKind::trunk_one);
    CHECK(read.plan->cables.size() == 5);
    CHECK(read.plan->strands.size() == 12 + 4 * 4);
    CHECK(read.plan->tests.size() == 8);
    CHECK(kept_map(*read.plan).strands.front().cable == "trunk-lawn-corner");
    CHECK(read.plan->costs.total == Money::from_minor(2999626));
}

TEST_CASE("what is no plan file is refused with what one begins with") {
    CHECK(problem_of("{}") ==
          "plan.json:1:1: error: an object without a key 'format'; expected a plan file, \"format\": "
          "\"spadework-plan\"");
    CHECK(problem_of("[]").find("'['; expected a plan file, which begins with '{'") != std::string::npos);
    CHECK(problem_of("").find("plan.json:1:1: error: the end of the file") == 0);
    CHECK(problem_of(R"({"format": "spadework-certificate", "version": 1})") ==
          "plan.json:1:12: error: text 'spadework-certificate'; expected text 'spadework-plan'");
}

TEST_CASE("a file of a version to come is refused with the versions that are read") {
    CHECK(problem_of(with(lakeside(), "\"version\"", "1", "3")) ==
          "plan.json:3:14: error: a plan file of version number 3; expected version 1 or 2, those that this program "
          "reads");
}

TEST_CASE("trunks that were cut are for files of the second version, which may have none") {
    const std::string second = with(lakeside(), "\"version\"", "1", "2");
    CHECK(problems_of(second).empty());
    const auto spliced = [](const std::string& text, const char* to) {
        return with(text, "drop-boathouse", "\"enclosure\"",
                    std::string("\"spliced_to\": \"") + to + "\", \"enclosure\"");
    };
    CHECK(problem_of(spliced(lakeside(), "trunk-lawn-corner")).find("error: key 'spliced_to'") != std::string::npos);
    CHECK(problem_of(spliced(second, "trunk-lawn"))
              .find("spliced to 'trunk-lawn'; expected the id of an earlier cable") != std::string::npos);
    CHECK(problem_of(spliced(second, "drop-boathouse")).find("expected the id of an earlier cable") !=
          std::string::npos);
    CHECK(problem_of(spliced(second, "trunk-lawn-corner")).find("parts that do not join") != std::string::npos);
    const std::string held = with(second, "\"strands\": [", "\"far\": \"enclosure\"", "\"far\": \"spliced\"");
    CHECK(problems_of(held).front().find("an end that is spliced and plugged") != std::string::npos);
    const std::string faced = with(held, "\"strands\": [", "\"far_adapter\": 1", "\"far_adapter\": 0");
    CHECK(problem_of(faced).find("far end: spliced to no strand that carries the same") != std::string::npos);
}

TEST_CASE("every problem is told in one pass, each with its line and column") {
    std::string text = with(lakeside(), "\"cables\"", "\"drop\"", "\"drp\"");
    text = with(text, "\"links\"", "\"optic\"", "\"optics\"");
    text = with(text, "\"costs\"", "\"digits\": 2", "\"digits\": -1");
    const std::vector<std::string> problems = problems_of(text);
    REQUIRE(problems.size() == 4);
    CHECK(problems[0].find("plan.json:18:38: error: text 'drp'; expected one of home-run, trunk, drop, hop, closing; "
                           "did you mean 'drop'?") == 0);
    CHECK(problems[1].find("error: no key 'optic'") != std::string::npos);
    CHECK(problems[2].find("error: key 'optics'; expected no such key; did you mean 'optic'?") != std::string::npos);
    CHECK(problems[3].find("error: number -1; expected a whole number from 0 to 6") != std::string::npos);
}

TEST_CASE("a strand, an adapter or a port that is given twice is a contradiction") {
    const std::string text = lakeside();
    CHECK(problems_of(with(text, "\"strands\": [", "\"strand\": 2,", "\"strand\": 1,"))[1].find(
              "strand 1 of 'trunk-lawn-corner' twice; expected each strand once") != std::string::npos);
    CHECK(problem_of(with(text, "\"strands\": [", "\"near_adapter\": 2", "\"near_adapter\": 1"))
              .find("near end: adapter 1 of the hub panel at 'office' twice; expected each adapter once") !=
          std::string::npos);
    CHECK(problem_of(with(text, "\"strands\": [", "\"near_port\": 2", "\"near_port\": 1"))
              .find("near end: port 1 at the hub twice; expected each port for one link") != std::string::npos);
}

TEST_CASE("a name that the file does not have is told with the nearest one") {
    const std::string text = lakeside();
    CHECK(problem_of(with(text, "\"links\"", "\"drop-cabins\"]", "\"drop-cabin\"]"))
              .find("no cable 'drop-cabin'; expected a cable of this file; did you mean 'drop-cabins'?") !=
          std::string::npos);
    const auto tests = problems_of(with(text, "\"tests\"", "\"building\": \"sauna\"", "\"building\": \"spa\""));
    REQUIRE(tests.size() == 2);
    CHECK(tests[0].find("no test of strand 1 of this link") != std::string::npos);
    CHECK(tests[1].find("a test of strand 1 of link 1 to 'spa'; expected a strand of a link of this file") !=
          std::string::npos);
    const auto problems = problems_of(with(text, "\"strands\": [", "\"cable\": \"drop-sauna\"", "\"cable\": \"x\""));
    REQUIRE(problems.size() == 2);
    CHECK(problems[0].find("3 of the 4 strands of 'drop-sauna'; expected every strand of every cable") !=
          std::string::npos);
    CHECK(problems[1].find("a strand of 'x'; expected a strand of a cable of this file") != std::string::npos);
}

TEST_CASE("lengths, walks and amounts that do not add up are contradictions") {
    const std::string text = lakeside();
    CHECK(problem_of(with(text, "\"cables\"", "\"route_mm\": 262018", "\"route_mm\": 262019"))
              .find("a route of 262019; expected 262018, the sum of its steps") != std::string::npos);
    CHECK(problem_of(with(text, "\"cables\"", "\"ordered_mm\": 300000", "\"ordered_mm\": 299000"))
              .find("route, with slack and ordered, none shorter than the one before") != std::string::npos);
    CHECK(problem_of(with(text, "\"cables\"", "[[\"drive\", \"open cut\"], [\"avenue\"", "[[\"avenue\""))
              .find("a step over 'avenue', which does not begin at 'office'") != std::string::npos);
    CHECK(problem_of(with(text, "\"costs\"", "\"total\": 2999626", "\"total\": 2999627"))
              .find("a total of 2999627; expected the sum of the categories") != std::string::npos);
    CHECK(problems_of(with(text, "\"cables\"", "\"strands\": 4", "\"strands\": 3"))[0].find(
              "3 strands for a need of 4; expected no fewer than in_use, spare and headroom together") !=
          std::string::npos);
}

TEST_CASE("a link with a strand that is not tested is a contradiction") {
    CHECK(problems_of(with(lakeside(), "\"tests\"", "\"strand\": 2", "\"strand\": 1")).size() == 2);
}

}  // namespace spadework::plan_file
