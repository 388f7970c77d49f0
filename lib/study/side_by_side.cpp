#include "study/side_by_side.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace spadework {

void do_side_by_side(int count, int workers, const std::function<void(int job)>& job) {
    std::atomic<int> next = 0;
    std::vector<std::exception_ptr> failures(static_cast<std::size_t>(std::max(count, 0)));
    const auto work = [&] {
        for (int mine = next++; mine < count; mine = next++) {
            try {
                job(mine);
            } catch (...) {
                failures[static_cast<std::size_t>(mine)] = std::current_exception();
            }
        }
    };
    std::vector<std::jthread> helpers;
    for (int i = 1; i < std::min(workers, count); ++i)
        helpers.emplace_back(work);
    work();
    for (std::jthread& helper : helpers)
        helper.join();
    for (const std::exception_ptr& failure : failures) {
        if (failure) std::rethrow_exception(failure);
    }
}

}  // namespace spadework
