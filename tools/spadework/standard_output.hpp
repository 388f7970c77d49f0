#pragma once

#include <stdexcept>
#include <string_view>

namespace spadework {

/// Something the user asked for cannot be written. The message says what and why.
class CannotWrite : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// Whoever read our output has had enough ("spadework … | head"): not an error.
class ReaderGone {};

/// Writes all of the text to an open file, however many pieces that takes; returns 0 or the error number.
int write_all(int descriptor, std::string_view text);

/// Writes all of the text to standard output. Throws CannotWrite or ReaderGone.
void print(std::string_view text);

/// Writes the text to standard error, as far as that can be done.
void complain(std::string_view text);

/// Makes writing to a closed pipe an error that is returned instead of a signal that kills.
void ignore_closed_pipes();

}  // namespace spadework
