#include "drawing/label_placing.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "drawing/label_candidates.hpp"
#include "drawing/line_density.hpp"

namespace spadework::drawing {

namespace {

constexpr double padding_x = 2;
constexpr double farthest_name = 70;
constexpr double clear_of_all = 1;  ///< Between a box and anything it keeps off.
constexpr double dislike_of_conflict = 1.0;
constexpr double dislike_of_lines = 40;  ///< For a box that lines fill.

double box_height(const Lettering& lettering) {
    return std::ceil(1.25 * lettering.size);
}

Rectangle grown(const Rectangle& box, double by) {
    return {box.left - by, box.top - by, box.right + by, box.bottom + by};
}

class Placing {
public:
    /// Wishes with a number above 0 are shown as that number from the outset.
    Placing(const std::vector<LabelWish>& wishes, const std::vector<int>& numbers, const MapClutter& clutter,
            const Rectangle& room)
        : wishes_(wishes),
          symbols_(clutter.symbols),
          room_(room),
          density_(clutter.lines, room),
          labels_(wishes.size()) {
        for (std::size_t w = 0; w < wishes.size(); ++w) {
            labels_[w].number = numbers[w];
            labels_[w].text = numbers[w] > 0 ? std::to_string(numbers[w]) : wishes[w].text;
            numbers_ = std::max(numbers_, numbers[w]);
        }
    }

    std::vector<PlacedLabel> run() {
        std::map<int, std::vector<std::size_t>> by_rank;
        for (std::size_t w = 0; w < wishes_.size(); ++w)
            by_rank[wishes_[w].rank].push_back(w);
        for (const auto& [rank, wishes] : by_rank)
            place_rank(wishes);
        return labels_;
    }

private:
    struct Choice {
        std::size_t wish = 0;
        Rectangle around;                  ///< Holds every place beside the symbol.
        std::vector<LabelCandidate> left;  ///< Places it may still have.
    };

    void place_rank(const std::vector<std::size_t>& wishes) {
        std::vector<std::size_t> left = place_beside(wishes);
        std::vector<std::size_t> to_number;
        for (const std::size_t w : left) {
            if (wishes_[w].without_room == WithoutRoom::drop_it) continue;
            if (labels_[w].number > 0 || !place_at_a_distance(w, farthest_name)) to_number.push_back(w);
        }
        for (const std::size_t w : to_number) {
            if (labels_[w].number == 0) labels_[w].number = ++numbers_;
            labels_[w].text = std::to_string(labels_[w].number);
        }
        for (const std::size_t w : to_number)
            place_number(w);
    }

    /// Those that found no room beside their symbol.
    std::vector<std::size_t> place_beside(const std::vector<std::size_t>& wishes) {
        std::vector<Choice> choices;
        for (const std::size_t w : wishes) {
            const LabelWish& wish = wishes_[w];
            const double off_x = wish.reach + width(w) + 2 * padding_x;
            const double off_y = wish.reach + height(w) + 2 * padding_x;
            const Rectangle around{wish.at.x - off_x, wish.at.y - off_y, wish.at.x + off_x, wish.at.y + off_y};
            choices.push_back({w, around, free_of(wish, beside(wish.at, wish.reach, width(w), height(w)))});
        }
        std::vector<std::size_t> left;
        while (!choices.empty()) {
            const auto next = std::min_element(choices.begin(), choices.end(), [](const Choice& a, const Choice& b) {
                return a.left.size() < b.left.size();
            });
            const Choice choice = *next;
            choices.erase(next);
            if (choice.left.empty()) {
                left.push_back(choice.wish);
                continue;
            }
            const LabelCandidate best = least_in_the_way(choice, choices);
            keep(choice.wish, best);
            for (Choice& other : choices) {
                std::erase_if(other.left,
                              [&](const LabelCandidate& c) { return overlap(c.box, grown(best.box, clear_of_all)); });
            }
        }
        std::sort(left.begin(), left.end());
        return left;
    }

    [[nodiscard]] static LabelCandidate least_in_the_way(const Choice& choice, const std::vector<Choice>& others) {
        const LabelCandidate* best = nullptr;
        double least = 0;
        for (const LabelCandidate& candidate : choice.left) {
            double dislike = candidate.dislike;
            for (const Choice& other : others) {
                if (!overlap(choice.around, other.around)) continue;
                for (const LabelCandidate& theirs : other.left)
                    dislike += overlap(candidate.box, theirs.box) ? dislike_of_conflict : 0;
            }
            if (best != nullptr && dislike >= least) continue;
            best = &candidate;
            least = dislike;
        }
        return *best;
    }

    void place_number(std::size_t w) {
        const double anywhere = room_.width() + room_.height();
        if (place_best(w, beside(wishes_[w].at, wishes_[w].reach, width(w), height(w)))) return;
        if (place_at_a_distance(w, farthest_name) || place_at_a_distance(w, anywhere)) return;
        leaders_pass_symbols_ = true;
        place_at_a_distance(w, anywhere);
        leaders_pass_symbols_ = false;
    }

    bool place_at_a_distance(std::size_t w, double farthest) {
        return place_best(w, at_a_distance(wishes_[w].at, wishes_[w].reach, width(w), height(w), farthest));
    }

    bool place_best(std::size_t w, const std::vector<LabelCandidate>& candidates) {
        const std::vector<LabelCandidate> free = free_of(wishes_[w], candidates);
        if (free.empty()) return false;
        keep(w, *std::min_element(free.begin(), free.end(),
                                  [](const auto& a, const auto& b) { return a.dislike < b.dislike; }));
        return true;
    }

    /// Those that nothing forbids, with the lines they would cover added to their dislike.
    [[nodiscard]] std::vector<LabelCandidate> free_of(const LabelWish& wish,
                                                      const std::vector<LabelCandidate>& candidates) const {
        std::vector<LabelCandidate> result;
        for (LabelCandidate candidate : candidates) {
            if (!is_free(wish, candidate)) continue;
            const double covered = density_.share_covered(candidate.box);
            if (wish.keep_off_lines && covered > 0) continue;
            candidate.dislike += covered * dislike_of_lines;
            result.push_back(candidate);
        }
        return result;
    }

    [[nodiscard]] bool is_free(const LabelWish& wish, const LabelCandidate& candidate) const {
        if (!holds(room_, candidate.box)) return false;
        const Rectangle box = grown(candidate.box, clear_of_all);
        for (const Rectangle& symbol : symbols_) {
            if (overlap(box, symbol)) return false;
            if (leaders_pass_symbols_) continue;
            const bool own = overlap(symbol, {wish.at.x, wish.at.y, wish.at.x + 0.01, wish.at.y + 0.01});
            if (candidate.leader && !own && touches(*candidate.leader, symbol)) return false;
        }
        for (const Rectangle& taken : taken_) {
            if (overlap(box, taken) || (candidate.leader && touches(*candidate.leader, taken))) return false;
        }
        return std::none_of(leaders_.begin(), leaders_.end(), [&](const auto& leader) {
            return touches(leader, box) || (candidate.leader && cross(leader, *candidate.leader));
        });
    }

    void keep(std::size_t w, const LabelCandidate& candidate) {
        PlacedLabel& label = labels_[w];
        label.placed = true;
        label.box = candidate.box;
        label.leader = candidate.leader;
        label.baseline = {candidate.box.left + padding_x, candidate.box.bottom - 0.3 * wishes_[w].lettering.size};
        taken_.push_back(candidate.box);
        if (candidate.leader) leaders_.push_back(*candidate.leader);
    }

    [[nodiscard]] double width(std::size_t w) const {
        return width_of(labels_[w].text, wishes_[w].lettering) + 2 * padding_x;
    }
    [[nodiscard]] double height(std::size_t w) const { return box_height(wishes_[w].lettering); }

    const std::vector<LabelWish>& wishes_;
    const std::vector<Rectangle>& symbols_;
    Rectangle room_;
    LineDensity density_;
    std::vector<PlacedLabel> labels_;
    std::vector<Rectangle> taken_;
    std::vector<std::pair<Point, Point>> leaders_;
    int numbers_ = 0;
    bool leaders_pass_symbols_ = false;  ///< Where there is no other way.
};

/// Numbers for all wishes that may be numbered and do not choose first, in their order.
std::vector<int> numbers_for_all(const std::vector<LabelWish>& wishes) {
    std::vector<int> numbers(wishes.size(), 0);
    int next = 0;
    for (std::size_t w = 0; w < wishes.size(); ++w) {
        if (wishes[w].without_room == WithoutRoom::number_it && wishes[w].rank > 0) numbers[w] = ++next;
    }
    return numbers;
}

/// Labels that found no room at all and are missed.
std::size_t missing(const std::vector<LabelWish>& wishes, const std::vector<PlacedLabel>& labels) {
    std::size_t count = 0;
    for (std::size_t w = 0; w < wishes.size(); ++w)
        count += !labels[w].placed && wishes[w].without_room == WithoutRoom::number_it ? 1U : 0U;
    return count;
}

/// So many stand as numbers or at a distance that a map with numbers alone is easier to read, or some are missing.
bool is_crowded(const std::vector<LabelWish>& wishes, const std::vector<PlacedLabel>& labels) {
    constexpr std::size_t so_many = 4;  // One in four.
    std::size_t may_be_numbered = 0;
    std::size_t not_beside = 0;
    for (std::size_t w = 0; w < wishes.size(); ++w) {
        if (wishes[w].without_room == WithoutRoom::drop_it || wishes[w].rank == 0) continue;
        ++may_be_numbered;
        not_beside += labels[w].number > 0 || labels[w].leader ? 1U : 0U;
    }
    return (may_be_numbered > 20 && so_many * not_beside > may_be_numbered) || missing(wishes, labels) > 0;
}

}  // namespace

std::vector<PlacedLabel> place_labels(const std::vector<LabelWish>& wishes, const MapClutter& clutter,
                                      const Rectangle& room) {
    const std::vector<PlacedLabel> labels = Placing(wishes, std::vector<int>(wishes.size(), 0), clutter, room).run();
    if (!is_crowded(wishes, labels)) return labels;
    const std::vector<PlacedLabel> numbered = Placing(wishes, numbers_for_all(wishes), clutter, room).run();
    return missing(wishes, numbered) <= missing(wishes, labels) ? numbered : labels;
}

}  // namespace spadework::drawing
