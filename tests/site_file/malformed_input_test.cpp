// Every file of public parser test suites, as a site file and as a GeoJSON map: a clean error or a clean load.

#include <algorithm>
#include <vector>

#include <doctest/doctest.h>

#include "site_file/site_texts.hpp"

using namespace spadework;
using namespace spadework::site_file;
using namespace spadework::site_file::testing;

namespace {

/// Diagnostics that a person can use: each names the file, and none is empty or of two lines.
void check_clean(const LoadedSite& site) {
    CHECK(site.scenario.has_value() == !has_errors(site.diagnostics));
    for (const Diagnostic& diagnostic : site.diagnostics) {
        CHECK_FALSE(diagnostic.where.file.empty());
        CHECK_FALSE(diagnostic.found.empty());
        CHECK(to_text(diagnostic).find('\n') == std::string::npos);
    }
}

std::vector<std::filesystem::path> malformed_files() {
    std::vector<std::filesystem::path> files;
    const auto folder = shared_data_folder() / "malformed";
    if (!std::filesystem::is_directory(folder)) return files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
        if (entry.is_regular_file()) files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace

TEST_CASE("malformed and odd files end in a clean error or a clean load") {
    const auto files = malformed_files();
    if (files.empty()) {
        MESSAGE("skipped: no files in ", (shared_data_folder() / "malformed").string());
        return;
    }
    const std::string site = geojson_site("{near: [10, 50]}", "    buildings: {take: all}\n");
    for (const auto& file : files) {
        CAPTURE(file.string());
        const std::string text = text_of_file(file);
        check_clean(read_text(text));
        check_clean(read_text(site, {{"map.geojson", text}}));
        check_clean(read_text(with(small_site(), "catalogue:", "x-catalogue:") + "catalogue: other.yaml\n",
                              {{"other.yaml", text}}));
    }
}

TEST_CASE("a site of nonsense ends in an error") {
    check_clean(read_text(std::string(100'000'000, 'x')));
    check_clean(read_text(std::string(1'000'000, '\n')));
    check_clean(read_text("format: 1\n" + std::string(300'000, '&')));
    std::string keys;
    for (int i = 0; i < 20'000; ++i)
        keys += "key" + std::to_string(i) + ": 1\n";
    const LoadedSite site = read_text(keys);
    check_clean(site);
    CHECK(site.diagnostics.size() == 10'001);
    CHECK(site.diagnostics.back().found.find("more problems, not listed") != std::string::npos);
}
