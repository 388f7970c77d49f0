#pragma once

// Zip archives made up on the spot (PKWARE's application note, sections 4.3.7, 4.3.12 and 4.3.16).

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include <zlib.h>

namespace spadework::drawn_map::testing {

namespace zip_parts {

inline std::string little(std::uint64_t value, int bytes) {
    std::string text;
    for (int i = 0; i < bytes; ++i)
        text += static_cast<char>(value >> (8 * i) & 0xFF);
    return text;
}

inline std::string deflated(const std::string& text) {
    z_stream stream{};
    deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, -MAX_WBITS, MAX_MEM_LEVEL, Z_DEFAULT_STRATEGY);
    std::string packed(deflateBound(&stream, text.size()), '\0');
    stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(text.data()));
    stream.avail_in = static_cast<uInt>(text.size());
    stream.next_out = reinterpret_cast<Bytef*>(packed.data());
    stream.avail_out = static_cast<uInt>(packed.size());
    deflate(&stream, Z_FINISH);
    packed.resize(stream.total_out);
    deflateEnd(&stream);
    return packed;
}

}  // namespace zip_parts

/// An archive of these entries: path and text.
inline std::string zip_bytes(const std::vector<std::pair<std::string, std::string>>& entries) {
    using zip_parts::little;
    std::string archive;
    std::string directory;
    for (const auto& [path, text] : entries) {
        const std::string packed = zip_parts::deflated(text);
        const auto checksum = crc32(0, reinterpret_cast<const Bytef*>(text.data()), static_cast<uInt>(text.size()));
        const std::string facts = little(20, 2) + little(0, 2) + little(8, 2) + little(0, 2) + little(0x21, 2) +
                                  little(checksum, 4) + little(packed.size(), 4) + little(text.size(), 4) +
                                  little(path.size(), 2) + little(0, 2);
        directory += little(0x02014B50, 4) + little(20, 2) + facts + little(0, 2) + little(0, 2) + little(0, 2) +
                     little(0, 4) + little(archive.size(), 4) + path;
        archive += little(0x04034B50, 4) + facts + path + packed;
    }
    const std::size_t start = archive.size();
    return archive + directory + little(0x06054B50, 4) + little(0, 4) + little(entries.size(), 2) +
           little(entries.size(), 2) + little(directory.size(), 4) + little(start, 4) + little(0, 2);
}

}  // namespace spadework::drawn_map::testing
