#include "graph/simplex_projection.hpp"

#include <algorithm>

namespace spadework::graph {

double cut_to_fit(std::vector<double>& wishes, double total) {
    double sum = 0.0;
    for (const double wish : wishes)
        sum += std::max(wish, 0.0);
    if (sum <= total) return 0.0;
    auto end = std::partition(wishes.begin(), wishes.end(), [](double wish) { return wish > 0.0; });
    for (;;) {
        const double cut = (sum - total) / static_cast<double>(end - wishes.begin());
        const auto new_end = std::partition(wishes.begin(), end, [cut](double wish) { return wish > cut; });
        if (new_end == end || new_end == wishes.begin()) return cut;
        end = new_end;
        sum = 0.0;
        for (auto wish = wishes.begin(); wish != end; ++wish)
            sum += *wish;
    }
}

}  // namespace spadework::graph
