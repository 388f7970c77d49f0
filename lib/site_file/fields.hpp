#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "site_file/document.hpp"
#include "site_file/key.hpp"
#include "site_file/reading.hpp"
#include "units/bit_rate.hpp"
#include "units/length.hpp"
#include "units/money.hpp"
#include "units/work_time.hpp"

namespace spadework::site_file {

/// A mapping read by the table of keys. Making one reports repeated, unknown and missing keys; each getter reports a
/// value of the wrong type or out of range and then returns the default (or 0, or ""), so that reading goes on and
/// finds every problem. Each value read is noted as a value in force when `path` is not empty.
class Fields {
public:
    /// A mapping in a document. `node` may be no_node for a section that is not there: every default holds.
    Fields(Reading& reading, const Document& document, NodeId node, const Record& record, std::string path);

    [[nodiscard]] bool has(std::string_view key) const;
    /// The value behind a key, or no_node.
    [[nodiscard]] NodeId node(std::string_view key) const;
    /// Of the value behind a key; of the mapping where the key is absent.
    [[nodiscard]] SourcePosition position(std::string_view key) const;
    [[nodiscard]] SourcePosition position() const;

    std::string text(std::string_view key);
    std::string id(std::string_view key);
    bool flag(std::string_view key);
    /// Number of the word in the key's choices; -1 where it is absent without a default, or wrong.
    int choice(std::string_view key);
    /// Numbers of the words in a list of choices. Words that are not among them are reported and left out.
    std::vector<int> choices(std::string_view key);
    int whole(std::string_view key);
    std::optional<BitRate> rate(std::string_view key);
    /// In metric units (metres, hours a metre, price a metre) whatever the site's units; plain otherwise.
    double number(std::string_view key);
    Length length(std::string_view key);
    /// A length that stands under another name, read like that of the key; nothing and an error where it is none.
    std::optional<Length> length_at(std::string_view key, NodeId node);
    Money money(std::string_view key);
    UnitPrice price(std::string_view key);
    WorkTime hours(std::string_view key);
    WorkTime minutes(std::string_view key);
    Percent percent(std::string_view key);
    /// Texts of a list. Empty where the key is absent.
    std::vector<std::string> texts(std::string_view key);

    /// Items of the list behind a key, checked to be a list and long enough. Empty where it is absent.
    std::vector<NodeId> items(std::string_view key);
    /// The mapping behind a key.
    Fields record(std::string_view key);
    /// One item of a list of mappings; `label` goes into its path.
    Fields item(std::string_view key, NodeId node, std::string_view label);

    [[nodiscard]] const Document& document() const { return *document_; }
    [[nodiscard]] std::string path_of(std::string_view key) const;

private:
    [[nodiscard]] std::size_t index_of(std::string_view key) const;
    void read_keys();
    void check_required();
    void wrong(const Key& key, NodeId node, std::string_view problem = {});
    const std::string* scalar_text(const Key& key, NodeId node);
    std::optional<double> number_at(const Key& key, NodeId node);
    double fallback_number(const Key& key);
    std::optional<double> fitting(const Key& key, NodeId node, double written);
    std::optional<double> likely_at(const Key& key, NodeId node);
    [[nodiscard]] std::optional<double> replacement(const Key& key, NodeId node) const;
    [[nodiscard]] std::string range_key(const Key& key) const;
    void note(const Key& key, NodeId node, std::string value);

    Reading* reading_;
    const Document* document_;
    NodeId node_;
    const Record* record_;
    std::string path_;
    std::vector<NodeId> values_;  ///< By number of the key in the record.
};

/// What a value of this key looks like, for messages: "a number of 0 or more, in EUR a m".
std::string wanted_text(const Key& key, bool feet, std::string_view currency);

/// Whether a text can be a name: not empty, at most 10000 bytes, no control characters; line ends and tabs only where
/// `lines` allows them. Otherwise what is wrong with it.
std::string problem_of_text(std::string_view text, bool lines);

/// Whether a text can be an id: not empty, at most 200 bytes, no control characters. Otherwise what is wrong.
std::string problem_of_id(std::string_view text);

}  // namespace spadework::site_file
