#include "plan_file/strand_contradictions.hpp"

#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "diagnostics/nearest_name.hpp"
#include "diagnostics/shown_text.hpp"

namespace spadework::plan_file {

namespace {

using json::JsonValue;
using json::Problems;

/// One end of a strand, for what is wrong with it.
struct End {
    const char* name;
    Holder holder;
    std::string place;
    int adapter = 0;
    int port = 0;
    std::string room;  ///< Building whose gear the port is of; empty: the hub.
    bool is_far = false;
};

class StrandFinder {
public:
    StrandFinder(const JsonValue& list, const PlanFile& file, Problems& problems)
        : list_(list), file_(file), problems_(problems) {
        for (const NamedCable& cable : file.cables)
            cables_.emplace(cable.id, &cable);
        for (const NamedLink& link : file.links)
            links_.emplace(std::pair(link.building, link.number), &link);
    }

    void run() {
        for (std::size_t i = 0; i < file_.strands.size(); ++i) {
            where_ = &list_.items[i];
            check(file_.strands[i]);
        }
        check_all_there();
        check_splices();
    }

private:
    void note(const std::string& found, const std::string& wanted, const std::string& nearest = "") {
        problems_.add(*where_, found, wanted, nearest);
    }

    void check(const NamedStrand& strand) {
        const KeptStrand& kept = strand.kept;
        if (kept.cable.empty()) return;
        const auto cable = cables_.find(kept.cable);
        if (cable == cables_.end()) {
            note(fmt::format("a strand of {}", shown(kept.cable, 80)), "a strand of a cable of this file",
                 problems_.too_many() ? "" : nearest_name(kept.cable, cable_ids()));
            return;
        }
        if (kept.number > cable->second->strands) {
            note(fmt::format("strand {} of {}", kept.number, shown(kept.cable, 80)),
                 fmt::format("a number up to the cable's {} strands", cable->second->strands));
        }
        if (!strands_.insert({kept.cable, kept.number}).second)
            note(fmt::format("strand {} of {} twice", kept.number, shown(kept.cable, 80)), "each strand once");
        check_use(strand, *cable->second);
        check_ends(strand, *cable->second);
    }

    void check_use(const NamedStrand& strand, const NamedCable& cable) {
        const KeptStrand& kept = strand.kept;
        const bool lit = strand.purpose == StrandPurpose::link;
        if (lit == kept.building.empty()) {
            note(lit ? "a strand in use without a building" : "a dark strand with a building",
                 "a building for strands in use, null for others");
            return;
        }
        if (!lit) return;
        const auto link = links_.find({kept.building, kept.link});
        const bool known = link != links_.end() && kept.leg >= 1 && kept.leg <= link->second->strands;
        if (!known) {
            note(fmt::format("strand {} of link {} to {}", kept.leg, kept.link, shown(kept.building, 80)),
                 "a strand of a link of this file");
        }
        if (!legs_.insert({cable.id, kept.building, kept.link, kept.leg}).second)
            note("a second strand for the same strand of a link", "one in each cable");
    }

    void check_ends(const NamedStrand& strand, const NamedCable& cable) {
        const KeptStrand& kept = strand.kept;
        const auto link = links_.find({kept.building, kept.link});
        const std::string begins = link == links_.end() ? "" : link->second->from;
        check_end(strand, {"near", strand.near, cable.from, kept.near_adapter, kept.near_port, begins, false});
        check_end(strand, {"far", strand.far, cable.to, kept.far_adapter, kept.far_port, kept.building, true});
    }

    void check_end(const NamedStrand& strand, const End& end) {
        if (end.holder == Holder::spliced) {
            // Which adapter and port: none. What it faces is seen once all are known.
            spliced_.push_back({where_, &strand, end.is_far});
            if (end.adapter > 0 || end.port > 0) note("an end that is spliced and plugged", "no adapter and no port");
            return;
        }
        const bool plugged = end.holder != Holder::stored;
        if (plugged != (end.adapter > 0)) {
            note(fmt::format("{} end: {} with adapter {}", end.name, name_of(end.holder), end.adapter),
                 "an adapter from 1, or 0 for an end that is stored");
        } else if (plugged) {
            // Across an adapter of an enclosure a trunk's strand faces a drop's.
            const bool side = end.holder == Holder::enclosure && end.is_far;
            if (!adapters_.insert({end.place, end.holder, end.adapter, side}).second) {
                note(fmt::format("{} end: adapter {} of the {} at {} twice", end.name, end.adapter, name_of(end.holder),
                                 shown(end.place, 80)),
                     "each adapter once");
            }
        }
        if (end.port > 0) check_port(strand, end);
    }

    /// All strands of a link share a port; another link may not have it.
    void check_port(const NamedStrand& strand, const End& end) {
        const std::pair link(strand.kept.building, strand.kept.link);
        const auto [taken, is_new] = ports_.emplace(std::pair(end.room, end.port), link);
        if (is_new || taken->second == link) return;
        note(fmt::format("{} end: port {} at {} twice", end.name, end.port,
                         end.room.empty() ? "the hub" : shown(end.room, 80)),
             "each port for one link");
    }

    /// A spliced end faces a spliced end of the strand of its number in the other part, and both carry the same.
    void check_splices() {
        std::map<std::pair<std::string, int>, const NamedStrand*> by_name;
        for (const NamedStrand& strand : file_.strands)
            by_name[{strand.kept.cable, strand.kept.number}] = &strand;
        for (const SplicedEnd& end : spliced_) {
            const KeptStrand& kept = end.strand->kept;
            const auto other = by_name.find({other_part(kept.cable, end.is_far), kept.number});
            const bool faced =
                other != by_name.end() && (end.is_far ? other->second->near : other->second->far) == Holder::spliced &&
                std::tie(other->second->kept.building, other->second->kept.link, other->second->kept.leg) ==
                    std::tie(kept.building, kept.link, kept.leg);
            if (faced) continue;
            where_ = end.where;
            note(fmt::format("{} end: spliced to no strand that carries the same", end.is_far ? "far" : "near"),
                 "a spliced end in the other part of the trunk");
        }
    }

    /// The part that a cable is spliced to at one end; "" where it is not.
    [[nodiscard]] std::string other_part(const std::string& cable, bool far) const {
        if (!far) {
            const auto found = cables_.find(cable);
            return found == cables_.end() ? "" : found->second->spliced_to;
        }
        for (const auto& [id, other] : cables_) {
            if (other->spliced_to == cable) return id;
        }
        return "";
    }

    void check_all_there() {
        std::map<std::string, int> counted;
        for (const auto& [cable, number] : strands_)
            ++counted[cable];
        for (const auto& [id, cable] : cables_) {
            if (counted[id] == cable->strands || id.empty()) continue;
            problems_.add(list_, fmt::format("{} of the {} strands of {}", counted[id], cable->strands, shown(id, 80)),
                          "every strand of every cable");
        }
    }

    [[nodiscard]] std::vector<std::string> cable_ids() const {
        std::vector<std::string> ids;
        for (const auto& [id, cable] : cables_)
            ids.push_back(id);
        return ids;
    }

    struct SplicedEnd {
        const JsonValue* where = nullptr;
        const NamedStrand* strand = nullptr;
        bool is_far = false;
    };

    const JsonValue& list_;
    const PlanFile& file_;
    Problems& problems_;
    const JsonValue* where_ = nullptr;
    std::map<std::string, const NamedCable*> cables_;
    std::map<std::pair<std::string, int>, const NamedLink*> links_;
    std::set<std::pair<std::string, int>> strands_;
    std::set<std::tuple<std::string, std::string, int, int>> legs_;
    std::set<std::tuple<std::string, Holder, int, bool>> adapters_;
    std::map<std::pair<std::string, int>, std::pair<std::string, int>> ports_;  ///< Link by room and port.
    std::vector<SplicedEnd> spliced_;
};

}  // namespace

void find_strand_contradictions(const JsonValue& list, const PlanFile& file, Problems& problems) {
    StrandFinder(list, file, problems).run();
}

}  // namespace spadework::plan_file
