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

const std::vector<std::string>& layout_ids() {
    static const std::vector<std::string> ids = [] {
        std::vector<std::string> all;
        for (const LayoutKind layout : all_layouts())
            all.emplace_back(id_of(layout));
        return all;
    }();
    return ids;
}

std::optional<LayoutKind> layout_with(std::string_view id) {
    for (const LayoutKind layout : all_layouts()) {
        if (id == id_of(layout)) return layout;
    }
    return std::nullopt;
}

}  // namespace spadework::plan_file
