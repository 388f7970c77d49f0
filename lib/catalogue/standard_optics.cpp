#include "catalogue/standard_optics.hpp"

#include <algorithm>

namespace spadework {

namespace {

/// Name of the standard, then the clause: "1000BASE-LX10 (IEEE 802.3 clause 59)".
std::string with_clause(std::string_view name, int clause) {
    return std::string(name) + " (IEEE 802.3 clause " + std::to_string(clause) + ")";
}

OpticProduct optic(std::string_view name, int clause, BitRate rate, double reach_km, const OpticalFigures& figures) {
    OpticProduct product;
    product.id = name;
    product.name = name;
    product.standard = with_clause(name, clause);
    product.rate = rate;
    product.reach = Length::from_metres(reach_km * 1000.0);
    product.to_building = figures;
    product.to_hub = figures;
    product.source = "IEEE 802.3 clause " + std::to_string(clause) + ", values from memory";
    return product;
}

/// One strand: the hub transmits at the longer wavelength, the building at 1310 nm.
OpticProduct one_strand_optic(std::string_view name, int clause, BitRate rate, const OpticalFigures& downstream,
                              const OpticalFigures& upstream) {
    OpticProduct product = optic(name, clause, rate, 10, downstream);
    product.strand_use = StrandUse::bidirectional;
    product.to_hub = upstream;
    return product;
}

// Figures in the order wavelength nm; launch min, max dBm; receive min, max dBm; penalties dB. In clauses 38, 58 and 59
// the receive figure is the sensitivity, and the penalties are still to be taken out; in clauses 52 and 114 it is the
// least average receive power, with the penalties already out.
std::vector<OpticProduct> fast_ethernet_optics() {
    const auto rate = BitRate::from_megabits(100);
    return {
        optic("100BASE-LX10", 58, rate, 10, {1310, -15, -8, -25, -8, 4.0}),
        // 14.2 dB of power budget, of which the channel may take 5.5 dB down and 6.0 dB up.
        one_strand_optic("100BASE-BX10", 58, rate, {1550, -14, -8, -28.2, -8, 8.7}, {1310, -14, -8, -28.2, -8, 8.2}),
    };
}

std::vector<OpticProduct> gigabit_optics() {
    const auto rate = BitRate::from_megabits(1000);
    auto lx10 = optic("1000BASE-LX10", 59, rate, 10, {1310, -9, -3, -19.5, -3, 4.5});
    lx10.least_length = Length::from_metres(0.5);
    auto bx10 =
        one_strand_optic("1000BASE-BX10", 59, rate, {1490, -9, -3, -19.5, -3, 5.0}, {1310, -9, -3, -19.5, -3, 4.5});
    bx10.least_length = Length::from_metres(0.5);
    return {
        // Penalties 3.27 dB and 0.16 dB unallocated: the channel may take 4.57 dB of the 8 dB.
        optic("1000BASE-LX", 38, rate, 5, {1310, -11, -3, -19, -3, 3.43}),
        lx10,
        bx10,
    };
}

std::vector<OpticProduct> ten_gigabit_optics() {
    const auto rate = BitRate::from_megabits(10000);
    auto lr = optic("10GBASE-LR", 52, rate, 10, {1310, -8.2, 0.5, -14.4, 0.5, 0});
    lr.source =
        "IEEE 802.3 clause 52, read in a communications ministry rule that reproduces its limits (consultant.ru "
        "LAW_65602, Table 3)";
    return {
        lr,
        // The standard's 40 km are for engineered links only.
        optic("10GBASE-ER", 52, rate, 30, {1550, -4.7, 4.0, -15.8, -1.0, 0}),
    };
}

std::vector<OpticProduct> twenty_five_gigabit_optics() {
    return {optic("25GBASE-LR", 114, BitRate::from_megabits(25000), 10, {1310, -7.0, 2.0, -13.3, 2.0, 0})};
}

}  // namespace

const std::vector<OpticProduct>& standard_optics() {
    static const std::vector<OpticProduct> all = [] {
        std::vector<OpticProduct> optics;
        for (const auto& group :
             {fast_ethernet_optics(), gigabit_optics(), ten_gigabit_optics(), twenty_five_gigabit_optics()}) {
            optics.insert(optics.end(), group.begin(), group.end());
        }
        return optics;
    }();
    return all;
}

std::optional<OpticProduct> standard_optic(std::string_view standard) {
    const auto& all = standard_optics();
    const auto found =
        std::find_if(all.begin(), all.end(), [standard](const OpticProduct& o) { return o.id == standard; });
    if (found == all.end()) return std::nullopt;
    return *found;
}

std::vector<std::string> standard_optic_names() {
    std::vector<std::string> names;
    for (const OpticProduct& product : standard_optics())
        names.push_back(product.id);
    return names;
}

}  // namespace spadework
