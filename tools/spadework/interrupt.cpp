#include "spadework/interrupt.hpp"

#include <atomic>
#include <csignal>

namespace spadework {

namespace {

std::atomic<bool> noted = false;
static_assert(std::atomic<bool>::is_always_lock_free);  // A signal handler may touch it.

void note_interrupt(int /*signal*/) {
    noted = true;
}

}  // namespace

InterruptWatch::InterruptWatch() {
    struct sigaction action = {};
    action.sa_handler = note_interrupt;
    action.sa_flags = SA_RESETHAND;
    sigaction(SIGINT, &action, nullptr);
}

InterruptWatch::~InterruptWatch() {
    std::signal(SIGINT, SIG_DFL);
}

bool InterruptWatch::interrupted() {
    return noted;
}

}  // namespace spadework
