#include "doubt/shards.hpp"

#include <algorithm>
#include <charconv>
#include <set>

#include <fmt/format.h>

#include "diagnostics/nearest_name.hpp"
#include "json/fields.hpp"
#include "json/json_value.hpp"
#include "plan_file/plan_words.hpp"

namespace spadework {

namespace {

using json::Fields;
using json::JsonKind;
using json::JsonValue;
using json::Problems;

constexpr json::Range any_total{no_plan, 1'000'000'000'000'000'000};
constexpr json::Range known_total{0, 1'000'000'000'000'000'000};
constexpr json::Range any_draw{0, most_draws};
constexpr json::Range any_count{0, 100'000'000};

class Reader {
public:
    explicit Reader(Problems& problems) : problems_(problems) {}

    RiskSample sample(const JsonValue& value) {
        const Fields fields(
            value,
            {"format", "version", "site", "currency", "contingency_thousandths", "random_seed", "draws", "planned_anew",
             "checked", "lengths_vary", "ranges", "drivers", "layouts", "first_draw", "totals"},
            problems_);
        const std::string format = json::text(fields["format"], problems_);
        if (fields["format"].kind == JsonKind::text && format != shard_format)
            problems_.add(fields["format"], "format '" + format + "'", fmt::format("'{}'", shard_format));
        json::whole(fields["version"], {shard_version, shard_version}, problems_);
        RiskSample sample;
        read_head(fields, sample.head);
        sample.first = json::whole(fields["first_draw"], any_draw, problems_);
        read_totals(fields["totals"], sample);
        return sample;
    }

private:
    void read_head(const Fields& fields, RiskHead& head) {
        const Fields site(fields["site"], {"name", "digest"}, problems_);
        head.site = json::text(site["name"], problems_);
        head.digest = json::text(site["digest"], problems_);
        const Fields currency(fields["currency"], {"code", "digits"}, problems_);
        head.currency.code = json::text(currency["code"], problems_);
        head.currency.minor_digits = static_cast<int>(json::whole(currency["digits"], {0, 4}, problems_));
        head.contingency_thousandths = json::whole(fields["contingency_thousandths"], any_count, problems_);
        head.random_seed = random_seed(fields["random_seed"]);
        head.draws = json::whole(fields["draws"], {1, most_draws}, problems_);
        head.replans = json::whole(fields["planned_anew"], any_count, problems_);
        head.checks = json::whole(fields["checked"], any_count, problems_);
        head.lengths_vary = json::whole(fields["lengths_vary"], {0, 1}, problems_) == 1;
        for (const JsonValue& key : json::items(fields["ranges"], problems_))
            head.keys.push_back(json::text(key, problems_));
        for (const JsonValue& driver : json::items(fields["drivers"], problems_))
            head.drivers.push_back(read_driver(driver, head.keys.size()));
        for (const JsonValue& layout : json::items(fields["layouts"], problems_))
            read_layout(layout, head);
    }

    std::uint64_t random_seed(const JsonValue& value) {
        const std::string text = json::text(value, problems_);
        std::uint64_t number = 0;
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
        if (value.kind == JsonKind::text && (error != std::errc{} || end != text.data() + text.size()))
            problems_.add(value, json::in_words(value), "a whole number from 0 to 2^64-1, as a text");
        return number;
    }

    Driver read_driver(const JsonValue& value, std::size_t ranges) {
        const Fields fields(value, {"name", "is_group", "ranges"}, problems_);
        Driver driver;
        driver.name = json::text(fields["name"], problems_);
        driver.is_group = json::whole(fields["is_group"], {0, 1}, problems_) == 1;
        const auto last = static_cast<std::int64_t>(ranges) - 1;
        for (const std::int64_t range : json::numbers(fields["ranges"], {0, last}, problems_))
            driver.values.push_back(static_cast<int>(range));
        return driver;
    }

    void read_layout(const JsonValue& value, RiskHead& head) {
        const Fields fields(
            value, {"layout", "reason", "total", "direct", "bound", "plans_made", "plans_kept", "checks"}, problems_);
        SampledLayout layout;
        layout.layout = layout_kind(fields["layout"]);
        const bool repeated = std::any_of(head.layouts.begin(), head.layouts.end(),
                                          [&](const SampledLayout& other) { return other.layout == layout.layout; });
        if (repeated && fields["layout"].kind == JsonKind::text)
            problems_.add(fields["layout"], json::in_words(fields["layout"]), "each layout once");
        layout.reason = json::text(fields["reason"], problems_);
        layout.likely_total = json::whole(fields["total"], known_total, problems_);
        layout.likely_direct = json::whole(fields["direct"], known_total, problems_);
        layout.likely_bound = json::whole(fields["bound"], known_total, problems_);
        layout.plans_made = json::whole(fields["plans_made"], any_count, problems_);
        layout.plans_kept = json::whole(fields["plans_kept"], any_count, problems_);
        for (const JsonValue& check : json::items(fields["checks"], problems_)) {
            const std::vector<std::int64_t> totals = json::numbers(check, known_total, problems_);
            if (totals.size() == 3) {
                layout.checks.push_back({totals[0], totals[1], totals[2]});
            } else {
                problems_.add(check, json::in_words(check), "the total known, the total planned and the bound");
            }
        }
        head.layouts.push_back(std::move(layout));
    }

    LayoutKind layout_kind(const JsonValue& value) {
        const std::string id = json::text(value, problems_);
        const auto layout = plan_file::layout_with(id);
        if (!layout && value.kind == JsonKind::text)
            problems_.add(value, json::in_words(value), "the id of a layout",
                          nearest_name(id, plan_file::layout_ids()));
        return layout.value_or(LayoutKind::home_runs);
    }

    void read_totals(const JsonValue& value, RiskSample& sample) {
        const std::size_t width = 2 * sample.head.layouts.size();
        for (const JsonValue& draw : json::items(value, problems_)) {
            if (problems_.too_many()) return;
            const std::vector<std::int64_t> totals = json::numbers(draw, any_total, problems_);
            if (totals.size() != width) {
                problems_.add(draw, json::in_words(draw), fmt::format("two totals a layout, {} in all", width));
                continue;
            }
            for (std::size_t i = 0; i < width; i += 2)
                sample.totals.push_back({totals[i], totals[i + 1]});
        }
        if (sample.first + sample.count() > sample.head.draws) {
            problems_.add(value, fmt::format("draws to {} of {}", sample.first + sample.count(), sample.head.draws),
                          "no more draws than the study has");
        }
    }

    Problems& problems_;
};

/// What tells two studies apart, or "" where they are one.
std::string difference(const RiskHead& a, const RiskHead& b) {
    if (a.digest != b.digest || a.site != b.site) return "another site, or another state of its files";
    if (a.draws != b.draws) return fmt::format("a study of {} draws", b.draws);
    if (a.random_seed != b.random_seed) return fmt::format("a study with random seed {}", b.random_seed);
    if (!(a == b)) return "a study with other layouts, plans or checks";
    return "";
}

std::string draws_in_words(std::int64_t first, std::int64_t last) {
    return first + 1 == last ? fmt::format("draw {}", first) : fmt::format("draws {} to {}", first, last - 1);
}

void report(const std::string& file, std::string found, std::string wanted, Diagnostics& diagnostics) {
    diagnostics.push_back({{file, 0, 0}, Severity::error, std::move(found), std::move(wanted), {}});
}

}  // namespace

ReadShard read_shard(const std::string& file, std::string_view text) {
    ReadShard read;
    const auto value = json::parse_object(file, text, "a part of a risk study", read.diagnostics);
    if (!value) return read;
    Problems problems(file);
    RiskSample sample = Reader(problems).sample(*value);
    read.diagnostics = problems.list();
    if (problems.none()) read.sample = std::move(sample);
    return read;
}

std::optional<RiskSample> merged(std::vector<NamedSample> parts, Diagnostics& diagnostics) {
    if (parts.empty()) return std::nullopt;
    const std::size_t problems_before = diagnostics.size();
    for (const NamedSample& part : parts) {
        const std::string other = difference(parts.front().sample.head, part.sample.head);
        if (!other.empty()) report(part.file, other, "a part of the study in " + parts.front().file, diagnostics);
    }
    if (diagnostics.size() != problems_before) return std::nullopt;
    std::stable_sort(parts.begin(), parts.end(),
                     [](const NamedSample& a, const NamedSample& b) { return a.sample.first < b.sample.first; });
    RiskSample whole;
    whole.head = parts.front().sample.head;
    for (const NamedSample& part : parts) {
        const std::int64_t next = whole.count();
        const std::int64_t first = part.sample.first;
        if (first < next)
            report(part.file, draws_in_words(first, std::min(next, first + part.sample.count())) + " a second time",
                   "each draw once", diagnostics);
        if (first > next)
            report(part.file, draws_in_words(next, first) + " before it are in no file", "every draw", diagnostics);
        if (diagnostics.size() != problems_before) return std::nullopt;
        whole.totals.insert(whole.totals.end(), part.sample.totals.begin(), part.sample.totals.end());
    }
    if (whole.count() < whole.head.draws) {
        report(parts.back().file, draws_in_words(whole.count(), whole.head.draws) + " are in no file", "every draw",
               diagnostics);
        return std::nullopt;
    }
    return whole;
}

}  // namespace spadework
