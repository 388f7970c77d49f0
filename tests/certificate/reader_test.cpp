#include "certificate/reader.hpp"

#include <doctest/doctest.h>

#include "certificate/seal.hpp"
#include "certificate/support/certified_sites.hpp"
#include "certificate/writer.hpp"
#include "support/effort.hpp"

namespace spadework::certificate {

TEST_CASE("what is read back is written as it was") {
    drawing::Dice dice(921);
    int written = 0;
    for (int round = 0; round < effort(30); ++round) {
        const Scenario site = drawing::random_certified_site(dice);
        for (const LayoutKind layout :
             {LayoutKind::home_runs, LayoutKind::trunk, LayoutKind::daisy_chain, LayoutKind::ring}) {
            const auto certificate = drawing::certified(site, layout);
            if (!certificate) continue;
            const std::string text = to_json(site, *certificate);
            const ReadCertificate read = read_certificate(site, "file", text);
            CHECK(read.diagnostics.empty());
            CHECK(read.broken_seal.empty());
            REQUIRE(read.certificate);
            CHECK(to_json(site, *read.certificate) == text);
            ++written;
        }
    }
    CHECK(written > effort(60));
}

TEST_CASE("splits are read as they were written, and what is no split is told") {
    drawing::Dice dice(923);
    const Scenario site = drawing::crossings_site(dice, 3, 3);
    const auto certificate = drawing::certified(site, LayoutKind::home_runs);
    REQUIRE(certificate);
    REQUIRE(certificate->proof.routes.front()->splits.size() >= 2);
    const std::string text = to_json(site, *certificate);
    const ReadCertificate read = read_certificate(site, "file", text);
    REQUIRE(read.certificate);
    CHECK(to_json(site, *read.certificate) == text);
    const auto problem_with = [&](const std::string& choices) {
        const std::size_t begin = text.find("\"choices\": [") + 12;
        const std::string other = text.substr(0, begin) + choices + text.substr(text.find(']', begin));
        const ReadCertificate changed = read_certificate(site, "file", other);
        return changed.diagnostics.empty() ? std::string() : to_text(changed.diagnostics.front());
    };
    CHECK(problem_with("1").find("pairs of edge and 1 where it is used, else 0") != std::string::npos);
    CHECK(problem_with("99, 0").find("edges from 0 to 8, uses 0 or 1") != std::string::npos);
    CHECK(problem_with("0, 2").find("edges from 0 to 8, uses 0 or 1") != std::string::npos);
    CHECK(problem_with("0, -1") != "");
}

TEST_CASE("the checksum is FNV-1a of 64 bits") {
    // Published test values of the function's authors (Fowler, Noll, Vo).
    CHECK(checksum("") == "cbf29ce484222325");
    CHECK(checksum("a") == "af63dc4c8601ec8c");
    CHECK(checksum("foobar") == "85944171f73967e8");
}

TEST_CASE("no file cut short or with bytes changed is taken for a certificate with its seal") {
    const Scenario site = drawing::row_site(2, 40);
    const auto certificate = drawing::certified(site, LayoutKind::home_runs);
    REQUIRE(certificate);
    const std::string text = to_json(site, *certificate);
    drawing::Dice dice(922);
    for (std::size_t length = 0; length + 1 < text.size(); length += 7) {
        const ReadCertificate read = read_certificate(site, "file", text.substr(0, length));
        CHECK_FALSE(read.certificate);
        CHECK(has_errors(read.diagnostics));
    }
    for (int round = 0; round < effort(3000); ++round) {
        std::string spoilt = text;
        const auto at = static_cast<std::size_t>(dice.between(0, static_cast<std::int64_t>(text.size()) - 4));
        spoilt[at] = static_cast<char>(dice.between(0, 255));
        if (spoilt == text) continue;
        const ReadCertificate read = read_certificate(site, "file", spoilt);
        const bool refused = !read.certificate || !read.broken_seal.empty() || !read.other_site.empty();
        CHECK(refused);
    }
}

TEST_CASE("hostile ids come back as they are") {
    Scenario site = drawing::row_site(2, 40);
    site.buildings[0].id = "b\"\\\n\x1b[2J\x7f \xE2\x82\xAC";
    site.catalogue.cables[0].id = "\"seal\": \"";
    const auto certificate = drawing::certified(site, LayoutKind::home_runs);
    REQUIRE(certificate);
    const std::string text = to_json(site, *certificate);
    const ReadCertificate read = read_certificate(site, "file", text);
    for (const Diagnostic& diagnostic : read.diagnostics)
        FAIL_CHECK(to_text(diagnostic));
    REQUIRE(read.certificate);
    CHECK(read.broken_seal.empty());
}

}  // namespace spadework::certificate
