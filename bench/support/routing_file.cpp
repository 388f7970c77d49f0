#include "support/routing_file.hpp"

#include <algorithm>
#include <optional>
#include <sstream>

#include <fmt/format.h>

namespace spadework::bench {

namespace {

using graph::VertexId;

constexpr std::size_t kMostErrors = 20;
constexpr std::int64_t kMostVertices = 50'000'000;

/// A file's content before it is scaled to whole units.
struct RawEdge {
    std::int64_t tail = 0;
    std::int64_t head = 0;
    Decimal length;
    Decimal opening_rate;
};
struct RawTerminal {
    std::int64_t at = 0;
    Decimal price;
};
struct RawCase {
    std::int64_t vertex_count = -1;
    std::int64_t declared_edges = -1;
    std::int64_t declared_terminals = -1;
    std::int64_t root = -1;
    std::vector<RawEdge> edges;
    std::vector<RawTerminal> terminals;
    std::vector<std::int64_t> places;  ///< Where a free root may be.
};

std::vector<std::string> words_of(const std::string& line) {
    std::istringstream stream(line);
    std::vector<std::string> words;
    for (std::string word; stream >> word;)
        words.push_back(word);
    return words;
}

/// Reads line by line and keeps what is wrong.
class Reader {
public:
    explicit Reader(std::vector<std::string>& errors) : errors_(errors) {}

    template <class OnLine>
    void each_line(const std::string& text, OnLine on_line) {
        std::istringstream stream(text);
        std::string line;
        for (line_ = 1; std::getline(stream, line); ++line_) {
            const std::vector<std::string> words = words_of(line);
            if (!words.empty()) on_line(words);
        }
        line_ = 0;
    }

    void complain(const std::string& message) {
        if (errors_.size() == kMostErrors) errors_.push_back("more problems are not listed");
        if (errors_.size() > kMostErrors) return;
        errors_.push_back(line_ > 0 ? fmt::format("line {}: {}", line_, message) : message);
    }

    bool has(const std::vector<std::string>& words, std::size_t count) {
        if (words.size() >= count) return true;
        complain(fmt::format("'{}' needs {} values, has {}", words[0], count - 1, words.size() - 1));
        return false;
    }

    Decimal number(const std::string& word) {
        const auto read = read_decimal(word);
        if (!read) complain(fmt::format("'{}' is not a number of 0 or more with up to 18 digits", word));
        return read.value_or(Decimal{});
    }

    std::int64_t whole(const std::string& word) {
        const auto read = read_decimal(word);
        const auto value = read ? scaled(*read, 0) : std::nullopt;
        if (!value) complain(fmt::format("'{}' is not a whole number of 0 or more", word));
        return value.value_or(0);
    }

private:
    std::vector<std::string>& errors_;
    std::size_t line_ = 0;
};

RawCase read_site_map(const std::string& text, Reader& reader) {
    RawCase raw;
    reader.each_line(text, [&](const std::vector<std::string>& words) {
        if (words[0] == "CT" && reader.has(words, 5)) {
            raw.vertex_count = reader.whole(words[1]);
            raw.declared_edges = reader.whole(words[2]);
            raw.root = reader.whole(words[3]);
            raw.declared_terminals = reader.whole(words[4]);
        } else if (words[0] == "n" && reader.has(words, 5)) {
            if (words[4] == "0" || words[4] == "1") raw.places.push_back(reader.whole(words[1]));
        } else if (words[0] == "e" && reader.has(words, 5)) {
            raw.edges.push_back(
                {reader.whole(words[1]), reader.whole(words[2]), reader.number(words[3]), reader.number(words[4])});
        } else if (words[0] == "t" && reader.has(words, 3)) {
            raw.terminals.push_back({reader.whole(words[1]), reader.number(words[2])});
        } else if (words[0] != "CT" && words[0] != "n" && words[0] != "e" && words[0] != "t") {
            reader.complain(fmt::format("unknown line '{}'", words[0]));
        }
    });
    return raw;
}

/// Keywords of an STP file are written in large or small letters.
std::string in_small_letters(std::string word) {
    for (char& c : word)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return word;
}

RawCase read_stp(const std::string& text, const ReadingChoice& choice, Reader& reader) {
    RawCase raw;
    std::string section;
    reader.each_line(text, [&](const std::vector<std::string>& words) {
        const std::string key = in_small_letters(words[0]);
        if (key == "section" && reader.has(words, 2)) {
            section = in_small_letters(words[1]);
        } else if (section == "graph" && key == "nodes" && reader.has(words, 2)) {
            raw.vertex_count = reader.whole(words[1]) + 1;  // Numbered from 1; vertex 0 stays alone.
        } else if (section == "graph" && key == "edges" && reader.has(words, 2)) {
            raw.declared_edges = reader.whole(words[1]);
        } else if (section == "graph" && key == "e" && reader.has(words, 4)) {
            raw.edges.push_back(
                {reader.whole(words[1]), reader.whole(words[2]), reader.number(words[3]), choice.trench_price});
        } else if (section == "terminals" && key == "terminals" && reader.has(words, 2)) {
            raw.declared_terminals = reader.whole(words[1]);
        } else if (section == "terminals" && key == "t" && reader.has(words, 2)) {
            raw.terminals.push_back({reader.whole(words[1]), choice.cable_price});
        }
    });
    if (!raw.terminals.empty()) raw.root = raw.terminals.front().at;
    return raw;
}

void check_counts(const RawCase& raw, Reader& reader) {
    if (raw.vertex_count < 0) return reader.complain("the file does not say how many nodes there are");
    if (raw.vertex_count > kMostVertices) return reader.complain("more than 50,000,000 nodes");
    const auto count_differs = [&](std::int64_t declared, std::size_t found, const char* what) {
        if (declared >= 0 && declared != static_cast<std::int64_t>(found)) {
            reader.complain(fmt::format("{} {} are announced, {} are listed", declared, what, found));
        }
    };
    count_differs(raw.declared_edges, raw.edges.size(), "edges");
    count_differs(raw.declared_terminals, raw.terminals.size(), "terminals");
    const auto missing = [&](std::int64_t v) { return v < 0 || v >= raw.vertex_count; };
    for (const RawEdge& e : raw.edges) {
        if (missing(e.tail) || missing(e.head)) {
            reader.complain(fmt::format("edge {} {} names a node that does not exist", e.tail, e.head));
        }
    }
    for (const RawTerminal& t : raw.terminals) {
        if (missing(t.at)) reader.complain(fmt::format("terminal {} does not exist", t.at));
    }
    for (const std::int64_t v : raw.places) {
        if (missing(v)) reader.complain(fmt::format("node {} is beyond the announced number", v));
    }
    if (missing(raw.root)) reader.complain("the root does not exist");
}

/// Decimal places that make every figure whole: of lengths, and of what multiplies them.
struct Places {
    int length = 0;
    int rate = 0;
};

Places places_needed(const RawCase& raw, const ReadingChoice& choice) {
    Places places;
    for (const RawEdge& e : raw.edges) {
        places.length = std::max(places.length, e.length.places);
        places.rate = std::max(places.rate, e.opening_rate.places);
    }
    for (const RawTerminal& t : raw.terminals)
        places.rate = std::max(places.rate, t.price.places);
    places.rate = std::max(places.rate, choice.site_cost.places - places.length);
    return places;
}

class Scaler {
public:
    Scaler(const RawCase& raw, const ReadingChoice& choice, Reader& reader)
        : raw_(raw), choice_(choice), reader_(reader), places_(places_needed(raw, choice)) {}

    RoutingCase write() {
        RoutingCase result;
        graph::SharedCostProblem& problem = result.problem;
        problem.vertex_count = static_cast<VertexId>(raw_.vertex_count);
        for (const RawEdge& e : raw_.edges) {
            const std::int64_t length = fitted(e.length, places_.length);
            std::int64_t opening = 0;
            if (__builtin_mul_overflow(length, fitted(e.opening_rate, places_.rate), &opening)) too_large();
            problem.edges.push_back({static_cast<VertexId>(e.tail), static_cast<VertexId>(e.head), opening, length, 0});
        }
        write_demands(problem);
        write_roots(problem);
        result.units_per_cost = fitted(Decimal{1, 0}, places_.length + places_.rate);
        return result;
    }

private:
    void write_demands(graph::SharedCostProblem& problem) {
        bool root_listed = false;
        for (const RawTerminal& t : raw_.terminals) {
            root_listed = root_listed || t.at == raw_.root;
            if (t.at == raw_.root && !choice_.free_root) continue;
            problem.demands.push_back({static_cast<VertexId>(t.at), fitted(t.price, places_.rate), 0});
        }
        if (choice_.free_root && !root_listed) {
            problem.demands.push_back({static_cast<VertexId>(raw_.root), fitted(Decimal{1, 0}, places_.rate), 0});
        }
    }

    void write_roots(graph::SharedCostProblem& problem) {
        if (!choice_.free_root) {
            problem.roots.push_back({static_cast<VertexId>(raw_.root), 0});
            return;
        }
        const std::int64_t cost = fitted(choice_.site_cost, places_.length + places_.rate);
        for (const std::int64_t v : raw_.places)
            problem.roots.push_back({static_cast<VertexId>(v), cost});
    }

    std::int64_t fitted(const Decimal& number, int places) {
        const auto value = scaled(number, places);
        if (!value) too_large();
        return value.value_or(0);
    }

    void too_large() {
        if (!complained_) reader_.complain("figures have too many digits to be kept exact in 64 bits");
        complained_ = true;
    }

    const RawCase& raw_;
    const ReadingChoice& choice_;
    Reader& reader_;
    Places places_;
    bool complained_ = false;
};

}  // namespace

RoutingCase read_routing_case(const std::string& text, const ReadingChoice& choice) {
    std::vector<std::string> errors;
    Reader reader(errors);
    const std::string first_line = text.substr(0, text.find('\n'));
    const std::vector<std::string> first_words = words_of(first_line);
    const bool site_map = !first_words.empty() && first_words[0] == "CT";
    const bool stp = !first_words.empty() && in_small_letters(first_words[0]) == "33d32945";
    RoutingCase result;
    if (!site_map && !stp) {
        result.errors.push_back("line 1: neither an STP file (33D32945 ...) nor a site map (CT ...)");
        return result;
    }
    const RawCase raw = site_map ? read_site_map(text, reader) : read_stp(text, choice, reader);
    check_counts(raw, reader);
    if (choice.free_root && raw.places.empty())
        reader.complain("a free root needs a site map with nodes of type 0 or 1");
    if (errors.empty()) result = Scaler(raw, choice, reader).write();
    result.errors = std::move(errors);
    return result;
}

}  // namespace spadework::bench
