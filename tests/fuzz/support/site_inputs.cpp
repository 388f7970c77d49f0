#include <string>

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
}

}  // namespace spadework::fuzz
