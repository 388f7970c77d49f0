#pragma once

#include <string>
#include <unordered_map>
#include <unordered_set>

namespace spadework::survey {

/// Hands out ids that a site file takes, each once.
class NamePool {
public:
    /// The wanted id, cut to what an id may be, with " (2)" and so on behind it where it is taken.
    std::string take(const std::string& wanted);

private:
    std::unordered_set<std::string> taken_;             ///< Only looked up, never walked.
    std::unordered_map<std::string, int> last_number_;  ///< Only looked up, never walked.
};

/// The text cut to so many bytes at most, at the border of a character of UTF-8.
std::string cut_short(const std::string& text, std::size_t most_bytes);

}  // namespace spadework::survey
