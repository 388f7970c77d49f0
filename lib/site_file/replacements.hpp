#pragma once

// Numbers to read in place of what a site file says: how a draw, or a point of a sweep, is made of a file that was
// parsed once.

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "site_file/document.hpp"

namespace spadework::site_file {

/// In the units of the file.
class Replacements {
public:
    /// A number in place of a node.
    void put(const Document& document, NodeId node, double number) {
        const std::pair<Place, double> entry(Place(&document, node), number);
        by_node_.insert(std::upper_bound(by_node_.begin(), by_node_.end(), entry, before), entry);
    }
    /// A number in place of the value behind a key, given as it is listed among the values in force.
    void put(std::string key, double number) { by_key_.emplace_back(std::move(key), number); }

    [[nodiscard]] bool any_key() const { return !by_key_.empty(); }
    [[nodiscard]] std::optional<double> at(const Document& document, NodeId node) const {
        const std::pair<Place, double> wanted(Place(&document, node), 0.0);
        const auto found = std::lower_bound(by_node_.begin(), by_node_.end(), wanted, before);
        if (found == by_node_.end() || found->first != wanted.first) return std::nullopt;
        return found->second;
    }
    [[nodiscard]] std::optional<double> at(std::string_view key) const {
        for (const auto& [known, number] : by_key_) {
            if (known == key) return number;
        }
        return std::nullopt;
    }

private:
    using Place = std::pair<const Document*, NodeId>;
    /// An order to search by; nothing that is told depends on it.
    static bool before(const std::pair<Place, double>& a, const std::pair<Place, double>& b) {
        if (a.first.first != b.first.first) return std::less<>()(a.first.first, b.first.first);
        return a.first.second < b.first.second;
    }
    std::vector<std::pair<Place, double>> by_node_;  ///< Sorted.
    std::vector<std::pair<std::string, double>> by_key_;
};

}  // namespace spadework::site_file
