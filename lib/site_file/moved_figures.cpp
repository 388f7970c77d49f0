#include "site_file/moved_figures.hpp"

#include <algorithm>
#include <cmath>

#include "scenario/lookup.hpp"

namespace spadework::site_file {

std::int64_t MovedFigures::Figure::more_at(std::span<const double> numbers) const {
    std::int64_t more = 0;
    for (const Move& move : moves)
        more += std::llround(move.slope * (numbers[move.range] - move.likely));
    return more;
}

/// The same places, segments and grounds, whatever their figures.
bool MovedFigures::same_map(const Scenario& a, const Scenario& b) {
    const auto same_segment = [](const Segment& s, const Segment& t) {
        return s.id == t.id && s.from == t.from && s.to == t.to && s.ground == t.ground && s.ban == t.ban &&
               s.charges.size() == t.charges.size();
    };
    const auto same_ground = [](const Ground& g, const Ground& h) {
        return g.id == h.id && g.methods.size() == h.methods.size();
    };
    return std::ranges::equal(a.places, b.places, {}, &Place::id, &Place::id) &&
           std::ranges::equal(a.segments, b.segments, same_segment) &&
           std::ranges::equal(a.grounds, b.grounds, same_ground) &&
           std::ranges::equal(a.buildings, b.buildings, {}, &Building::id, &Building::id);
}

std::vector<MovedFigures::Difference> MovedFigures::differences(const Scenario& before, const Scenario& after) {
    std::vector<Difference> found;
    const auto compare = [&](Kind kind, const std::string& id, std::size_t number, std::int64_t a, std::int64_t b) {
        if (a != b) found.push_back({kind, id, number, a, b});
    };
    for (std::size_t s = 0; s < before.segments.size(); ++s) {
        const Segment& a = before.segments[s];
        const Segment& b = after.segments[s];
        compare(Kind::length, a.id, 0, a.length.millimetres(), b.length.millimetres());
        for (std::size_t c = 0; c < a.charges.size(); ++c)
            compare(Kind::charge, a.id, c, a.charges[c].amount.minor(), b.charges[c].amount.minor());
    }
    for (std::size_t p = 0; p < before.places.size(); ++p) {
        compare(Kind::enclosure, before.places[p].id, 0, before.places[p].enclosure_extra.minor(),
                after.places[p].enclosure_extra.minor());
    }
    // An overlay makes all methods of a ground dearer by the same.
    for (std::size_t g = 0; g < before.grounds.size(); ++g) {
        if (before.grounds[g].methods.empty()) continue;
        compare(Kind::material, {}, g, before.grounds[g].methods.front().material_per_metre.thousandths(),
                after.grounds[g].methods.front().material_per_metre.thousandths());
    }
    return found;
}

MovedFigures::Figure& MovedFigures::figure_of(const Difference& difference) {
    const auto known = std::ranges::find_if(figures_, [&](const Figure& figure) {
        return figure.kind == difference.kind && figure.id == difference.id && figure.number == difference.number;
    });
    if (known != figures_.end()) return *known;
    return figures_.emplace_back(Figure{difference.kind, difference.id, difference.number, difference.before, {}});
}

bool MovedFigures::learn(std::size_t range, double likely, const Scenario& site, double value, const Scenario& moved) {
    if (!same_map(site, moved)) return false;
    for (const Difference& difference : differences(site, moved)) {
        const double slope = static_cast<double>(difference.after - difference.before) / (value - likely);
        figure_of(difference).moves.push_back({range, likely, slope});
    }
    return true;
}

bool MovedFigures::move_grounds() const {
    return std::ranges::any_of(figures_, [](const Figure& figure) { return figure.kind == Kind::material; });
}

bool MovedFigures::may_be(std::span<const double> numbers) const {
    return std::ranges::all_of(figures_, [&](const Figure& figure) {
        const std::int64_t least = figure.kind == Kind::length ? 1 : 0;
        return figure.likely + figure.more_at(numbers) >= least;
    });
}

void MovedFigures::set(std::span<const double> numbers, Scenario& scenario) const {
    for (const Figure& figure : figures_) {
        const std::int64_t more = figure.more_at(numbers);
        const std::int64_t amount = figure.likely + more;
        if (figure.kind == Kind::material) {
            for (OpeningMethod& method : scenario.grounds[figure.number].methods)
                method.material_per_metre = method.material_per_metre + UnitPrice::from_thousandths(more);
        } else if (figure.kind == Kind::enclosure) {
            const auto place = find_place(scenario, figure.id);
            if (place) scenario.places[static_cast<std::size_t>(*place)].enclosure_extra = Money::from_minor(amount);
        } else if (const auto segment = find_segment(scenario, figure.id)) {
            Segment& moved = scenario.segments[static_cast<std::size_t>(*segment)];
            if (figure.kind == Kind::length) moved.length = Length::from_millimetres(amount);
            if (figure.kind == Kind::charge) moved.charges[figure.number].amount = Money::from_minor(amount);
        }
    }
}

}  // namespace spadework::site_file
