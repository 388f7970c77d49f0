#include "spadework/study_run.hpp"

#include "report/shown_text.hpp"
#include "spadework/interrupt.hpp"
#include "spadework/standard_output.hpp"

namespace spadework {

StudyOptions study_options(const SearchOptions& options, StudyObserver& observer) {
    return {.layouts = options.layouts,
            .seconds = options.seconds,
            .threads = threads_to_use(options),
            .seed = options.seed,
            .observer = &observer};
}

ExitCode report_bug(const std::vector<std::string>& violations) {
    complain("spadework: the result failed its own verification and is not shown. This is a bug; please report it:\n");
    for (const std::string& violation : violations)
        complain("  " + report::shown(violation) + "\n");
    return ExitCode::internal;
}

ExitCode outcome(bool feasible) {
    if (InterruptWatch::interrupted()) {
        complain("spadework: interrupted; this is the best so far with its bound\n");
        return ExitCode::interrupted;
    }
    return feasible ? ExitCode::ok : ExitCode::infeasible;
}

}  // namespace spadework
