#pragma once

namespace spadework {

/// What the program tells the shell. The numbers are part of its interface and stay.
enum class ExitCode {
    ok = 0,
    internal = 1,       ///< A bug in Spadework: nothing it printed may be used.
    usage = 2,          ///< The command line is wrong.
    invalid_site = 3,   ///< The site file cannot be read or has errors.
    infeasible = 4,     ///< The site is valid, and nothing that can be built meets its rules.
    cannot_write = 5,   ///< Standard output or the folder of --out cannot be written.
    interrupted = 130,  ///< Stopped by Ctrl-C: what was printed is the best so far with its bound.
};

}  // namespace spadework
