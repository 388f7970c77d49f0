#include "report/compare_text.hpp"

#include <fmt/format.h>

#include "report/assumptions.hpp"
#include "report/cautions_text.hpp"
#include "report/cost_tables.hpp"
#include "report/failure_tables.hpp"
#include "report/figures.hpp"
#include "report/layouts_table.hpp"
#include "report/link_tables.hpp"
#include "report/lookup.hpp"
#include "report/metre_tables.hpp"
#include "report/paragraphs.hpp"
#include "report/plan_sentences.hpp"
#include "report/plan_tables.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

std::string title(const Scenario& scenario) {
    std::string text = paragraph(shown(scenario.name));
    if (!scenario.note.empty()) text += paragraph(shown(scenario.note));
    return text + shown(site_sentence(scenario)) + "\n";
}

const char* word_for(FindingSeverity severity) {
    switch (severity) {
        case FindingSeverity::note:
            return "Note";
        case FindingSeverity::warning:
            return "Warning";
        case FindingSeverity::error:
            return "Error";
    }
    return "Note";
}

std::string finding_sentence(const Finding& finding) {
    return shown(fmt::format("{}, {}: {}", word_for(finding.severity), finding.where, finding.what));
}

std::string findings_text(const LayoutResult& result) {
    if (result.findings.empty()) return "Every check passed without remark.\n";
    std::vector<std::string> sentences;
    for (const Finding& finding : result.findings)
        sentences.push_back(finding_sentence(finding));
    return bullets(sentences);
}

std::vector<std::string> kept_sentences(const LayoutResult& result) {
    std::vector<std::string> sentences;
    for (const std::string& sentence : result.kept)
        sentences.push_back(shown(sentence));
    return sentences;
}

}  // namespace

std::string plan_text(const Scenario& scenario, const LayoutResult& result) {
    const Plan& plan = *result.plan;
    const std::string name = name_of(result.layout);
    std::string text = heading(name + ": every cost") + cost_table(scenario, result.bill).text();
    text += heading(name + ": every metre of route") + trench_table(scenario, plan).text();
    text += paragraph(metres_sentence(scenario, result));
    text += heading(name + ": cable by size") + cable_size_table(scenario, result).text();
    if (!plan.enclosures.empty()) text += heading(name + ": enclosures") + enclosure_table(scenario, plan).text();
    text += heading(name + ": cables") + cable_table(scenario, plan).text();
    text += heading(name + ": links") + link_table(scenario, result).text();
    const std::string strands = strand_use_sentence(scenario, result);
    if (!strands.empty()) text += paragraph(shown(strands));
    if (!result.kept.empty()) text += heading(name + ": strands kept") + bullets(kept_sentences(result));
    text += paragraph(shown(cut_sentence(scenario, result)));
    text += heading(name + ": what the glass carries") + next_rate_table(scenario, result).text();
    text += paragraph(next_rate_sentence());
    text += heading(name + ": what a failure takes down") + failures_text(scenario, result);
    return text + heading(name + ": findings") + findings_text(result);
}

std::string compare_text(const Scenario& scenario, const Comparison& comparison) {
    std::string text = title(scenario);
    if (comparison.cheapest) {
        text += heading("Layouts compared") + layouts_table(scenario, comparison).text();
        for (const std::string& remark : layout_remarks(comparison))
            text += paragraph(remark);
    }
    text += heading("Verdict") + paragraph(shown(comparison.verdict));
    if (any_ruled_out(comparison)) text += heading("What rules layouts out") + ruled_out_table(comparison).text();
    if (comparison.cheapest) {
        text += plan_text(scenario, comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)]);
    }
    text += heading("Assumptions") + bullets(assumptions(scenario));
    if (!comparison.cheapest) return text;
    return text + cautions_text(scenario, *comparison.layouts[static_cast<std::size_t>(*comparison.cheapest)].plan);
}

std::string reasons_text(const Comparison& comparison) {
    std::string text;
    for (const LayoutResult& layout : comparison.layouts) {
        std::vector<std::string> notes;
        for (const std::string& note : layout.notes)
            notes.push_back(shown(note));
        if (!notes.empty()) text += heading(std::string(name_of(layout.layout)) + ": decisions") + bullets(notes);
    }
    return text;
}

}  // namespace spadework::report
