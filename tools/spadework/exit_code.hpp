#pragma once

namespace spadework {

/// What the program tells the shell. The numbers are part of its interface and stay.
enum class ExitCode {
    ok = 0,
    internal = 1,       ///< A bug in Spadework: nothing it printed may be used.
    usage = 2,          ///< The command line is wrong.
    invalid_site = 3,   ///< The site file or another input cannot be read or has errors.
    infeasible = 4,     ///< The site is valid, and nothing that can be built meets its rules.
    cannot_write = 5,   ///< Standard output or the folder of --out cannot be written.
    not_proved = 6,     ///< A certificate does not prove what it claims.
    not_accepted = 7,   ///< Readings fail, are suspicious or missing.
    interrupted = 130,  ///< Stopped by Ctrl-C: what was printed is the best so far with its bound.
};

}  // namespace spadework
