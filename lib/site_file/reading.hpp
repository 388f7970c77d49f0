#pragma once

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "scenario/range.hpp"
#include "site_file/document.hpp"
#include "site_file/key.hpp"
#include "site_file/replacements.hpp"
#include "units/money.hpp"

namespace spadework::site_file {

/// A value that the plan will be made with, and where it came from.
struct ValueInForce {
    std::string key;     ///< "rules.slack.coil", "catalogue.cables[cable-4].price".
    std::string value;   ///< As it would be written in the site file.
    std::string unit;    ///< "m", "EUR a m"; empty for plain numbers and texts.
    std::string origin;  ///< "site.yaml:12:5" or "default: UFGS-16768A 3.1.4".
};

/// A range that stands in a site file instead of a number.
struct FoundRange {
    UncertainValue value;
    const Document* document = nullptr;
    NodeId node = no_node;
};

/// What reading a site gathers on the way, and what the top of the file says about the rest.
struct Reading {
    Diagnostics diagnostics;
    std::vector<ValueInForce> values;
    bool feet = false;
    Currency currency;
    std::size_t not_listed = 0;              ///< Problems beyond the most that are listed.
    std::vector<FoundRange> ranges;          ///< In reading order.
    const Replacements* replaced = nullptr;  ///< Numbers to read in place of those written.
    long name_comparisons_left = 200'000;    ///< Looking for the nearest known name stops when these are spent.

    void error(SourcePosition where, std::string found, std::string wanted = {}, std::string nearest = {});
    void warning(SourcePosition where, std::string found, std::string wanted = {});
    /// nearest_name within the budget above; "" once it is spent.
    std::string nearest(std::string_view written, const std::vector<std::string>& known);
};

/// "site.yaml:12:5", or the file alone where no line is known.
std::string to_text(const SourcePosition& where);

/// Ids of one list, each with its number in the list and where it was first said.
class NameIndex {
public:
    /// `what` names one of them in messages: "place".
    explicit NameIndex(std::string what) : what_(std::move(what)) {}

    /// Adds an id. An error, naming the first, when it is already there; then the new one is not added.
    bool add(const std::string& id, int number, const SourcePosition& where, Reading& reading);
    /// Another name for something already added. It never hides an id; a name given to two things finds neither.
    void add_alias(const std::string& name, int number);
    /// Number of that id or alias, or -1 and an error that names the nearest known.
    [[nodiscard]] int find(const std::string& id, const SourcePosition& where, Reading& reading) const;
    /// Number of that id or alias, or -1.
    [[nodiscard]] int number_of(const std::string& id) const;
    /// Where an id was said; nowhere when it is not among them.
    [[nodiscard]] SourcePosition position_of(const std::string& id) const;
    [[nodiscard]] bool empty() const { return names_.empty(); }
    [[nodiscard]] const std::vector<std::string>& names() const { return names_; }

private:
    struct Entry {
        int number;
        SourcePosition where;
    };
    static constexpr int ambiguous = -2;
    std::string what_;
    std::unordered_map<std::string, Entry> entries_;  ///< Only looked up, never walked.
    std::unordered_map<std::string, int> aliases_;    ///< Only looked up, never walked.
    std::vector<std::string> names_;
};

}  // namespace spadework::site_file
