#include "support/cpu_time.hpp"

#include <sys/resource.h>

namespace spadework::bench {

namespace {

double seconds(const timeval& time) {
    return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

double cpu_seconds_of(int who) {
    rusage usage{};
    getrusage(who, &usage);
    return seconds(usage.ru_utime) + seconds(usage.ru_stime);
}

}  // namespace

double cpu_seconds() {
    return cpu_seconds_of(RUSAGE_SELF);
}

double children_cpu_seconds() {
    return cpu_seconds_of(RUSAGE_CHILDREN);
}

}  // namespace spadework::bench
