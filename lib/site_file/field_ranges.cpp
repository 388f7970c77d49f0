// Numbers that are ranges, and numbers read in place of what is written.

#include <cmath>

#include <fmt/format.h>

#include "site_file/fields.hpp"
#include "site_file/plain_number.hpp"
#include "site_file/range_reader.hpp"

namespace spadework::site_file {

std::optional<double> Fields::replacement(const Key& key, NodeId node) const {
    const Replacements* replaced = reading_->replaced;
    if (replaced == nullptr) return std::nullopt;
    if (node != no_node && document_->at(node).kind == NodeKind::mapping) {
        if (const auto number = replaced->at(*document_, node)) return number;
    }
    const bool listed = !path_.empty() || record_->heading.empty();
    return listed && replaced->any_key() ? replaced->at(path_of(key.name)) : std::nullopt;
}

/// A number that is not as it is written, in metric units; nothing and an error where the key does not allow it.
std::optional<double> Fields::fitting(const Key& key, NodeId node, double written) {
    const double metric = written / site_units_per_metric(key.unit, reading_->feet);
    const bool fits = metric <= key.most && (key.above_least ? metric > key.least : metric >= key.least);
    if (fits && (key.type != ValueType::whole || metric == std::floor(metric))) return metric;
    reading_->error(document_->position(node == no_node ? node_ : node),
                    fmt::format("{} would be {}", key.name, decimal_text(written)),
                    wanted_text(key, reading_->feet, reading_->currency.code));
    return std::nullopt;
}

/// The key of a range, also where the records that hold it keep none: "map.segments[avenue].length".
std::string Fields::range_key(const Key& key) const {
    if (!path_.empty() || record_->heading.empty()) return path_of(key.name);
    std::string path(record_->heading);
    const std::size_t brackets = path.rfind("[]");
    for (const std::string_view name : {"id", "what"}) {
        const NodeId label = document_->find(node_, name);
        if (label == no_node || document_->at(label).kind != NodeKind::scalar || !path.ends_with("[]")) continue;
        path.insert(brackets + 1, document_->at(label).text);
        break;
    }
    return fmt::format("{}.{}", path, key.name);
}

std::optional<double> Fields::likely_at(const Key& key, NodeId node) {
    if (!may_be_range(key)) {
        wrong(key, node, "and a range may not stand here");
        return std::nullopt;
    }
    const auto value = read_range(*reading_, *document_, node, key, range_key(key));
    if (!value) return std::nullopt;
    const Range& range = value->range;
    if (!fitting(key, node, range.low) || !fitting(key, node, range.high)) return std::nullopt;
    reading_->ranges.push_back({*value, document_, node});
    note(key, node, in_words(*value));
    return fitting(key, node, range.likely);
}

}  // namespace spadework::site_file
