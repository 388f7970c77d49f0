// Every input of the fuzz targets, and every one that ever broke something, again.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <doctest/doctest.h>

#include "fuzz/support/inputs.hpp"

using namespace spadework::fuzz;

namespace {

std::vector<std::filesystem::path> files_in(const std::filesystem::path& folder) {
    std::vector<std::filesystem::path> files;
    if (!std::filesystem::is_directory(folder)) return files;
    for (const auto& entry : std::filesystem::directory_iterator(folder))
        files.push_back(entry.path());
    std::ranges::sort(files);
    return files;
}

int replay(const Target& target, const char* kind) {
    const auto folder = std::filesystem::path(SPADEWORK_SOURCE_DIR) / "tests/fuzz" / kind / target.name;
    int taken = 0;
    for (const auto& path : files_in(folder)) {
        CAPTURE(path.string());
        std::ifstream file(path, std::ios::binary);
        const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
        target.take(bytes);
        ++taken;
    }
    return taken;
}

}  // namespace

TEST_CASE("every target takes each input of its corpus as promised") {
    for (const Target& target : targets()) {
        CAPTURE(target.name);
        CHECK(replay(target, "corpus") > 0);
    }
}

TEST_CASE("what once broke a reader breaks it no more") {
    for (const Target& target : targets())
        CHECK_NOTHROW(replay(target, "crashers"));
}
