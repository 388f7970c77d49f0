#include "certificate/plan_words.hpp"

namespace spadework::certificate {

const std::vector<std::string>& role_words() {
    static const std::vector<std::string> words = {"home-run", "trunk", "drop", "hop", "closing"};
    return words;
}

const std::vector<LayoutKind>& all_layouts() {
    static const std::vector<LayoutKind> all = {LayoutKind::home_runs, LayoutKind::trunk_one,   LayoutKind::trunk,
                                                LayoutKind::mixed,     LayoutKind::daisy_chain, LayoutKind::ring};
    return all;
}

}  // namespace spadework::certificate
