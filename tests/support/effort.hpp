#pragma once

namespace spadework {

// How many random sites a test tries. Sanitizers slow the work down about fivefold, so fewer are tried under them.
#if defined(__SANITIZE_ADDRESS__)  // GCC
inline constexpr int sanitizer_share = 6;
#elif defined(__has_feature)  // Clang
#if __has_feature(address_sanitizer)
inline constexpr int sanitizer_share = 6;
#else
inline constexpr int sanitizer_share = 1;
#endif
#else
inline constexpr int sanitizer_share = 1;
#endif

/// So many rounds, or a share of them under the address sanitizer.
constexpr int effort(int rounds) {
    return rounds / sanitizer_share > 0 ? rounds / sanitizer_share : 1;
}

}  // namespace spadework
