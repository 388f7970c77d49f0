#pragma once

// Small sites with ranges, for tests of doubt.

#include <stdexcept>
#include <string>

#include "site_file/site_file.hpp"
#include "site_file/site_texts.hpp"

namespace spadework::testing {

/// A shipped scenario, kept open for other values.
inline site_file::LoadedSite shipped(const std::string& name) {
    using namespace site_file::testing;
    const auto folder = scenarios_folder();
    site_file::LoadedSite site =
        site_file::read_site({name, text_of_file(folder / name)}, loader_in(folder), site_file::Varying::always);
    if (!site.scenario) throw std::runtime_error(name + ": " + said(site));
    return site;
}

/// Lakeside with a passage of its text put in place of another.
inline site_file::LoadedSite lakeside(const std::vector<std::pair<std::string, std::string>>& changes = {}) {
    using namespace site_file::testing;
    std::string text = text_of_file(scenarios_folder() / "lakeside.yaml");
    for (const auto& [passage, replacement] : changes)
        text = with(text, passage, replacement);
    site_file::LoadedSite site =
        site_file::read_site({"lakeside.yaml", text}, loader_of({}), site_file::Varying::always);
    if (!site.scenario) throw std::runtime_error(said(site));
    return site;
}

/// Lakeside with ranges of prices: digging, cable, and a switch that chains need.
inline site_file::LoadedSite open_lakeside() {
    return lakeside({{"groundworks-rate: 62", "groundworks-rate: {low: 50, likely: 62, high: 90}"},
                     {"strands: 4, price: 0.95", "strands: 4, price: {low: 0.7, likely: 0.95, high: 2, group: cable}"},
                     {"strands: 12, price: 1.30", "strands: 12, price: {low: 1, likely: 1.3, high: 2.8, group: cable}"},
                     {"price: 445", "price: {low: 250, high: 460}"}});
}

}  // namespace spadework::testing
