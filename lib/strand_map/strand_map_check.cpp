#include "strand_map/strand_map_check.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

namespace spadework {

namespace {

class Checker {
public:
    Checker(const Scenario& scenario, const Plan& plan, const StrandMap& map)
        : scenario_(scenario), plan_(plan), map_(map) {}

    std::vector<std::string> run() {
        check_each_strand_once();
        if (!found_.empty()) return found_;
        check_purposes();
        check_adapters();
        check_enclosures_hold_them();
        check_legs();
        check_ports();
        return found_;
    }

private:
    template <typename... Arguments>
    void complain(fmt::format_string<Arguments...> text, Arguments&&... arguments) {
        found_.push_back(fmt::format(text, std::forward<Arguments>(arguments)...));
    }

    const PlannedCable& cable(const MappedStrand& strand) const {
        return plan_.cables[static_cast<std::size_t>(strand.cable)];
    }
    std::string name(const MappedStrand& strand) const {
        return fmt::format("Strand {} of {}", strand.number, cable(strand).id);
    }

    void check_each_strand_once() {
        std::set<std::pair<int, int>> seen;
        for (const MappedStrand& strand : map_)
            seen.insert({strand.cable, strand.number});
        std::size_t wanted = 0;
        for (std::size_t c = 0; c < plan_.cables.size(); ++c) {
            const int strands = scenario_.catalogue.cables[static_cast<std::size_t>(plan_.cables[c].product)].strands;
            wanted += static_cast<std::size_t>(strands);
            for (int number = 1; number <= strands; ++number) {
                if (!seen.contains({static_cast<int>(c), number}))
                    complain("Strand {} of {} is not on the map.", number, plan_.cables[c].id);
            }
        }
        if (map_.size() != wanted)
            complain("The map has {} rows for the {} strands of the plan's cables.", map_.size(), wanted);
    }

    void check_purposes() {
        std::map<int, std::map<StrandPurpose, int>> count;
        for (const MappedStrand& strand : map_) {
            ++count[strand.cable][strand.purpose];
            if (strand.link.has_value() != (strand.purpose == StrandPurpose::link))
                complain("{} is marked {} and {} a link.", name(strand), name_of(strand.purpose),
                         strand.link ? "carries" : "does not carry");
        }
        for (std::size_t c = 0; c < plan_.cables.size(); ++c) {
            const PlannedCable& cable = plan_.cables[c];
            auto& counted = count[static_cast<int>(c)];
            const bool as_planned = counted[StrandPurpose::link] == cable.need.in_use &&
                                    counted[StrandPurpose::spare] == cable.need.spare &&
                                    counted[StrandPurpose::headroom] == cable.need.headroom;
            if (!as_planned)
                complain("Cable {} has {} strands in use, {} spare, {} for growth on the map; the plan has {}, {}, {}.",
                         cable.id, counted[StrandPurpose::link], counted[StrandPurpose::spare],
                         counted[StrandPurpose::headroom], cable.need.in_use, cable.need.spare, cable.need.headroom);
        }
    }

    /// No adapter takes two strands on the same side: the side towards the hub, or the side away from it.
    void check_adapters() {
        std::set<std::tuple<PlaceIndex, Holder, Opening, bool>> taken;
        for (const MappedStrand& strand : map_) {
            for (const bool far : {false, true}) {
                const StrandEnd& end = far ? strand.far : strand.near;
                if (end.place != (far ? cable(strand).to : cable(strand).from))
                    complain("{} does not end where its cable does.", name(strand));
                if (end.holder == Holder::stored) {
                    check_may_be_stored(strand, far);
                    continue;
                }
                if (end.holder == Holder::spliced) {
                    check_spliced(strand, far);
                    continue;
                }
                const bool side = end.holder == Holder::enclosure && far;
                if (end.adapter.number < 1)
                    complain("{} is plugged into adapter {}.", name(strand), end.adapter.number);
                if (!taken.insert({end.place, end.holder, end.adapter, side}).second)
                    complain("{} shares adapter {} of the {} at {} with another.", name(strand), end.adapter.number,
                             name_of(end.holder), scenario_.places[static_cast<std::size_t>(end.place)].id);
            }
        }
    }

    /// Only strands beyond need may be left unplugged, and a drop's dark strands in the enclosure's tray.
    void check_may_be_stored(const MappedStrand& strand, bool far) {
        const bool drop_in_tray =
            !far && cable(strand).role == CableRole::drop && strand.purpose != StrandPurpose::link;
        if (strand.purpose != StrandPurpose::beyond_need && !drop_in_tray)
            complain("{} is {} and ends nowhere.", name(strand), name_of(strand.purpose));
    }

    /// A spliced end faces a spliced end of the same number in the other part of a trunk that was cut.
    void check_spliced(const MappedStrand& strand, bool far) {
        const auto faces = [&](const MappedStrand& other) {
            const bool joined = far ? cable(other).spliced_to == strand.cable : cable(strand).spliced_to == other.cable;
            return joined && other.number == strand.number && (far ? other.near : other.far).holder == Holder::spliced;
        };
        const StrandEnd& end = far ? strand.far : strand.near;
        if (std::ranges::count_if(map_, faces) != 1) complain("{} is spliced to no strand.", name(strand));
        if (end.adapter != Opening{} || end.port) complain("{} is spliced and plugged.", name(strand));
    }

    void check_enclosures_hold_them() {
        for (const PlannedEnclosure& enclosure : plan_.enclosures) {
            std::vector<int> adapters;
            for (const Pieces& pieces : enclosure.products) {
                const int each = scenario_.catalogue.enclosures[static_cast<std::size_t>(pieces.product)].adapters;
                adapters.insert(adapters.end(), static_cast<std::size_t>(pieces.count), each);
            }
            for (const MappedStrand& strand : map_) {
                for (const StrandEnd* end : {&strand.near, &strand.far}) {
                    if (end->holder != Holder::enclosure || end->place != enclosure.place) continue;
                    const int piece = end->adapter.piece;
                    const bool there = piece >= 1 && piece <= static_cast<int>(adapters.size()) &&
                                       end->adapter.number <= adapters[static_cast<std::size_t>(piece) - 1];
                    if (!there)
                        complain("{} is plugged into adapter {} of enclosure {}, which is not there.", name(strand),
                                 end->adapter.number, piece);
                }
            }
        }
    }

    /// Follows every leg of every link from cable to cable.
    void check_legs() {
        for (std::size_t l = 0; l < plan_.links.size(); ++l) {
            const PlannedLink& link = plan_.links[l];
            for (int leg = 1; leg <= link.strands; ++leg)
                follow(static_cast<int>(l), leg);
        }
    }

    void follow(int l, int leg) {
        const PlannedLink& link = plan_.links[static_cast<std::size_t>(l)];
        const std::string& building = scenario_.buildings[static_cast<std::size_t>(link.building)].id;
        const MappedStrand* before = nullptr;
        for (const int c : link.cables) {
            const auto carries = [&](const MappedStrand& strand) {
                return strand.cable == c && strand.link == l && strand.leg == leg;
            };
            if (std::ranges::count_if(map_, carries) != 1) {
                complain("Leg {} of link {} to {} has not one strand in {}.", leg, link.number, building,
                         plan_.cables[static_cast<std::size_t>(c)].id);
                return;
            }
            const MappedStrand& strand = *std::ranges::find_if(map_, carries);
            const bool meets = before == nullptr ||
                               (before->far.place == strand.near.place && before->far.holder == strand.near.holder &&
                                before->far.adapter == strand.near.adapter && on_the_same_fibre(*before, strand));
            if (!meets) complain("Leg {} of link {} to {} breaks off between two cables.", leg, link.number, building);
            before = &strand;
        }
    }

    /// Where they are spliced, both have one number; where they are plugged, anything will do.
    bool on_the_same_fibre(const MappedStrand& before, const MappedStrand& strand) const {
        if (strand.near.holder != Holder::spliced) return true;
        return cable(strand).spliced_to == before.cable && before.number == strand.number;
    }

    using PortName = std::tuple<BuildingIndex, int, int>;  ///< Building (-1 for the hub), piece, port.
    static constexpr BuildingIndex hub_room = -1;

    void check_ports() {
        std::map<PortName, std::set<int>> links_at;
        for (const MappedStrand& strand : map_) {
            if (!strand.link) {
                if (strand.near.port || strand.far.port) complain("{} is dark and patched to a port.", name(strand));
                continue;
            }
            const PlannedLink& link = plan_.links[static_cast<std::size_t>(*strand.link)];
            check_patched(strand, strand.near, link.cables.front() == strand.cable);
            check_patched(strand, strand.far, link.cables.back() == strand.cable);
            const auto note = [&](const StrandEnd& end, BuildingIndex room) {
                if (end.port) links_at[{room, end.port->piece, end.port->number}].insert(*strand.link);
            };
            note(strand.near, link.from.value_or(hub_room));
            note(strand.far, link.building);
        }
        for (const auto& [port, links] : links_at)
            check_port(port, links.size());
    }

    void check_patched(const MappedStrand& strand, const StrandEnd& end, bool wanted) {
        if (end.port.has_value() == wanted) return;
        complain("{} is {} at {}.", name(strand), wanted ? "not patched to gear" : "patched to gear on its way",
                 scenario_.places[static_cast<std::size_t>(end.place)].id);
    }

    void check_port(const PortName& port, std::size_t links) {
        const auto& [room, piece, number] = port;
        const std::string where = room == hub_room ? "the hub" : scenario_.buildings[static_cast<std::size_t>(room)].id;
        if (links > 1) complain("Port {} of piece {} at {} serves {} links.", number, piece, where, links);
        if (number < 1 || number > (room == hub_room ? hub_ports_of(piece) : ports_of(room, piece)))
            complain("Port {} of piece {} at {} is not there.", number, piece, where);
    }

    int hub_ports_of(int piece) const {
        if (piece == 0) return scenario_.hub.free_optic_ports;
        int left = piece;
        for (const Pieces& pieces : plan_.hub_gear) {
            if (left <= pieces.count)
                return scenario_.catalogue.hub_gear[static_cast<std::size_t>(pieces.product)].optic_ports;
            left -= pieces.count;
        }
        return 0;
    }

    int ports_of(BuildingIndex building, int piece) const {
        for (const PlannedGear& gear : plan_.building_gear) {
            if (gear.building == building && piece >= 1 && piece <= gear.pieces.count)
                return scenario_.catalogue.building_gear[static_cast<std::size_t>(gear.pieces.product)].optic_ports;
        }
        return 0;
    }

    const Scenario& scenario_;
    const Plan& plan_;
    const StrandMap& map_;
    std::vector<std::string> found_;
};

}  // namespace

std::vector<std::string> strand_map_violations(const Scenario& scenario, const Plan& plan, const StrandMap& map) {
    return Checker(scenario, plan, map).run();
}

}  // namespace spadework
