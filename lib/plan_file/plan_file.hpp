#pragma once

// A plan as a file of its own, to be kept, built by, accepted against and extended years later. Everything is named, so
// that it can be read without the site file, and still be found on a site that has grown since.

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "layout/plan.hpp"
#include "plan_file/as_built.hpp"
#include "rates/cable_rates.hpp"
#include "scenario/scenario.hpp"
#include "sheets/labels.hpp"
#include "strand_map/kept_map.hpp"
#include "strand_map/strand_map.hpp"
#include "strands/strand_need.hpp"
#include "units/bit_rate.hpp"
#include "units/length.hpp"
#include "units/money.hpp"

namespace spadework::plan_file {

/// What the file's first key says, and its number; files of another are refused.
inline constexpr const char* format_name = "spadework-plan";
inline constexpr int format_version = 1;
/// Of files with a trunk that was cut: their cables may have the key "spliced_to", their strands the holder "spliced".
inline constexpr int format_version_with_cuts = 2;

/// A segment and one of its ways: the id of a method of its ground, "existing duct" or "pole line".
struct NamedStep {
    std::string segment;
    std::string way;
    friend bool operator==(const NamedStep&, const NamedStep&) = default;
    friend auto operator<=>(const NamedStep&, const NamedStep&) = default;
};

/// A segment that cables pass, in the way it is opened or used.
struct UsedSegment {
    NamedStep step;
    std::string from;  ///< Place ids.
    std::string to;
    std::string ground;
    Length length;
};

/// A line over open ground that the site's own files do not have; see open_ground/straight_lines.hpp.
struct NamedLine {
    std::string segment;
    std::string from;
    std::string to;
    std::string like;  ///< Id of a segment whose ground and charges it shares.
};

struct NamedPieces {
    std::string product;
    int count = 0;
};

struct NamedCable {
    std::string id;
    CableRole role = CableRole::home_run;
    std::string from;  ///< Place ids; `from` is nearer the hub.
    std::string to;
    std::vector<NamedStep> steps;
    std::string product;
    int strands = 0;  ///< That the product has.
    StrandNeed need;
    CableLengths lengths;
    std::string building;         ///< Whom it serves; empty for a trunk.
    std::string enclosure;        ///< Place of the enclosure where a trunk ends or a drop begins; else empty.
    std::string spliced_to = {};  ///< Of a trunk that was cut: id of the part nearer the hub; else empty.
};

struct NamedEnclosure {
    std::string place;
    std::vector<NamedPieces> products;
    StrandNeed need;
    std::vector<std::string> trunks;  ///< Cable ids.
    std::vector<std::string> serves;  ///< Building ids.
};

struct NamedLink {
    std::string building;
    std::string from;  ///< Building where it begins; empty: the hub.
    int number = 1;
    BitRate rate;
    std::string optic;
    std::string attenuator_at_start;  ///< In front of the receiver there; empty: none.
    std::string attenuator_at_end;
    int strands = 2;
    std::vector<std::string> cables;  ///< In order from the hub.
    Length glass;
    int mated_pairs = 0;
    int splices = 0;
};

struct NamedGear {
    std::string building;
    NamedPieces pieces;
};

/// A strand: what it carries and where it is plugged, with its colour and what holds its ends.
struct NamedStrand {
    KeptStrand kept;
    StrandColour colour;
    StrandPurpose purpose = StrandPurpose::beyond_need;
    Holder near = Holder::stored;
    Holder far = Holder::stored;
};

/// Limits at one wavelength, in picometres and thousandths of a decibel, so that they are the very ones on the sheet.
struct NamedLimit {
    std::int64_t wavelength_pm = 0;
    std::int64_t calculated_mdb = 0;
    std::int64_t optics_mdb = 0;
    std::int64_t pass_mdb = 0;
    std::int64_t least_mdb = 0;
};

struct NamedEvent {
    std::string what;
    std::string where;
    Length distance;  ///< From the end nearer the hub.
};

/// One strand of one link as the test sheet has it.
struct NamedTest {
    std::string building;
    int link = 1;
    int leg = 1;
    std::string from;              ///< "hub", or the building where it begins.
    std::vector<std::string> way;  ///< Strand labels in order from the hub: "trunk-1/3".
    Length glass;
    std::vector<NamedLimit> limits;
    std::vector<NamedEvent> events;
};

/// A label with the place by its id.
struct NamedLabel {
    std::string marks;
    std::string place;
    std::string line_1;
    std::string line_2;
};

struct NamedCosts {
    std::string currency;
    int digits = 2;                                         ///< Of the currency behind the point.
    std::vector<std::pair<std::string, Money>> categories;  ///< By id of the category; sum to the total.
    Money total;
};

struct PlanFile {
    std::string site_name;
    std::string site_digest;  ///< Of the site's files when it was planned.
    bool feet = false;        ///< Sheets are in feet.
    Termination termination = Termination::factory;
    LayoutKind layout = LayoutKind::home_runs;
    std::vector<NamedLine> straight_lines;
    std::vector<UsedSegment> segments;
    std::vector<NamedCable> cables;
    std::vector<NamedEnclosure> enclosures;
    std::vector<NamedLink> links;
    std::vector<NamedGear> building_gear;
    std::vector<NamedPieces> hub_gear;
    int hub_ports = 0;
    std::vector<std::vector<std::string>> chains;  ///< Building ids from the hub outwards.
    std::vector<NamedStrand> strands;
    std::vector<NamedTest> tests;
    std::vector<NamedLabel> labels;
    NamedCosts costs;
    std::optional<AsBuilt> as_built;  ///< Once readings were accepted, or refused.
};

/// Whether a trunk of it was cut, which files of the first version cannot say.
bool has_cuts(const PlanFile& file);

/// The rows that a later strand map keeps to.
std::vector<KeptStrand> kept_strands(const PlanFile& file);

/// The same with the cables they are in.
KeptMap kept_map(const PlanFile& file);

/// "trunk-one.plan.json": what a layout's plan file is called.
std::string file_name(LayoutKind layout);

/// A whole number of thousandths, the nearest; for what is not finite or too large, the largest there is room for.
std::int64_t thousandths(double value);

}  // namespace spadework::plan_file
