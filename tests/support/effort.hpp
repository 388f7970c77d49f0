#pragma once

namespace spadework {

// How many random sites a test tries: all of them, or one in so many where the build says so (tests/CMakeLists.txt).
// Under sanitizers it does: they slow the work down fivefold, and look for faults of memory, not for better plans.
inline constexpr int share_of_tests = SPADEWORK_TEST_SHARE;

/// So many rounds, or a share of them.
constexpr int effort(int rounds) {
    return rounds / share_of_tests > 0 ? rounds / share_of_tests : 1;
}

/// Whether the problem of this number, from 0, is among those that a test tries of a list.
constexpr bool is_tried(int number) {
    return number % share_of_tests == 0;
}

/// So many of a list of that length.
constexpr int tried_of(int length) {
    return (length + share_of_tests - 1) / share_of_tests;
}

}  // namespace spadework
