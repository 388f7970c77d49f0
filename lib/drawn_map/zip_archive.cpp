#include "drawn_map/zip_archive.hpp"

#include <algorithm>
#include <memory>
#include <zip.h>

#include <fmt/format.h>

namespace spadework::drawn_map {

struct ZipArchive::Handle {
    zip_t* archive = nullptr;
};

namespace {

std::string words_of(zip_error_t& error) {
    std::string words = zip_error_strerror(&error);
    zip_error_fini(&error);
    return words;
}

struct CloseFile {
    void operator()(zip_file_t* file) const { zip_fclose(file); }
};

}  // namespace

ZipArchive::ZipArchive(std::string_view bytes, ZipLimits limits) : handle_(new Handle), limits_(limits) {
    zip_error_t error;
    zip_error_init(&error);
    zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
    if (source != nullptr) handle_->archive = zip_open_from_source(source, ZIP_RDONLY, &error);
    if (handle_->archive == nullptr) {
        if (source != nullptr) zip_source_free(source);
        problem_ = "a zip archive that cannot be read: " + words_of(error);
        return;
    }
    zip_error_fini(&error);
    const auto count = static_cast<std::size_t>(std::max<zip_int64_t>(0, zip_get_num_entries(handle_->archive, 0)));
    if (count > limits_.entries) {
        problem_ = fmt::format("a zip archive of {} entries, more than {}", count, limits_.entries);
        return;
    }
    for (std::size_t i = 0; i < count; ++i) {
        const char* name = zip_get_name(handle_->archive, i, 0);
        entries_.emplace_back(name == nullptr ? "" : name);
    }
}

ZipArchive::~ZipArchive() {
    if (handle_->archive != nullptr) zip_discard(handle_->archive);
    delete handle_;
}

std::optional<std::string> ZipArchive::unpack(const std::string& entry) {
    const auto refuse = [&](std::string why) {
        problem_ = std::move(why);
        return std::nullopt;
    };
    const auto found = std::ranges::find(entries_, entry);
    if (found == entries_.end()) return refuse("no such entry");
    const auto number = static_cast<zip_uint64_t>(found - entries_.begin());
    zip_stat_t facts;
    zip_stat_init(&facts);
    if (zip_stat_index(handle_->archive, number, 0, &facts) != 0) return refuse(zip_strerror(handle_->archive));
    const std::unique_ptr<zip_file_t, CloseFile> file(zip_fopen_index(handle_->archive, number, 0));
    if (!file) return refuse(zip_strerror(handle_->archive));
    // The sizes that an archive claims are not believed: what comes out of it is counted.
    const std::uint64_t by_ratio = std::max(limits_.always_allowed, facts.comp_size * limits_.ratio);
    const std::uint64_t most = std::min(limits_.total_bytes - unpacked_bytes_, by_ratio);
    std::string text;
    constexpr std::size_t chunk = 1 << 16;
    for (;;) {
        const std::size_t before = text.size();
        text.resize(before + chunk);
        const zip_int64_t got = zip_fread(file.get(), text.data() + before, chunk);
        if (got < 0) return refuse(zip_file_strerror(file.get()));
        text.resize(before + static_cast<std::size_t>(got));
        if (text.size() > most) return refuse(fmt::format("it unpacks to more than {} bytes", most));
        if (got > 0) continue;
        unpacked_bytes_ += text.size();
        return text;
    }
}

}  // namespace spadework::drawn_map
