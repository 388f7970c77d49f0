#include "strand_map/strand_map.hpp"

#include <array>

#include "strand_map/earlier_map.hpp"
#include "strand_map/mapping.hpp"
#include "strand_map/openings.hpp"

namespace spadework {

namespace {

/// Openings at the place of one end of a strand: adapters of its enclosure, and ports of the gear it is patched to.
struct RowsAtEnd {
    Row adapters;
    Row ports;
};

RowsAtEnd rows_at(const Scenario& scenario, const Plan& plan, const MappedStrand& strand, bool far) {
    RowsAtEnd rows;
    const PlannedCable& cable = plan.cables[static_cast<std::size_t>(strand.cable)];
    const StrandEnd& end = far ? strand.far : strand.near;
    if (end.holder == Holder::enclosure && cable.enclosure)
        rows.adapters = enclosure_adapters(scenario, plan.enclosures[static_cast<std::size_t>(*cable.enclosure)]);
    if (!end.port || !strand.link) return rows;
    const PlannedLink& link = plan.links[static_cast<std::size_t>(*strand.link)];
    if (far) {
        rows.ports = gear_ports(scenario, plan, link.building);
    } else {
        rows.ports = link.from ? gear_ports(scenario, plan, *link.from) : hub_ports(scenario, plan);
    }
    return rows;
}

void keep_end(const StrandEnd& end, const RowsAtEnd& rows, int& adapter, int& port) {
    adapter = number_of(rows.adapters, end.adapter);
    port = end.port ? number_of(rows.ports, *end.port) : 0;
}

}  // namespace

const char* name_of(Holder holder) {
    constexpr std::array names = {"hub panel", "enclosure", "outlet", "stored", "spliced"};
    return names[static_cast<std::size_t>(holder)];
}

const char* name_of(StrandPurpose purpose) {
    constexpr std::array names = {"in use", "spare", "headroom", "beyond need"};
    return names[static_cast<std::size_t>(purpose)];
}

StrandMap map_strands(const Scenario& scenario, const Plan& plan, const ColourOrder& order,
                      const std::vector<KeptStrand>& kept) {
    const EarlierMap earlier(kept);
    const MapTask task{scenario, plan, earlier};
    StrandMap map = numbered_strands(task, order);
    plug(task, map);
    patch(task, map);
    return map;
}

std::vector<KeptStrand> kept_strands(const Scenario& scenario, const Plan& plan, const StrandMap& map) {
    std::vector<KeptStrand> kept;
    for (const MappedStrand& strand : map) {
        KeptStrand row;
        row.cable = plan.cables[static_cast<std::size_t>(strand.cable)].id;
        row.number = strand.number;
        if (strand.link) {
            const PlannedLink& link = plan.links[static_cast<std::size_t>(*strand.link)];
            row.building = scenario.buildings[static_cast<std::size_t>(link.building)].id;
            row.link = link.number;
            row.leg = strand.leg;
        }
        keep_end(strand.near, rows_at(scenario, plan, strand, false), row.near_adapter, row.near_port);
        keep_end(strand.far, rows_at(scenario, plan, strand, true), row.far_adapter, row.far_port);
        kept.push_back(std::move(row));
    }
    return kept;
}

}  // namespace spadework

template class std::vector<spadework::MappedStrand>;
