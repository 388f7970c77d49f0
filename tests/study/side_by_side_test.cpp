#include "study/side_by_side.hpp"

#include <atomic>
#include <stdexcept>
#include <string>
#include <vector>

#include <doctest/doctest.h>

using spadework::do_side_by_side;

TEST_CASE("every job is done exactly once, whatever the number of workers") {
    for (const int workers : {-1, 0, 1, 2, 7, 50}) {
        for (const int count : {0, 1, 2, 20}) {
            std::vector<std::atomic<int>> done(static_cast<std::size_t>(count));
            do_side_by_side(count, workers, [&](int job) { ++done[static_cast<std::size_t>(job)]; });
            for (const std::atomic<int>& times : done)
                CHECK(times == 1);
        }
    }
}

TEST_CASE("a negative number of jobs is none") {
    do_side_by_side(-3, 2, [](int) { FAIL("no job was expected"); });
}

TEST_CASE("one worker does the jobs in order") {
    std::vector<int> order;
    do_side_by_side(4, 1, [&](int job) { order.push_back(job); });
    CHECK(order == std::vector<int>{0, 1, 2, 3});
}

TEST_CASE("the first job's exception is thrown on after all jobs were tried") {
    for (const int workers : {1, 3}) {
        std::atomic<int> tried = 0;
        const auto job = [&](int number) {
            ++tried;
            if (number == 1 || number == 3) throw std::runtime_error("job " + std::to_string(number));
        };
        CHECK_THROWS_WITH(do_side_by_side(5, workers, job), "job 1");
        CHECK(tried == 5);
    }
}
