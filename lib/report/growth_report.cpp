#include "report/growth_report.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "comparison/money_words.hpp"
#include "report/cost_tables.hpp"
#include "report/figures.hpp"
#include "report/lookup.hpp"
#include "report/paragraphs.hpp"
#include "report/shown_text.hpp"

namespace spadework::report {

namespace {

using Shape = JsonWriter::Shape;

constexpr std::size_t most_places = 10;

const std::string& product_id(const Scenario& scenario, const TrunkChoice& choice) {
    return scenario.catalogue.cables[static_cast<std::size_t>(choice.product)].id;
}

/// The same of every trunk, with commas between.
template <typename Words>
std::string of_each(const GrowthPlan& plan, Words words) {
    std::string text;
    for (const TrunkChoice& choice : plan.choices)
        text += (text.empty() ? "" : ", ") + words(choice);
    return text;
}

std::string places_in_words(const Scenario& scenario, const GrowthPlan& plan) {
    return of_each(plan, [&](const TrunkChoice& choice) { return shown(place_at(scenario, choice.place).id); });
}

std::string trunks_in_words(const Scenario& scenario, const GrowthPlan& plan) {
    return of_each(plan, [&](const TrunkChoice& choice) { return shown(product_id(scenario, choice)); });
}

std::string ducts_in_words(const GrowthPlan& plan) {
    return of_each(plan, [](const TrunkChoice& choice) { return std::string(choice.spare_duct ? "yes" : "no"); });
}

std::string trunk_in_words(const Scenario& scenario, const GrowthPlan& plan) {
    return of_each(plan, [&](const TrunkChoice& choice) {
        return shown(product_id(scenario, choice)) + (choice.spare_duct ? " and a spare duct" : "");
    });
}

std::string enclosures_in_words(const Scenario& scenario, const GrowthPlan& plan) {
    if (plan.choices.size() == 1)
        return fmt::format("an enclosure at {} on {}", places_in_words(scenario, plan), trunk_in_words(scenario, plan));
    return fmt::format("{} enclosures, at {}, on {}", plan.choices.size(), places_in_words(scenario, plan),
                       trunk_in_words(scenario, plan));
}

const char* routes_in_words(const GrowthPlan& plan) {
    return plan.routes_for_growth ? "for who is likely to come" : "cheapest today";
}

std::string name_of_future(const Scenario& scenario, const FutureDrop& drop) {
    const FutureBuilding& future = scenario.growth.buildings[static_cast<std::size_t>(drop.future)];
    return shown(future.name.empty() ? future.id : future.name);
}

std::string money(Money amount, const Scenario& scenario) {
    return figure(amount, scenario.currency);
}

/// Contingency and tax on what is expected later.
Money on_top(const GrowthPlan& plan) {
    return plan.later - plan.drops - plan.trunks;
}

bool same_choice(const GrowthPlan& a, const GrowthPlan& b) {
    const auto same = [](const TrunkChoice& one, const TrunkChoice& other) {
        return one.place == other.place && one.product == other.product && one.spare_duct == other.spare_duct;
    };
    return a.routes_for_growth == b.routes_for_growth &&
           std::equal(a.choices.begin(), a.choices.end(), b.choices.begin(), b.choices.end(), same);
}

Money sum_expected(const GrowthPlan& plan) {
    Money sum;
    for (const FutureDrop& drop : plan.future)
        sum += drop.expected;
    return sum;
}

void write_plan(JsonWriter& json, const Scenario& scenario, const GrowthPlan& plan) {
    json.begin_object();
    json.key("enclosures").begin_list();
    for (const TrunkChoice& choice : plan.choices) {
        json.begin_object(Shape::one_line);
        json.key("place").text(place_at(scenario, choice.place).id);
        json.key("trunk").text(product_id(scenario, choice));
        json.key("spare_duct").flag(choice.spare_duct);
        json.key("chance_enough").number(choice.chance_enough, 9);
        json.end();
    }
    json.end();
    json.key("routes").text(plan.routes_for_growth ? "for-growth" : "cheapest-today");
    json.key("heuristic").flag(plan.choices.size() > 1);
    json.key("now").money(plan.now, scenario.currency);
    json.key("expected_drops").money(plan.drops, scenario.currency);
    json.key("expected_trunks").money(plan.trunks, scenario.currency);
    json.key("expected_later").money(plan.later, scenario.currency);
    json.key("expected_total").money(plan.total(), scenario.currency);
    json.key("chance_enough").number(plan.chance_enough(), 9);
    json.key("buildings").begin_list();
    for (const FutureDrop& drop : plan.future) {
        json.begin_object(Shape::one_line);
        json.key("building").text(scenario.growth.buildings[static_cast<std::size_t>(drop.future)].id);
        json.key("left_out").text(drop.left_out);
        json.key("cost").money(drop.cost, scenario.currency);
        json.key("expected").money(drop.expected, scenario.currency);
        json.key("through_trunk").flag(drop.through_trunk);
        json.key("opened").metres(drop.opened);
        json.end();
    }
    json.end();
    json.end();
}

}  // namespace

std::string growth_sentence(const Scenario& scenario, const GrowthStudy& study) {
    if (!study.reason.empty()) return "There is nothing to plan for: " + shown(study.reason) + ".";
    const GrowthPlan& best = study.knowing();
    const auto words = [&](Money amount) { return money_in_words(amount, scenario.currency); };
    const std::string choice = enclosures_in_words(scenario, best);
    if (same_choice(best, study.blind)) {
        return fmt::format("{} for what may come: {}. It is expected to cost {} over {} years, {} of it now.",
                           best.choices.size() > 1 ? "What is cheapest today is also what to build"
                                                   : "The trunk that is cheapest today is also the one to build",
                           choice, words(best.total()), scenario.growth.horizon_years, words(best.now));
    }
    return fmt::format(
        "For what may come, build {}{}: expected to cost {} over {} years, {} of it now. What is cheapest today, {}, "
        "costs {} now and is expected to cost {} in all: knowing of the growth is worth {}.",
        choice, best.routes_for_growth ? ", with routes laid for who is likely to come" : "", words(best.total()),
        scenario.growth.horizon_years, words(best.now), enclosures_in_words(scenario, study.blind),
        words(study.blind.now), words(study.blind.total()), words(study.value()));
}

bool has_bill_of_its_own(const GrowthStudy& study) {
    return study.reason.empty() && study.plan && study.plan->feasible() && !same_choice(study.knowing(), study.blind);
}

std::vector<std::string> growth_remarks(const Scenario& scenario, const GrowthStudy& study) {
    std::vector<std::string> remarks;
    if (!study.reason.empty()) return remarks;
    remarks.push_back(fmt::format(
        "{} with every trunk size that meets the policy, with and without a spare duct, on the routes that are "
        "cheapest "
        "today{}.",
        study.interrupted ? "The search was stopped early; the places worked out by then were judged"
                          : "Every place that may take the one enclosure was judged",
        study.replanned == 0
            ? ""
            : fmt::format("; at {} of them routes were also laid as if all with a chance of a half or "
                          "more were there, and the better plan counts",
                          study.replanned == 1 ? "the best" : fmt::format("the best {}", study.replanned))));
    if (std::any_of(study.places.begin(), study.places.end(), [](const auto& plan) { return plan.choices.size() > 1; }))
        remarks.emplace_back(
            "Plans with several enclosures are those of the comparison, each trunk sized by itself for whom it serves "
            "and "
            "who would be connected there: a heuristic, no proof that there is no better one.");
    remarks.push_back(fmt::format(
        "A building that comes is connected on its own in its year, with mobilisation, at today's prices discounted at "
        "{} % a year; closed trenches are opened again.",
        plain(scenario.growth.discount_rate.percent(), 3)));
    for (const FutureDrop& drop : study.knowing().future) {
        if (!drop.left_out.empty())
            remarks.push_back(fmt::format("{} is not connected in this study: {}.", name_of_future(scenario, drop),
                                          shown(drop.left_out)));
    }
    return remarks;
}

TextTable growth_plans_table(const Scenario& scenario, const GrowthStudy& study) {
    TextTable table({{"", Align::left, true}, {"Cheapest today", Align::right}, {"Planned for growth", Align::right}});
    const GrowthPlan& blind = study.blind;
    const GrowthPlan& knowing = study.knowing();
    const std::string code = scenario.currency.code;
    const auto row = [&](const std::string& what, Money a, Money b) {
        table.add({fmt::format("{} ({})", what, code), money(a, scenario), money(b, scenario)});
    };
    table.add({"Enclosure at", places_in_words(scenario, blind), places_in_words(scenario, knowing)});
    table.add({"Trunk", trunks_in_words(scenario, blind), trunks_in_words(scenario, knowing)});
    table.add({"Spare duct beside it", ducts_in_words(blind), ducts_in_words(knowing)});
    table.add({"Routes", routes_in_words(blind), routes_in_words(knowing)});
    row("Built now", blind.now, knowing.now);
    row("Expected: buildings that come", blind.drops, knowing.drops);
    row("Expected: further trunks", blind.trunks, knowing.trunks);
    row("Contingency and tax on these", on_top(blind), on_top(knowing));
    table.add_total(
        {fmt::format("Expected total ({})", code), money(blind.total(), scenario), money(knowing.total(), scenario)});
    table.add({"Chance that the trunk lasts (%)", figure(100 * blind.chance_enough(), 1),
               figure(100 * knowing.chance_enough(), 1)});
    return table;
}

TextTable future_drops_table(const Scenario& scenario, const GrowthStudy& study) {
    const std::string code = scenario.currency.code;
    TextTable table({{"Building that may come", Align::left, true},
                     {"Year", Align::right},
                     {"Chance\n(%)", Align::right},
                     {fmt::format("Then, cheapest\ntoday ({})", code), Align::right},
                     {fmt::format("Expected\n({})", code), Align::right},
                     {fmt::format("Then, planned\nfor growth ({})", code), Align::right},
                     {fmt::format("Expected\n({})", code), Align::right}});
    for (std::size_t f = 0; f < study.blind.future.size(); ++f) {
        const FutureDrop& blind = study.blind.future[f];
        const FutureDrop& knowing = study.knowing().future[f];
        if (!blind.left_out.empty() && !knowing.left_out.empty()) continue;
        const FutureBuilding& future = scenario.growth.buildings[f];
        table.add({name_of_future(scenario, blind), figure(std::int64_t{future.year}), figure(100 * future.chance, 1),
                   money(blind.cost, scenario), money(blind.expected, scenario), money(knowing.cost, scenario),
                   money(knowing.expected, scenario)});
    }
    if (table.empty()) return table;
    table.add_total({"Total", "", "", "", money(sum_expected(study.blind), scenario), "",
                     money(sum_expected(study.knowing()), scenario)});
    return table;
}

TextTable growth_places_table(const Scenario& scenario, const GrowthStudy& study, std::size_t most) {
    const std::string code = scenario.currency.code;
    TextTable table({{"Rank", Align::right},
                     {"Place", Align::left, true},
                     {"Trunk", Align::left, true},
                     {fmt::format("Now\n({})", code), Align::right},
                     {fmt::format("Expected\nlater ({})", code), Align::right},
                     {fmt::format("Expected\ntotal ({})", code), Align::right},
                     {fmt::format("Above the\nbest ({})", code), Align::right}});
    for (std::size_t i = 0; i < std::min(most, study.places.size()); ++i) {
        const GrowthPlan& plan = study.places[i];
        table.add({figure(static_cast<std::int64_t>(i) + 1), places_in_words(scenario, plan),
                   trunk_in_words(scenario, plan), money(plan.now, scenario), money(plan.later, scenario),
                   money(plan.total(), scenario), money(plan.total() - study.knowing().total(), scenario)});
    }
    return table;
}

std::string growth_text(const Scenario& scenario, const GrowthStudy& study) {
    std::string text = heading("Planned for growth") + paragraph(growth_sentence(scenario, study));
    if (!study.reason.empty()) return text;
    text += "\n" + growth_plans_table(scenario, study).text();
    const TextTable drops = future_drops_table(scenario, study);
    if (!drops.empty()) text += "\n" + drops.text();
    text += "\n" + growth_places_table(scenario, study, most_places).text();
    text += bullets(growth_remarks(scenario, study));
    if (!has_bill_of_its_own(study)) return text;
    return text + heading("Planned for growth: every cost now") + cost_table(scenario, study.plan->bill).text();
}

void write_growth(JsonWriter& json, const Scenario& scenario, const GrowthStudy& study) {
    json.begin_object();
    json.key("reason").text(study.reason);
    if (study.reason.empty()) {
        json.key("every_place").flag(!study.interrupted);
        json.key("value_of_knowing").money(study.value(), scenario.currency);
        json.key("cheapest_today");
        write_plan(json, scenario, study.blind);
        json.key("planned_for_growth");
        write_plan(json, scenario, study.knowing());
        json.key("places").begin_list();
        for (const GrowthPlan& plan : study.places) {
            json.begin_object(Shape::one_line);
            json.key("place").text(places_in_words(scenario, plan));
            json.key("trunk").text(trunks_in_words(scenario, plan));
            json.key("spare_duct").text(ducts_in_words(plan));
            json.key("routes").text(plan.routes_for_growth ? "for-growth" : "cheapest-today");
            json.key("now").money(plan.now, scenario.currency);
            json.key("expected_total").money(plan.total(), scenario.currency);
            json.end();
        }
        json.end();
    }
    json.end();
}

}  // namespace spadework::report
