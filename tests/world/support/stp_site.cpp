#include "world/support/stp_site.hpp"

#include <fstream>
#include <sstream>

#include "layout/support/drawn_site.hpp"

namespace spadework {

namespace {

void make_everything_else_free(Scenario& site) {
    Catalogue& catalogue = site.catalogue;
    catalogue.cables = {drawing::cable(2, 0), drawing::cable(20000, 0)};
    for (CableProduct& cable : catalogue.cables) {
        cable.factory_end_price = UnitPrice();
        cable.longest = Length::from_metres(1e9);
    }
    catalogue.enclosures = {drawing::enclosure(20000, 0)};
    catalogue.optics = {drawing::optic("free", 1000, 1e9, 0)};
    catalogue.building_gear = {drawing::gear("free", GearKind::ethernet_switch, 4, 8)};
    catalogue.hub_gear = {drawing::hub_gear("free", 20000, 0)};
    catalogue.patch_cords.clear();
    site.labour = Labour{};
    site.rules.loss = {0, 0, 0, 0, 0};
}

}  // namespace

std::optional<StpNetwork> read_stp(const std::string& path) {
    std::ifstream in(path);
    if (!in) return std::nullopt;
    StpNetwork network;
    std::string line;
    while (std::getline(in, line)) {
        std::istringstream words(line);
        std::string key;
        words >> key;
        if (key == "Nodes") {
            words >> network.vertices;
        } else if (key == "E") {
            StpEdge edge;
            words >> edge.from >> edge.to >> edge.weight;
            network.edges.push_back({edge.from - 1, edge.to - 1, edge.weight});
        } else if (key == "T") {
            int terminal = 0;
            words >> terminal;
            network.terminals.push_back(terminal - 1);
        }
    }
    return network;
}

std::vector<std::vector<std::string>> read_table(const std::string& path) {
    std::vector<std::vector<std::string>> rows;
    std::ifstream in(path);
    std::string line;
    while (std::getline(in, line)) {
        if (line.empty() || line[0] == '#' || line.rfind("file\t", 0) == 0) continue;
        std::vector<std::string> row;
        std::istringstream cells(line);
        for (std::string cell; std::getline(cells, cell, '\t');)
            row.push_back(cell);
        rows.push_back(row);
    }
    return rows;
}

Scenario site_of(const StpNetwork& network, const StpPrices& prices) {
    Scenario site = drawing::bare_site();
    make_everything_else_free(site);
    site.grounds[0].methods[0].plant_per_metre = UnitPrice::from_minor(prices.trench_cents_per_metre);
    for (CableProduct& cable : site.catalogue.cables)
        cable.price_per_metre = UnitPrice::from_minor(prices.cable_cents_per_metre);
    site.places.clear();
    for (int v = 0; v < network.vertices; ++v)
        drawing::add_place(site);
    for (const StpEdge& edge : network.edges)
        drawing::add_segment(site, edge.from, edge.to, edge.weight * prices.metres_per_weight);
    site.hub.place = network.terminals.front();
    site.places[static_cast<std::size_t>(site.hub.place)].kind = PlaceKind::hub;
    for (std::size_t t = 1; t < network.terminals.size(); ++t)
        drawing::add_building(site, network.terminals[t]);
    return site;
}

}  // namespace spadework
