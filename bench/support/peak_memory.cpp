#include "support/peak_memory.hpp"

#include <sys/resource.h>

namespace spadework::bench {

double peak_memory_mb() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024.0;
}

}  // namespace spadework::bench
