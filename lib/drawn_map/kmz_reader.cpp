#include "drawn_map/kmz_reader.hpp"

#include <algorithm>
#include <set>

#include "drawn_map/kml_reader.hpp"
#include "drawn_map/plain_text.hpp"
#include "drawn_map/text_encoding.hpp"

namespace spadework::drawn_map {

namespace {

/// "layers/a.kml" for "./a.kml" seen from "layers/b.kml"; "" where it leaves the archive.
std::string entry_beside(const std::string& from, std::string address) {
    if (const std::size_t part = address.find('#'); part != std::string::npos) address.resize(part);
    std::vector<std::string> folders;
    std::string path = from.substr(0, from.rfind('/') + 1) + address;  // npos + 1 is 0.
    std::ranges::replace(path, '\\', '/');
    for (std::size_t start = 0; start <= path.size();) {
        const std::size_t end = std::min(path.find('/', start), path.size());
        const std::string step = path.substr(start, end - start);
        start = end + 1;
        if (step.empty() || step == ".") continue;
        if (step != "..") {
            folders.push_back(step);
        } else if (folders.empty()) {
            return {};
        } else {
            folders.pop_back();
        }
    }
    std::string joined;
    for (const std::string& folder : folders)
        joined += (joined.empty() ? "" : "/") + folder;
    return joined;
}

bool is_kml(const std::string& entry) {
    return small_letters(entry).ends_with(".kml");
}

class KmzReader {
public:
    KmzReader(const std::string& file, ZipArchive& archive, MapBuilder& map)
        : file_(file), archive_(archive), map_(map) {}

    void read() {
        waiting_.push_back(main_entry());
        taken_.insert(waiting_.front());
        for (std::size_t next = 0; next < waiting_.size(); ++next)
            read_entry(std::string(waiting_[next]));
        for (const std::string& entry : archive_.entries()) {
            if (taken_.contains(entry) || entry.ends_with('/')) continue;
            map_.leave_out(is_kml(entry) ? "KML files that no link leads to" : "files beside the KML");
        }
    }

private:
    std::string main_entry() const {
        const auto& entries = archive_.entries();
        if (std::ranges::find(entries, "doc.kml") != entries.end()) return "doc.kml";
        return *std::ranges::find_if(entries, is_kml);
    }

    /// Links wait until the file that holds them was read, so that features come in the order of the files.
    void read_entry(const std::string& entry) {
        const std::string name = file_ + "/" + entry;
        const std::optional<std::string> bytes = archive_.unpack(entry);
        map_.start_text(name, bytes ? std::string_view(*bytes) : std::string_view());
        if (!bytes) return map_.error(0, "an entry that cannot be unpacked: " + archive_.problem());
        Utf8Text text;
        if (!read_as_utf8(*bytes, false, text)) return map_.error(text.offset, text.problem, text.wanted);
        map_.start_text(name, text.text);
        read_kml(
            text.text, [&](const std::string& address) { return take_link(entry_beside(entry, address)); }, map_);
    }

    bool take_link(const std::string& entry) {
        if (!is_kml(entry) || std::ranges::find(archive_.entries(), entry) == archive_.entries().end()) return false;
        if (taken_.insert(entry).second) waiting_.push_back(entry);
        return true;
    }

    const std::string& file_;
    ZipArchive& archive_;
    MapBuilder& map_;
    std::vector<std::string> waiting_;
    std::set<std::string> taken_;
};

}  // namespace

void read_kmz(const std::string& file, ZipArchive& archive, MapBuilder& map) {
    KmzReader(file, archive, map).read();
}

}  // namespace spadework::drawn_map
