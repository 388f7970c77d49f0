#include "spadework/site_loading.hpp"

#include <filesystem>
#include <string>

#include <fmt/format.h>

#include "report/shown_text.hpp"
#include "spadework/complaints.hpp"
#include "spadework/file_reading.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

namespace {

/// Reads files that the site file names, from its own folder, and keeps their texts.
site_file::FileLoader loader_beside(const std::string& main_file, Texts& texts) {
    const auto folder = std::filesystem::path(main_file).parent_path();
    return [folder, &texts](const std::string& path) {
        site_file::LoadedText loaded = read_file((folder / path).string());
        if (loaded.text) texts[path] = *loaded.text;
        return loaded;
    };
}

}  // namespace

std::optional<site_file::LoadedSite> load_site(const SiteOptions& options, site_file::Varying varying) {
    const auto main = text_of_input(options.file);
    if (!main) return std::nullopt;
    const std::string name = name_of_input(options.file);
    Texts texts;
    const site_file::FileLoader loader = loader_beside(options.file == "-" ? "" : options.file, texts);
    site_file::LoadedSite site = site_file::read_site({name, *main}, loader, varying);
    texts[name] = *main;
    complain_of(site.diagnostics, texts, options.quiet);
    if (!site.scenario) {
        complain(fmt::format("{} in {}\n", tally(site.diagnostics), report::shown(name)));
        return std::nullopt;
    }
    return site;
}

}  // namespace spadework
