#include "diagnostics/nearest_name.hpp"

#include <algorithm>

namespace spadework {

int edit_distance(std::string_view a, std::string_view b) {
    constexpr std::size_t longest = 64;
    a = a.substr(0, longest);
    b = b.substr(0, longest);
    std::vector<std::vector<int>> cost(a.size() + 1, std::vector<int>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i)
        cost[i][0] = static_cast<int>(i);
    for (std::size_t j = 0; j <= b.size(); ++j)
        cost[0][j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const int substitution = cost[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, substitution});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
        }
    }
    return cost[a.size()][b.size()];
}

std::string nearest_name(std::string_view written, const std::vector<std::string>& known) {
    std::string best;
    const int length = static_cast<int>(std::min<std::size_t>(written.size(), 64));
    int best_distance = std::min(length, std::max(1, length / 3) + 1);
    for (const std::string& name : known) {
        const int distance = edit_distance(written, name);
        if (distance < best_distance) {
            best_distance = distance;
            best = name;
        }
    }
    return best;
}

}  // namespace spadework
