#include "site_file/reading.hpp"

#include "diagnostics/nearest_name.hpp"

namespace spadework::site_file {

namespace {

constexpr std::size_t most_problems_listed = 10'000;

}  // namespace

void Reading::error(SourcePosition where, std::string found, std::string wanted, std::string nearest) {
    if (diagnostics.size() >= most_problems_listed) {
        ++not_listed;
        return;
    }
    diagnostics.push_back({std::move(where), Severity::error, std::move(found), std::move(wanted), std::move(nearest)});
}

void Reading::warning(SourcePosition where, std::string found, std::string wanted) {
    if (diagnostics.size() >= most_problems_listed) {
        ++not_listed;
        return;
    }
    diagnostics.push_back({std::move(where), Severity::warning, std::move(found), std::move(wanted), {}});
}

std::string Reading::nearest(std::string_view written, const std::vector<std::string>& known) {
    const auto comparisons = static_cast<long>(known.size());
    if (comparisons > name_comparisons_left) return {};
    name_comparisons_left -= comparisons;
    return nearest_name(written, known);
}

std::string to_text(const SourcePosition& where) {
    if (where.line <= 0) return where.file;
    return where.file + ":" + std::to_string(where.line) + ":" + std::to_string(where.column);
}

bool NameIndex::add(const std::string& id, int number, const SourcePosition& where, Reading& reading) {
    const auto [entry, added] = entries_.try_emplace(id, Entry{number, where});
    if (!added) {
        reading.error(where, what_ + " " + quoted(id) + " is there already, at " + to_text(entry->second.where),
                      "an id of its own");
        return false;
    }
    names_.push_back(id);
    return true;
}

void NameIndex::add_alias(const std::string& name, int number) {
    const auto [entry, added] = aliases_.try_emplace(name, number);
    if (!added && entry->second != number) entry->second = ambiguous;
}

int NameIndex::find(const std::string& id, const SourcePosition& where, Reading& reading) const {
    const int number = number_of(id);
    if (number >= 0) return number;
    const auto alias = aliases_.find(id);
    if (alias != aliases_.end() && alias->second == ambiguous) {
        reading.error(where, "more than one " + what_ + " is named " + quoted(id), "the id of one of them");
    } else {
        reading.error(where, "no " + what_ + " " + quoted(id), "the id of a " + what_, reading.nearest(id, names_));
    }
    return -1;
}

SourcePosition NameIndex::position_of(const std::string& id) const {
    const auto entry = entries_.find(id);
    return entry == entries_.end() ? SourcePosition() : entry->second.where;
}

int NameIndex::number_of(const std::string& id) const {
    const auto entry = entries_.find(id);
    if (entry != entries_.end()) return entry->second.number;
    const auto alias = aliases_.find(id);
    return alias == aliases_.end() || alias->second == ambiguous ? -1 : alias->second;
}

}  // namespace spadework::site_file
