#pragma once

namespace spadework::bench {

/// The most memory this process has held so far, in MiB.
double peak_memory_mb();

}  // namespace spadework::bench
