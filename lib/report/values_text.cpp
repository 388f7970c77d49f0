#include "report/values_text.hpp"

#include "report/shown_text.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

std::string values_text(const std::vector<site_file::ValueInForce>& values) {
    TextTable table({{"Key", Align::left, true},
                     {"Value", Align::left, true},
                     {"Unit", Align::left, true},
                     {"Where it comes from", Align::left, true}});
    for (const site_file::ValueInForce& value : values)
        table.add({shown(value.key), shown(value.value), shown(value.unit), shown(value.origin)});
    return table.text();
}

}  // namespace spadework::report
