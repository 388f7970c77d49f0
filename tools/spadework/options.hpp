#pragma once

// The options that commands share, in groups: a command takes the groups it has a use for.

#include <cstdint>
#include <string>
#include <vector>

#include "layout/plan.hpp"

namespace CLI {
class App;  // Seen in full by options.cpp and main.cpp alone: it takes long to compile.
}

namespace spadework {

CLI::App& add_command(CLI::App& program, const char* name, const char* description);
void add_flag(CLI::App& command, const char* name, bool& value, const char* description);
/// An option with a text behind it that must not be empty; `type` stands for the text in --help.
void add_text_option(CLI::App& command, const char* name, const char* type, std::string& value,
                     const char* description);
/// A word without a name before it that must be given.
void add_needed_word(CLI::App& command, const char* name, std::string& value, const char* description);
/// A word without a name before it. `value` stays empty where it is not given.
void add_word(CLI::App& command, const char* name, std::string& value, const char* description);

/// A text option that may be given several times.
void add_texts_option(CLI::App& command, const char* name, const char* type, std::vector<std::string>& values,
                      const char* description);
/// A number of at least `least` and at most `most`; `value` stays as it is where the option is not given.
void add_number_option(CLI::App& command, const char* name, const char* type, double& value, double least, double most,
                       const char* description);
/// The same for a whole number.
void add_whole_option(CLI::App& command, const char* name, const char* type, int& value, int least, int most,
                      const char* description);
/// Words without a name before them, as many as are given.
void add_words(CLI::App& command, const char* name, std::vector<std::string>& values, const char* description);
/// --quiet and --verbose, of which one at most may be given.
void add_volume_options(CLI::App& command, bool& quiet, bool& verbose);

enum class OutputFormat { text, json };

/// What to read and how much to say about it.
struct SiteOptions {
    std::string file;  ///< "-" reads standard input.
    bool quiet = false;
    bool verbose = false;
};

/// Where results go.
struct ResultOptions {
    OutputFormat format = OutputFormat::text;
    std::string folder;  ///< Of --out; empty when not given.
};

/// How the best layouts are looked for.
struct SearchOptions {
    std::vector<LayoutKind> layouts;  ///< Empty: all that the rules allow.
    std::uint64_t seed = 1;
    int threads = 0;  ///< 0: all cores.
    double seconds = 30;
};

void add_site_options(CLI::App& command, SiteOptions& options);
void add_format_option(CLI::App& command, OutputFormat& format);
void add_result_options(CLI::App& command, ResultOptions& options);
void add_search_options(CLI::App& command, SearchOptions& options);
/// --threads alone.
void add_threads_option(CLI::App& command, SearchOptions& options);
/// The random seed alone.
void add_random_seed_option(CLI::App& command, std::uint64_t& random_seed);
void add_layouts_option(CLI::App& command, std::vector<LayoutKind>& layouts);

/// The number of threads to use: as asked for, or one for each core.
int threads_to_use(const SearchOptions& options);

}  // namespace spadework
