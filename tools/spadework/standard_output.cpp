#include "spadework/standard_output.hpp"

#include <cerrno>
#include <csignal>
#include <cstring>
#include <poll.h>
#include <unistd.h>

#include <fmt/format.h>

namespace spadework {

int write_all(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const ssize_t written = write(descriptor, text.data(), text.size());
        if (written >= 0) {
            text.remove_prefix(static_cast<std::size_t>(written));
        } else if (errno == EAGAIN) {
            pollfd writable{.fd = descriptor, .events = POLLOUT, .revents = 0};
            poll(&writable, 1, -1);
        } else if (errno != EINTR) {
            return errno;
        }
    }
    return 0;
}

void print(std::string_view text) {
    const int error = write_all(STDOUT_FILENO, text);
    if (error == EPIPE) throw ReaderGone{};
    if (error != 0) throw CannotWrite(fmt::format("cannot write to standard output: {}", std::strerror(error)));
}

void complain(std::string_view text) {
    write_all(STDERR_FILENO, text);
}

void ignore_closed_pipes() {
    std::signal(SIGPIPE, SIG_IGN);
}

}  // namespace spadework
