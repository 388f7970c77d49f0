#include <memory>
#include <stdexcept>

#include <zlib.h>

#include "support/routing_file.hpp"

namespace spadework::bench {

std::string file_text(const std::string& path) {
    const std::unique_ptr<gzFile_s, int (*)(gzFile)> file(gzopen(path.c_str(), "rb"), gzclose);
    if (!file) throw std::runtime_error("cannot open " + path);
    std::string text;
    std::vector<char> block(1 << 16);
    int got = 0;
    while ((got = gzread(file.get(), block.data(), static_cast<unsigned>(block.size()))) > 0) {
        text.append(block.data(), static_cast<std::size_t>(got));
    }
    if (got < 0) throw std::runtime_error("cannot read " + path);
    return text;
}

}  // namespace spadework::bench
