#include "site_file/fields.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include <fmt/format.h>

#include "site_file/plain_number.hpp"

namespace spadework::site_file {

namespace {

std::vector<std::string> key_names(const Record& record) {
    std::vector<std::string> names;
    for (const Key& key : record.keys)
        names.emplace_back(key.name);
    return names;
}

/// A key of digits is the end of a number written with a comma: "price: 6,2" within braces.
std::string wanted_for(const Node& written, const std::vector<std::string>& known) {
    if (!written.text.empty() && written.text.find_first_not_of("0123456789") == std::string::npos) {
        return "decimals behind a point, as in 6.2, and no commas in numbers";
    }
    return fmt::format("one of {}", fmt::join(known, ", "));
}

double power_of_ten(int digits) {
    return std::pow(10.0, digits);
}

}  // namespace

Fields::Fields(Reading& reading, const Document& document, NodeId node, const Record& record, std::string path)
    : reading_(&reading),
      document_(&document),
      node_(node),
      record_(&record),
      path_(std::move(path)),
      values_(record.keys.size(), no_node) {
    if (node == no_node) return;
    if (document.at(node).kind != NodeKind::mapping) {
        reading.error(document.position(node),
                      fmt::format("{} where {} belongs", description(document.at(node)), record.name),
                      fmt::format("a mapping with keys such as {}", fmt::join(key_names(record), ", ")));
        return;
    }
    read_keys();
    check_required();
}

void Fields::read_keys() {
    for (NodeId name = document_->at(node_).first_child; name != no_node;) {
        const NodeId value = document_->at(name).next;
        if (value == no_node) break;
        const Node& written = document_->at(name);
        const Key* key = written.kind == NodeKind::scalar ? find_key(*record_, written.text) : nullptr;
        if (key == nullptr) {
            const auto known = key_names(*record_);
            const std::string near =
                written.kind == NodeKind::scalar ? reading_->nearest(written.text, known) : std::string();
            reading_->error(document_->position(name),
                            fmt::format("unknown key {} in {}", description(written), record_->name),
                            wanted_for(written, known), near);
        } else {
            NodeId& slot = values_[static_cast<std::size_t>(key - record_->keys.data())];
            if (slot != no_node) {
                reading_->error(document_->position(name),
                                fmt::format("key '{}' a second time; the first is at {}", key->name,
                                            to_text(document_->position(slot))),
                                "each key once");
            } else {
                slot = value;
            }
        }
        name = document_->at(value).next;
    }
}

void Fields::check_required() {
    for (std::size_t i = 0; i < record_->keys.size(); ++i) {
        const Key& key = record_->keys[i];
        if (key.required && values_[i] == no_node) {
            reading_->error(position(), fmt::format("key '{}' is missing in {}", key.name, record_->name),
                            wanted_text(key, reading_->feet, reading_->currency.code));
        }
    }
}

std::size_t Fields::index_of(std::string_view key) const {
    const Key* found = find_key(*record_, key);
    if (found == nullptr) throw std::logic_error("key " + std::string(key) + " is not in the table of keys");
    return static_cast<std::size_t>(found - record_->keys.data());
}

bool Fields::has(std::string_view key) const {
    return node(key) != no_node;
}

NodeId Fields::node(std::string_view key) const {
    return values_[index_of(key)];
}

SourcePosition Fields::position(std::string_view key) const {
    const NodeId value = node(key);
    return value == no_node ? position() : document_->position(value);
}

SourcePosition Fields::position() const {
    return document_->position(node_);
}

std::string Fields::path_of(std::string_view key) const {
    if (path_.empty()) return std::string(key);
    return path_ + "." + std::string(key);
}

void Fields::wrong(const Key& key, NodeId node, std::string_view problem) {
    std::string found = fmt::format("{} is {}", key.name, description(document_->at(node)));
    if (!problem.empty()) found += fmt::format(", {}", problem);
    reading_->error(document_->position(node), std::move(found),
                    wanted_text(key, reading_->feet, reading_->currency.code));
}

void Fields::note(const Key& key, NodeId node, std::string value) {
    if (path_.empty() && record_->heading != "") return;
    const std::string origin =
        node == no_node ? "default: " + std::string(key.source) : to_text(document_->position(node));
    reading_->values.push_back(
        {path_of(key.name), std::move(value), unit_text(key.unit, reading_->feet, reading_->currency.code), origin});
}

const std::string* Fields::scalar_text(const Key& key, NodeId node) {
    const Node& written = document_->at(node);
    if (written.kind != NodeKind::scalar) {
        wrong(key, node);
        return nullptr;
    }
    return &written.text;
}

std::string Fields::text(std::string_view name) {
    const std::size_t index = index_of(name);
    const Key& key = record_->keys[index];
    const NodeId node = values_[index];
    if (node == no_node) {
        if (!key.fallback.empty()) note(key, node, std::string(key.fallback));
        return std::string(key.fallback);
    }
    const std::string* written = scalar_text(key, node);
    if (written == nullptr) return {};
    if (const std::string problem = problem_of_text(*written, key.lines); !problem.empty()) {
        wrong(key, node, problem);
        return {};
    }
    note(key, node, *written);
    return *written;
}

std::string Fields::id(std::string_view name) {
    const std::size_t index = index_of(name);
    const Key& key = record_->keys[index];
    const NodeId node = values_[index];
    if (node == no_node) return {};
    const std::string* written = scalar_text(key, node);
    if (written == nullptr) return {};
    const std::string problem = problem_of_id(*written);
    if (!problem.empty()) {
        wrong(key, node, problem);
        return {};
    }
    note(key, node, *written);
    return *written;
}

bool Fields::flag(std::string_view name) {
    const std::size_t index = index_of(name);
    const Key& key = record_->keys[index];
    const NodeId node = values_[index];
    if (node == no_node) {
        if (!key.fallback.empty()) note(key, node, std::string(key.fallback));
        return key.fallback == "true";
    }
    const Node& written = document_->at(node);
    const bool is_flag =
        written.kind == NodeKind::scalar && !written.quoted && (written.text == "true" || written.text == "false");
    if (!is_flag) {
        wrong(key, node);
        return key.fallback == "true";
    }
    note(key, node, written.text);
    return written.text == "true";
}

int Fields::choice(std::string_view name) {
    const std::size_t index = index_of(name);
    const Key& key = record_->keys[index];
    const NodeId node = values_[index];
    const std::vector<std::string> words = choice_list(key);
    const auto number_of = [&words](std::string_view word) {
        const auto found = std::find(words.begin(), words.end(), word);
        return found == words.end() ? -1 : static_cast<int>(found - words.begin());
    };
    if (node == no_node) {
        if (!key.fallback.empty()) note(key, node, std::string(key.fallback));
        return number_of(key.fallback);
    }
    const std::string* written = scalar_text(key, node);
    if (written == nullptr) return number_of(key.fallback);
    const int number = number_of(*written);
    if (number < 0) {
        reading_->error(document_->position(node), fmt::format("{} is {}", key.name, quoted(*written)),
                        wanted_text(key, reading_->feet, reading_->currency.code), reading_->nearest(*written, words));
        return number_of(key.fallback);
    }
    note(key, node, *written);
    return number;
}

std::vector<int> Fields::choices(std::string_view name) {
    const Key& key = record_->keys[index_of(name)];
    const std::vector<std::string> words = choice_list(key);
    std::vector<int> numbers;
    if (!has(name)) {
        note(key, no_node, fmt::format("[{}]", key.fallback));
        for (std::size_t i = 0; i < words.size(); ++i) {
            if (key.fallback.find(words[i]) != std::string_view::npos) numbers.push_back(static_cast<int>(i));
        }
        return numbers;
    }
    std::vector<std::string> written;
    for (const NodeId item : items(name)) {
        const std::string* text = scalar_text(key, item);
        if (text == nullptr) continue;
        written.push_back(*text);
        const auto found = std::find(words.begin(), words.end(), *text);
        if (found == words.end()) {
            reading_->error(document_->position(item), fmt::format("{} has {}", key.name, quoted(*text)),
                            wanted_text(key, false, {}), reading_->nearest(*text, words));
        } else {
            numbers.push_back(static_cast<int>(found - words.begin()));
        }
    }
    note(key, node(name), fmt::format("[{}]", fmt::join(written, ", ")));
    return numbers;
}

double Fields::fallback_number(const Key& key) {
    if (const auto number = replacement(key, no_node)) return fitting(key, no_node, *number).value_or(key.least);
    if (key.fallback.empty()) return key.least;
    const double metric = plain_number(key.fallback, Syntax::yaml).value;
    const double factor = site_units_per_metric(key.unit, reading_->feet);
    note(key, no_node, factor == 1 ? std::string(key.fallback) : fmt::format("{:.6g}", metric * factor));
    return metric;
}

/// The value in metric units, or nothing and an error.
std::optional<double> Fields::number_at(const Key& key, NodeId node) {
    const Node& written = document_->at(node);
    if (const auto number = replacement(key, node)) return fitting(key, node, *number);
    if (written.kind == NodeKind::mapping && key.type == ValueType::number) return likely_at(key, node);
    if (written.kind != NodeKind::scalar || written.quoted) {
        wrong(key, node, written.kind == NodeKind::scalar ? "a text in quotes" : "");
        return std::nullopt;
    }
    const PlainNumber number = plain_number(written.text, document_->syntax);
    if (!number.problem.empty()) {
        wrong(key, node, number.problem);
        return std::nullopt;
    }
    const double metric = number.value / site_units_per_metric(key.unit, reading_->feet);
    const bool fits = metric <= key.most && (key.above_least ? metric > key.least : metric >= key.least);
    if (!fits || (key.type == ValueType::whole && metric != std::floor(metric))) {
        wrong(key, node);
        return std::nullopt;
    }
    note(key, node, written.text);
    return metric;
}

double Fields::number(std::string_view name) {
    const std::size_t index = index_of(name);
    const Key& key = record_->keys[index];
    const NodeId node = values_[index];
    if (node == no_node) return fallback_number(key);
    const std::optional<double> value = number_at(key, node);
    if (value) return *value;
    return key.fallback.empty() ? key.least : plain_number(key.fallback, Syntax::yaml).value;
}

int Fields::whole(std::string_view name) {
    return static_cast<int>(number(name));
}

Length Fields::length(std::string_view name) {
    return Length::from_metres(number(name));
}

std::optional<Length> Fields::length_at(std::string_view name, NodeId node) {
    const auto metres = number_at(record_->keys[index_of(name)], node);
    if (!metres) return std::nullopt;
    return Length::from_metres(*metres);
}

Money Fields::money(std::string_view name) {
    return Money::from_minor(std::llround(number(name) * power_of_ten(reading_->currency.minor_digits)));
}

UnitPrice Fields::price(std::string_view name) {
    return UnitPrice::from_minor(number(name) * power_of_ten(reading_->currency.minor_digits));
}

WorkTime Fields::hours(std::string_view name) {
    return WorkTime::from_hours(number(name));
}

WorkTime Fields::minutes(std::string_view name) {
    return WorkTime::from_minutes(number(name));
}

Percent Fields::percent(std::string_view name) {
    return Percent::from_percent(number(name));
}

std::optional<BitRate> Fields::rate(std::string_view name) {
    const std::size_t index = index_of(name);
    const Key& key = record_->keys[index];
    const NodeId node = values_[index];
    if (node == no_node) return std::nullopt;
    const std::string* written = scalar_text(key, node);
    if (written == nullptr) return std::nullopt;
    const std::optional<BitRate> rate = bit_rate_from_text(*written);
    if (!rate) {
        wrong(key, node);
    } else {
        note(key, node, *written);
    }
    return rate;
}

std::vector<NodeId> Fields::items(std::string_view name) {
    const std::size_t index = index_of(name);
    const Key& key = record_->keys[index];
    const NodeId node = values_[index];
    if (node == no_node) return {};
    if (document_->at(node).kind != NodeKind::sequence) {
        wrong(key, node);
        return {};
    }
    std::vector<NodeId> found = document_->children(node);
    if (static_cast<int>(found.size()) < key.least_items) wrong(key, node, "too short");
    return found;
}

std::vector<std::string> Fields::texts(std::string_view name) {
    const Key& key = record_->keys[index_of(name)];
    std::vector<std::string> found;
    for (const NodeId item : items(name)) {
        const std::string* written = scalar_text(key, item);
        if (written != nullptr) found.push_back(*written);
    }
    if (has(name)) note(key, node(name), fmt::format("{}", fmt::join(found, ", ")));
    return found;
}

Fields Fields::record(std::string_view name) {
    const std::size_t index = index_of(name);
    const Key& key = record_->keys[index];
    const bool recorded = !path_.empty() || record_->heading == "";
    return Fields(*reading_, *document_, values_[index], *key.record, recorded ? path_of(name) : std::string());
}

Fields Fields::item(std::string_view name, NodeId node, std::string_view label) {
    const Key& key = record_->keys[index_of(name)];
    const bool recorded = !path_.empty() || record_->heading == "";
    return Fields(*reading_, *document_, node, *key.record,
                  recorded ? fmt::format("{}[{}]", path_of(name), label) : std::string());
}

}  // namespace spadework::site_file
