#include "spadework/file_reading.hpp"

#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <unistd.h>

#include <fmt/format.h>

#include "report/shown_text.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

constexpr std::size_t most_bytes = std::size_t{1} << 30U;

site_file::LoadedText read_all(int descriptor) {
    std::string text;
    std::array<char, 1U << 16U> piece{};
    for (;;) {
        const ssize_t count = read(descriptor, piece.data(), piece.size());
        if (count == 0) return {std::move(text), {}};
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return {std::nullopt, std::strerror(errno)};
        text.append(piece.data(), static_cast<std::size_t>(count));
        if (text.size() > most_bytes) return {std::nullopt, "larger than 1 GiB"};
    }
}

}  // namespace

site_file::LoadedText read_file(const std::string& path) {
    if (path == "-") return read_all(STDIN_FILENO);
    const int descriptor = open(path.c_str(), O_RDONLY | O_CLOEXEC);
    if (descriptor < 0) return {std::nullopt, std::strerror(errno)};
    site_file::LoadedText loaded = read_all(descriptor);
    close(descriptor);
    return loaded;
}

bool is_there(const std::string& path) {
    std::error_code cannot_be_one;
    return std::filesystem::exists(path, cannot_be_one);
}

std::string name_of_input(const std::string& path) {
    return path == "-" ? "<standard input>" : path;
}

std::optional<std::string> text_of_input(const std::string& path) {
    site_file::LoadedText loaded = read_file(path);
    if (loaded.text) return std::move(loaded.text);
    complain(fmt::format("{}: error: cannot be read: {}\n", report::shown(name_of_input(path)), loaded.problem));
    return std::nullopt;
}

}  // namespace spadework
