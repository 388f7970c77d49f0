#include "support/invented_scenario.hpp"

#include <stdexcept>

#include "site_file/site_file.hpp"
#include "support/invented_site.hpp"

namespace spadework::bench {

Scenario invented_scenario(const SiteSize& size, std::uint64_t seed) {
    site_file::LoadedSite site =
        site_file::read_site({"invented.yaml", invented_site(size, seed)}, [](const std::string&) {
            return site_file::LoadedText{std::nullopt, "an invented site names no other file"};
        });
    std::string problems;
    for (const Diagnostic& diagnostic : site.diagnostics)
        problems += to_text(diagnostic) + "\n";
    if (!site.scenario || !problems.empty()) throw std::logic_error(problems);
    return std::move(*site.scenario);
}

}  // namespace spadework::bench
