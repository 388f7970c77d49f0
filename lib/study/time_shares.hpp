#pragma once

#include <chrono>
#include <mutex>

namespace spadework {

/// Deals out a limit of wall-clock time to jobs that run up to `workers` at a time. What a job leaves over goes to
/// those after it.
class TimeShares {
public:
    TimeShares(double seconds, int jobs, int workers);

    /// The share in seconds of the job that begins now; never negative. Called once by each job, from any thread.
    double begin_job();

private:
    using Clock = std::chrono::steady_clock;
    Clock::time_point end_;
    int jobs_left_;
    int workers_;
    std::mutex mutex_;
};

}  // namespace spadework
