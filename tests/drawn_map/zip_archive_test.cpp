#include "drawn_map/zip_archive.hpp"

#include <doctest/doctest.h>

#include "drawn_map/zip_bytes.hpp"

using namespace spadework::drawn_map;
using namespace spadework::drawn_map::testing;

TEST_CASE("entries of a zip archive are unpacked by their path") {
    const std::string bytes = zip_bytes({{"doc.kml", "<kml/>"}, {"a/b.txt", ""}});
    ZipArchive archive(bytes);
    CHECK(archive.problem().empty());
    CHECK(archive.entries() == std::vector<std::string>{"doc.kml", "a/b.txt"});
    CHECK(archive.unpack("doc.kml") == "<kml/>");
    CHECK(archive.unpack("a/b.txt") == "");
    CHECK_FALSE(archive.unpack("c"));
    CHECK(archive.problem() == "no such entry");
}

TEST_CASE("an archive that unpacks to far more than it holds is refused") {
    const std::string bytes = zip_bytes({{"doc.kml", std::string(3'000'000, ' ')}});
    ZipArchive archive(bytes);
    CHECK_FALSE(archive.unpack("doc.kml"));
    CHECK(archive.problem() == "it unpacks to more than 1000000 bytes");
    // A text of a map never packs so well.
    ZipLimits limits;
    limits.ratio = 2000;
    CHECK(ZipArchive(bytes, limits).unpack("doc.kml")->size() == 3'000'000);
}

TEST_CASE("all entries together have a limit, and so has their number") {
    const std::string bytes = zip_bytes({{"a", std::string(600, 'x')}, {"b", std::string(600, 'x')}});
    ZipLimits limits;
    limits.total_bytes = 1000;
    ZipArchive archive(bytes, limits);
    CHECK(archive.unpack("a"));
    CHECK_FALSE(archive.unpack("b"));
    limits.entries = 1;
    CHECK(ZipArchive(bytes, limits).problem() == "a zip archive of 2 entries, more than 1");
}

TEST_CASE("an archive that breaks off is refused, and so is an entry whose bytes were changed") {
    const std::string bytes = zip_bytes({{"a", "some text, some text, some text"}});
    for (std::size_t size = 4; size < bytes.size(); size += 7)
        CHECK_FALSE(ZipArchive(std::string_view(bytes).substr(0, size)).problem().empty());
    std::string changed = bytes;
    changed[33] = static_cast<char>(changed[33] ^ 0x10);
    ZipArchive archive(changed);
    CHECK_FALSE(archive.unpack("a"));
    CHECK_FALSE(archive.problem().empty());
}
