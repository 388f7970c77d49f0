#include "spadework/output_folder.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <system_error>
#include <unistd.h>

#include <fmt/format.h>

#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

namespace fs = std::filesystem;

/// Files under their temporary names; those still there at the end are removed.
class TemporaryFiles {
public:
    ~TemporaryFiles() {
        for (const fs::path& path : paths_) {
            std::error_code ignored;
            fs::remove(path, ignored);
        }
    }
    void add(const fs::path& path) { paths_.push_back(path); }

private:
    std::vector<fs::path> paths_;
};

[[noreturn]] void fail(const fs::path& path, int error) {
    throw CannotWrite(fmt::format("cannot write {}: {}", path.string(), std::strerror(error)));
}

void make_folder(const fs::path& path) {
    std::error_code error;
    fs::create_directories(path, error);
    if (error) fail(path, error.value());
}

fs::path temporary_path(const fs::path& path) {
    return path.parent_path() / fmt::format(".{}.{}.part", path.filename().string(), getpid());
}

/// Writes what is to be `path` under its temporary name.
void write_new_file(const fs::path& path, std::string_view text) {
    const int descriptor = open(temporary_path(path).c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (descriptor < 0) fail(path, errno);
    int error = write_all(descriptor, text);
    if (close(descriptor) != 0 && error == 0) error = errno;
    if (error != 0) fail(path, error);
}

}  // namespace

OutputFolder::OutputFolder(const std::string& path) : path_(path) {
    make_folder(path_);
    if (access(path_.c_str(), W_OK | X_OK) != 0) fail(path_, errno);
}

void OutputFolder::write(const std::vector<OutputFile>& files) const {
    TemporaryFiles temporary;
    for (const OutputFile& file : files) {
        const fs::path path = path_ / file.name;
        std::error_code ignored;  // Whatever it is, writing will meet it.
        if (fs::is_directory(path, ignored)) fail(path, EISDIR);
        make_folder(path.parent_path());
        temporary.add(temporary_path(path));
        write_new_file(path, file.text);
    }
    for (const OutputFile& file : files) {
        const fs::path path = path_ / file.name;
        std::error_code error;
        fs::rename(temporary_path(path), path, error);
        if (error) fail(path, error.value());
    }
}

void OutputFolder::remove(const std::vector<std::string>& names) const {
    for (const std::string& name : names) {
        std::error_code error;
        fs::remove(path_ / name, error);
        if (error) fail(path_ / name, error.value());
    }
}

std::optional<OutputFolder> open_folder(const std::string& path) {
    if (path.empty()) return std::nullopt;
    return OutputFolder(path);
}

}  // namespace spadework
