#include "plan_file/plan_words.hpp"

#include "plan_file/as_built.hpp"

namespace spadework::plan_file {

const std::vector<std::string>& role_words() {
    static const std::vector<std::string> words = {"home-run", "trunk", "drop", "hop", "closing"};
    return words;
}

const std::vector<std::string>& purpose_words() {
    static const std::vector<std::string> words = {"in-use", "spare", "headroom", "beyond-need"};
    return words;
}

const std::vector<std::string>& holder_words() {
    static const std::vector<std::string> words = {"hub-panel", "enclosure", "outlet", "stored", "spliced"};
    return words;
}

const std::vector<std::string>& verdict_words() {
    static const std::vector<std::string> words = {"swapped",           "fail",    "wrong-length", "too-good",
                                                   "directions-differ", "missing", "not-in-plan",  "pass"};
    return words;
}

const std::vector<LayoutKind>& all_layouts() {
    static const std::vector<LayoutKind> all = {LayoutKind::home_runs, LayoutKind::trunk_one,   LayoutKind::trunk,
                                                LayoutKind::mixed,     LayoutKind::daisy_chain, LayoutKind::ring};
    return all;
}

}  // namespace spadework::plan_file
