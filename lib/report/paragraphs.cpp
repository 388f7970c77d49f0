#include "report/paragraphs.hpp"

#include "report/shown_text.hpp"
#include "report/text_table.hpp"

namespace spadework::report {

std::string heading(std::string_view title) {
    return "\n" + std::string(title) + "\n" + std::string(static_cast<std::size_t>(display_width(title)), '=') + "\n";
}

std::string paragraph(std::string_view text) {
    std::string result;
    for (const std::string& line : wrapped(text, report_width))
        result += line + "\n";
    return result;
}

std::string bullets(const std::vector<std::string>& texts) {
    std::string result;
    for (const std::string& text : texts) {
        const char* lead = "- ";
        for (const std::string& line : wrapped(text, report_width - 2)) {
            result += lead + line + "\n";
            lead = "  ";
        }
    }
    return result;
}

}  // namespace spadework::report
