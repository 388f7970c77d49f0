#include <string>
#include <vector>

#include "fuzz/support/inputs.hpp"
#include "fuzz/support/promises.hpp"
#include "site_file/site_texts.hpp"

namespace spadework::fuzz {

using namespace site_file;

void try_site_file(std::string_view bytes) {
    static const std::string around_map = testing::geojson_site("{near: [10, 50]}", "    buildings: {take: all}\n");
    const bool is_map = bytes.starts_with('{');
    const std::string text(bytes);
    const LoadedSite site = is_map ? testing::read_text(around_map, {{"map.geojson", text}})
                                   : testing::read_text(text, {{"other.yaml", "cables: []\n"}});
    require_clean(site.scenario.has_value(), site.diagnostics);
    if (!site.scenario || !site.varying) return;
    // Ends of ranges are values too.
    Scenario scenario = *site.scenario;
    std::vector<double> low;
    std::vector<double> high;
    for (const UncertainValue& value : site.varying->values()) {
        low.push_back(value.range.low);
        high.push_back(value.range.high);
    }
    site.varying->set(low, scenario);
    site.varying->set(high, scenario);
}

}  // namespace spadework::fuzz
