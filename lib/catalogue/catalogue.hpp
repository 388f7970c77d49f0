#pragma once

// What can be bought for the site: plain values, prices in minor units, as the site file's catalogue section gives
// them.

#include <optional>
#include <string>
#include <vector>

#include "units/bit_rate.hpp"
#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework {

/// A fibre cable of one strand count.
struct CableProduct {
    std::string id;
    std::string name;
    int strands = 0;
    int strands_per_tube = 12;
    UnitPrice price_per_metre;
    Length length_step;           ///< Factory-terminated lengths come in whole steps.
    Length longest;               ///< Longest factory length; a longer run is joined.
    UnitPrice factory_end_price;  ///< Price of one factory-terminated end of the whole cable.
    double diameter_mm = 0;       ///< Outer diameter.
    double most_tension_n = 0;    ///< Most pull while it is laid, by its maker; 0 where not given.
};

/// An outdoor termination enclosure.
struct EnclosureProduct {
    std::string id;
    std::string name;
    int adapters = 0;  ///< Strands it can patch through.
    UnitPrice price;
    WorkTime install_time;  ///< Setting it up, without the strands.
};

/// How many strands one link of an optic takes: two, or one that is lit from both ends.
enum class StrandUse { duplex, bidirectional };

/// Optical figures of a transceiver for one direction of a link. Power in dBm (average), loss in dB.
struct OpticalFigures {
    double wavelength_nm = 1310;  ///< Of the transmitter that faces this receiver.
    double launch_min_dbm = 0;
    double launch_max_dbm = 0;
    double receive_min_dbm = 0;  ///< Sensitivity, or the standard's least average receive power.
    double receive_max_dbm = 0;  ///< Overload.
    double penalties_db = 0;     ///< Set aside by the standard out of launch_min - receive_min; 0 where the receive
                                 ///< figure already has them removed.
};

/// A pair of matching transceivers, one for each end of a link.
struct OpticProduct {
    std::string id;
    std::string name;
    std::string standard;  ///< "1000BASE-LX10 (IEEE 802.3 clause 59)".
    BitRate rate;
    StrandUse strand_use = StrandUse::duplex;
    Length reach;
    Length least_length;         ///< Shortest link the standard allows.
    OpticalFigures to_building;  ///< Hub transmits, building receives.
    OpticalFigures to_hub;       ///< Building transmits, hub receives.
    UnitPrice price_per_end;
    std::string source;  ///< Where the optical figures come from.
};

/// Takes light away in front of a receiver that would be blinded. Nominal figures; its own connection is within its
/// loss.
struct AttenuatorProduct {
    std::string id;
    std::string name;
    double loss_db = 0;  ///< More than 0.
    UnitPrice price;
};

enum class GearKind { media_converter, poe_switch, ethernet_switch };

/// Powered gear that stands in a building (or, in a chain, passes the link on).
struct BuildingGearProduct {
    std::string id;
    std::string name;
    GearKind kind = GearKind::media_converter;
    int optic_ports = 1;
    int copper_ports = 1;
    double poe_budget_w = 0;  ///< Power for all ports together, watts at the supplying side.
    BitRate fastest_rate;     ///< Of its optic ports.
    UnitPrice price;
    WorkTime install_time;
};

/// A switch at the hub.
struct HubGearProduct {
    std::string id;
    std::string name;
    int optic_ports = 0;
    BitRate fastest_rate;  ///< Of its optic ports.
    UnitPrice price;
    WorkTime install_time;
    int copper_ports = 0;
};

struct PatchCordProduct {
    std::string id;
    std::string name;
    int strands = 2;  ///< 2 duplex, 1 for a bidirectional link.
    UnitPrice price;
};

/// Work and material where strands are joined on site instead of plugged.
struct SplicingPrices {
    UnitPrice pigtail_price;   ///< A pigtail and its splice sleeve, one strand.
    WorkTime time_per_splice;  ///< One strand, prepared, spliced and stored.
    WorkTime set_up_time;      ///< Once a splicing place.
    UnitPrice rate_per_hour;   ///< Splicer with machine.
};

struct Catalogue {
    std::vector<CableProduct> cables;          ///< Ascending in strands.
    std::vector<EnclosureProduct> enclosures;  ///< Ascending in adapters.
    std::vector<OpticProduct> optics;
    std::vector<AttenuatorProduct> attenuators;
    std::vector<BuildingGearProduct> building_gear;
    std::vector<HubGearProduct> hub_gear;  ///< May be empty where the hub has ports of its own.
    std::vector<PatchCordProduct> patch_cords;
    SplicingPrices splicing;
};

}  // namespace spadework

// Lists that many sources copy: compiled once, in catalogue.cpp.
extern template class std::vector<spadework::CableProduct>;
extern template class std::vector<spadework::EnclosureProduct>;
extern template class std::vector<spadework::OpticProduct>;
extern template class std::vector<spadework::AttenuatorProduct>;
extern template class std::vector<spadework::BuildingGearProduct>;
extern template class std::vector<spadework::HubGearProduct>;
extern template class std::vector<spadework::PatchCordProduct>;
