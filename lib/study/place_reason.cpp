#include "study/place_reason.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "comparison/money_words.hpp"

namespace spadework {

namespace {

struct Difference {
    Category category = Category::groundworks;
    Money more;  ///< Negative where it costs less.
};

std::vector<Difference> direct_differences(const Bill& dearer, const Bill& best) {
    std::vector<Difference> differences;
    for (int i = 0; i < category_count; ++i) {
        const auto category = static_cast<Category>(i);
        if (category == Category::contingency || category == Category::tax) continue;
        const Money more = dearer.total(category) - best.total(category);
        if (more != Money()) differences.push_back({category, more});
    }
    std::stable_sort(differences.begin(), differences.end(),
                     [](const Difference& a, const Difference& b) { return a.more > b.more; });
    return differences;
}

Length ordered_cable(const LayoutResult& result) {
    Length sum;
    for (const auto& [strands, metres] : result.cable_by_strands)
        sum += metres.ordered;
    return sum;
}

/// " (34.0 m more trench)", or "" where there is no difference in metres.
std::string metres_behind(const Scenario& scenario, Length more, const char* of_what) {
    if (more == Length()) return "";
    const double metres = std::abs(scenario.feet ? more.feet() : more.metres());
    return fmt::format(" ({:.1f} {} {} {})", metres, scenario.feet ? "ft" : "m", more > Length() ? "more" : "less",
                       of_what);
}

std::string lower_first(std::string text) {
    text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
    return text;
}

std::string in_words(const Scenario& scenario, const Difference& difference, const LayoutResult& dearer,
                     const LayoutResult& best) {
    const bool more = difference.more > Money();
    const Money size = more ? difference.more : Money() - difference.more;
    std::string text = fmt::format("{} {} {}", lower_first(name_of(difference.category)),
                                   money_in_words(size, scenario.currency), more ? "more" : "less");
    if (difference.category == Category::groundworks) {
        text += metres_behind(scenario, dearer.trench - best.trench, "trench");
    }
    if (difference.category == Category::cable) {
        text += metres_behind(scenario, ordered_cable(dearer) - ordered_cable(best), "cable ordered");
    }
    return text;
}

}  // namespace

std::string why_dearer(const Scenario& scenario, const LayoutResult& dearer, const LayoutResult& best) {
    std::string text;
    for (const Difference& difference : direct_differences(dearer.bill, best.bill)) {
        if (!text.empty()) text += ", ";
        text += in_words(scenario, difference, dearer, best);
    }
    return text;
}

}  // namespace spadework
