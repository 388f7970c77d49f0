#include <fmt/format.h>

#include "certificate/verification.hpp"
#include "report/figures.hpp"
#include "report/shown_text.hpp"
#include "report/text_table.hpp"

namespace spadework::certificate {

namespace {

std::string amount_or_dash(const std::optional<Money>& money, const Currency& currency) {
    return money ? report::figure(*money, currency) : "-";
}

std::string gap_of(const Verdict& verdict) {
    if (!verdict.total || !verdict.proved_bound || *verdict.total == Money()) return "-";
    const auto total = static_cast<double>(verdict.total->minor());
    return report::figure(100 * (total - static_cast<double>(verdict.proved_bound->minor())) / total, 2);
}

std::string table_of(const Scenario& scenario, const std::vector<Verdict>& verdicts) {
    using report::Align;
    const Currency& currency = scenario.currency;
    const std::string in = " (" + currency.code + ")";
    report::TextTable table({{"Layout"},
                             {"Verdict"},
                             {"Plan total\n" + in.substr(1), Align::right},
                             {"Bound claimed\n" + in.substr(1), Align::right},
                             {"Bound proved\n" + in.substr(1), Align::right},
                             {"Gap proved\n(%)", Align::right}});
    for (const Verdict& verdict : verdicts) {
        table.add({name_of(verdict.layout), verdict.proved ? "proved" : "not proved",
                   amount_or_dash(verdict.total, currency), amount_or_dash(verdict.claimed, currency),
                   amount_or_dash(verdict.proved_bound, currency), gap_of(verdict)});
    }
    return table.text();
}

}  // namespace

std::string verdicts_text(const Scenario& scenario, const std::vector<Verdict>& verdicts) {
    std::string text = report::shown(scenario.name) + "\n\n" + table_of(scenario, verdicts);
    for (const Verdict& verdict : verdicts) {
        if (verdict.proved) continue;
        text += fmt::format("\n{} is not proved:\n", name_of(verdict.layout));
        for (const std::string& fault : verdict.faults) {
            bool first = true;
            for (const std::string& line : report::wrapped(report::shown(fault), report::report_width - 2)) {
                text += (first ? "- " : "  ") + line + "\n";
                first = false;
            }
        }
    }
    return text;
}

}  // namespace spadework::certificate
