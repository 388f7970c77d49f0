#include "study/time_shares.hpp"

#include <algorithm>

namespace spadework {

TimeShares::TimeShares(double seconds, int jobs, int workers)
    : end_(Clock::now() + std::chrono::duration_cast<Clock::duration>(std::chrono::duration<double>(seconds))),
      jobs_left_(std::max(jobs, 1)),
      workers_(std::max(workers, 1)) {}

double TimeShares::begin_job() {
    const std::scoped_lock lock(mutex_);
    const double left = std::max(0.0, std::chrono::duration<double>(end_ - Clock::now()).count());
    const int side_by_side = std::min(workers_, jobs_left_);
    const double share = left * side_by_side / jobs_left_;
    jobs_left_ = std::max(1, jobs_left_ - 1);
    return share;
}

}  // namespace spadework
