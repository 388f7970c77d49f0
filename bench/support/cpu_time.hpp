#pragma once

namespace spadework::bench {

/// Processor seconds this process has used so far, all threads together: what other work on the machine changes least.
double cpu_seconds();

/// Processor seconds of the processes it started that have ended.
double children_cpu_seconds();

}  // namespace spadework::bench
