#include "spadework/options.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <limits>
#include <optional>
#include <thread>

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diagnostics/nearest_name.hpp"
#include "plan_file/plan_words.hpp"

namespace spadework {

namespace {

constexpr int most_threads = 1024;
constexpr double longest_seconds = 1e6;

template <class Number>
std::optional<Number> number_from(const std::string& text) {
    Number number{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return number;
}

std::uint64_t seed_from(const std::string& text) {
    const auto seed = number_from<std::uint64_t>(text);
    if (!seed) throw CLI::ValidationError("--seed", fmt::format("'{}' is not a whole number from 0 to 2^64-1", text));
    return *seed;
}

int threads_from(const std::string& text) {
    const auto threads = number_from<int>(text);
    if (!threads || *threads < 1 || *threads > most_threads) {
        throw CLI::ValidationError("--threads",
                                   fmt::format("'{}' is not a whole number from 1 to {}", text, most_threads));
    }
    return *threads;
}

double seconds_from(const std::string& text) {
    const auto seconds = number_from<double>(text);
    if (!seconds || !std::isfinite(*seconds) || *seconds <= 0 || *seconds > longest_seconds) {
        throw CLI::ValidationError("--time-limit",
                                   fmt::format("'{}' is not a number of seconds above 0 and up to 1000000", text));
    }
    return *seconds;
}

LayoutKind layout_from(const std::string& text) {
    if (const auto layout = plan_file::layout_with(text)) return *layout;
    const std::vector<std::string>& ids = plan_file::layout_ids();
    const std::string nearest = nearest_name(text, ids);
    throw CLI::ValidationError("--layouts", fmt::format("'{}' is not one of {}{}", text, fmt::join(ids, ", "),
                                                        nearest.empty() ? "" : "; did you mean '" + nearest + "'?"));
}

std::vector<LayoutKind> layouts_from(const std::string& text) {
    std::vector<LayoutKind> layouts;
    std::size_t begin = 0;
    while (begin <= text.size()) {
        const std::size_t end = std::min(text.find(',', begin), text.size());
        layouts.push_back(layout_from(text.substr(begin, end - begin)));
        begin = end + 1;
    }
    return layouts;
}

}  // namespace

CLI::App& add_command(CLI::App& program, const char* name, const char* description) {
    return *program.add_subcommand(name, description);
}

void add_flag(CLI::App& command, const char* name, bool& value, const char* description) {
    command.add_flag(name, value, description);
}

void add_text_option(CLI::App& command, const char* name, const char* type, std::string& value,
                     const char* description) {
    command.add_option(name, value, description)->type_name(type)->check([](const std::string& text) {
        return text.empty() ? "needs more than an empty text" : "";
    });
}

void add_word(CLI::App& command, const char* name, std::string& value, const char* description) {
    command.add_option(name, value, description)->type_name("");
}

void add_needed_word(CLI::App& command, const char* name, std::string& value, const char* description) {
    command.add_option(name, value, description)->type_name("")->required();
}

void add_texts_option(CLI::App& command, const char* name, const char* type, std::vector<std::string>& values,
                      const char* description) {
    command
        .add_option_function<std::vector<std::string>>(
            name,
            [&values, name](const std::vector<std::string>& texts) {
                for (const std::string& text : texts) {
                    if (text.empty()) throw CLI::ValidationError(name, "needs more than an empty text");
                    values.push_back(text);
                }
            },
            description)
        ->type_name(type)
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
}

void add_number_option(CLI::App& command, const char* name, const char* type, double& value, double least, double most,
                       const char* description) {
    command
        .add_option_function<std::string>(
            name,
            [&value, name, least, most](const std::string& text) {
                const auto number = number_from<double>(text);
                if (!number || !std::isfinite(*number) || *number < least || *number > most) {
                    throw CLI::ValidationError(name,
                                               fmt::format("'{}' is not a number from {} to {}", text, least, most));
                }
                value = *number;
            },
            description)
        ->type_name(type);
}

void add_whole_option(CLI::App& command, const char* name, const char* type, int& value, int least, int most,
                      const char* description) {
    command
        .add_option_function<std::string>(
            name,
            [&value, name, least, most](const std::string& text) {
                const auto number = number_from<int>(text);
                if (!number || *number < least || *number > most) {
                    throw CLI::ValidationError(
                        name, fmt::format("'{}' is not a whole number from {} to {}", text, least, most));
                }
                value = *number;
            },
            description)
        ->type_name(type);
}

void add_words(CLI::App& command, const char* name, std::vector<std::string>& values, const char* description) {
    command.add_option(name, values, description)->type_name("");
}

void add_volume_options(CLI::App& command, bool& quiet, bool& verbose) {
    auto* quiet_flag = command.add_flag("--quiet", quiet, "No progress, warnings or notes on standard error");
    command.add_flag("--verbose", verbose, "Also the reasons behind decisions")->excludes(quiet_flag);
}

void add_site_options(CLI::App& command, SiteOptions& options) {
    command.add_option("FILE", options.file, "The site file (YAML); '-' reads it from standard input")
        ->required()
        ->type_name("");
    add_volume_options(command, options.quiet, options.verbose);
}

void add_format_option(CLI::App& command, OutputFormat& format) {
    command
        .add_option_function<std::string>(
            "--format",
            [&format](const std::string& text) {
                if (text != "text" && text != "json") {
                    throw CLI::ValidationError("--format", fmt::format("'{}' is not one of text, json", text));
                }
                format = text == "json" ? OutputFormat::json : OutputFormat::text;
            },
            "Of what is printed: text or json (default: text)")
        ->type_name("FORMAT");
}

void add_result_options(CLI::App& command, ResultOptions& options) {
    add_format_option(command, options.format);
    add_text_option(command, "--out", "DIR", options.folder, "Also write the results to this folder, as files");
}

void add_search_options(CLI::App& command, SearchOptions& options) {
    add_random_seed_option(command, options.seed);
    add_threads_option(command, options);
    command
        .add_option_function<std::string>(
            "--time-limit", [&options](const std::string& text) { options.seconds = seconds_from(text); },
            "Of planning; then the best so far is shown with its bound (default: 30)")
        ->type_name("SECONDS");
}

void add_random_seed_option(CLI::App& command, std::uint64_t& random_seed) {
    command
        .add_option_function<std::string>(
            "--seed,--random-seed", [&random_seed](const std::string& text) { random_seed = seed_from(text); },
            "Of random draws and of searches; the same gives the same answer (default: 1)")
        ->type_name("N");
}

void add_threads_option(CLI::App& command, SearchOptions& options) {
    command
        .add_option_function<std::string>(
            "--threads", [&options](const std::string& text) { options.threads = threads_from(text); },
            "Threads to work with; the answer does not depend on it (default: one a core)")
        ->type_name("N");
}

void add_layouts_option(CLI::App& command, std::vector<LayoutKind>& layouts) {
    command
        .add_option_function<std::string>(
            "--layouts", [&layouts](const std::string& text) { layouts = layouts_from(text); },
            fmt::format("With commas between, of {} (default: all that the rules allow)",
                        fmt::join(plan_file::layout_ids(), ", ")))
        ->type_name("LIST");
}

int threads_to_use(const SearchOptions& options) {
    if (options.threads > 0) return options.threads;
    return std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
}

}  // namespace spadework
