#include "graph/simplex_projection.hpp"

#include <algorithm>

namespace spadework::graph {

Cut counted_cut_to_fit(std::vector<double>& wishes, double total) {
    double sum = 0.0;
    for (const double wish : wishes)
        sum += std::max(wish, 0.0);
    if (sum <= total) return {};
    auto end = std::partition(wishes.begin(), wishes.end(), [](double wish) { return wish > 0.0; });
    for (;;) {
        const double cut = (sum - total) / static_cast<double>(end - wishes.begin());
        const auto new_end = std::partition(wishes.begin(), end, [cut](double wish) { return wish > cut; });
        if (new_end == end || new_end == wishes.begin()) return {cut, static_cast<std::size_t>(end - wishes.begin())};
        end = new_end;
        sum = 0.0;
        for (auto wish = wishes.begin(); wish != end; ++wish)
            sum += *wish;
    }
}

double cut_to_fit(std::vector<double>& wishes, double total) {
    return counted_cut_to_fit(wishes, total).taken;
}

}  // namespace spadework::graph
