#pragma once

#include <functional>

namespace spadework {

/// Does jobs 0 to count - 1, up to `workers` at a time, each begun in that order; returns when all are done. The first
/// exception that a job throws (by job number) is thrown on. With one worker everything runs in the calling thread.
void do_side_by_side(int count, int workers, const std::function<void(int job)>& job);

}  // namespace spadework
