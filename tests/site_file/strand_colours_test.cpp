// rules.strand-colours: a standard's order, or the site's own.

#include <doctest/doctest.h>

#include "site_file/site_texts.hpp"

namespace spadework::site_file {
namespace {

LoadedSite with_colours(const std::string& colours) {
    return testing::read_text(testing::small_site() + "rules: {strand-colours: " + colours + "}\n");
}

std::vector<std::string> colours_of(const std::string& colours) {
    const LoadedSite site = with_colours(colours);
    REQUIRE(site.scenario);
    return site.scenario->rules.colours.colours;
}

std::string problem_of(const std::string& colours) {
    const LoadedSite site = with_colours(colours);
    CHECK_FALSE(site.scenario);
    REQUIRE(!site.diagnostics.empty());
    return to_text(site.diagnostics.front());
}

}  // namespace

TEST_CASE("strands are coloured by TIA-598 unless the site says otherwise") {
    const LoadedSite site = testing::read_text(testing::small_site());
    REQUIRE(site.scenario);
    CHECK(site.scenario->rules.colours.name == "TIA-598");
    CHECK(colours_of("tia-598") == tia_598_order().colours);
    CHECK(colours_of("din-vde-0888") == din_vde_0888_order().colours);
}

TEST_CASE("a site may have an order of its own, in the names that its cables go by (COL-4: grey, pink, turquoise)") {
    CHECK(colours_of("[blue, orange, green, brown, grey, white, red, black, yellow, violet, pink, turquoise]")[10] ==
          "pink");
    CHECK(with_colours("[red, blue]").scenario->rules.colours.name == "the site's own order");
}

TEST_CASE("an order without colours, with one twice or of another name is refused") {
    CHECK(problem_of("[]").find("strand-colours") != std::string::npos);
    CHECK(problem_of("[red, blue, red]").find("a colour twice in strand-colours; expected each colour once") !=
          std::string::npos);
    CHECK(problem_of("tia-599").find("did you mean 'tia-598'?") != std::string::npos);
}

}  // namespace spadework::site_file
