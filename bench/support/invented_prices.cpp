#include "support/invented_site.hpp"

namespace spadework::bench {

const char* invented_prices() {
    return R"(grounds:
  verge:
    methods:
      - {id: open cut, kind: open-cut, labour: 0.20, plant: 4.40, material: 1.50, reinstatement: 3.20, depth: 0.7,
         duct: 1.55}
  paving:
    methods:
      - {id: open cut, kind: open-cut, labour: 0.41, plant: 6.10, material: 3.00, reinstatement: 18.50, depth: 0.6,
         duct: 1.55}
  asphalt path:
    methods:
      - {id: open cut, kind: open-cut, labour: 0.36, plant: 7.20, material: 3.40, reinstatement: 15.00, depth: 0.6,
         duct: 1.55}
      - {id: narrow trench, kind: narrow-trench, labour: 0.20, plant: 12.00, material: 6.00, reinstatement: 9.00,
         set-up: 420, depth: 0.4, duct: 1.55}
  street:
    methods:
      - {id: open cut, kind: open-cut, labour: 0.55, plant: 10.50, material: 4.50, reinstatement: 36.00, depth: 0.9,
         duct: 1.55}
  main road:
    methods:
      - {id: bore, kind: bore, labour: 0.80, plant: 47.00, set-up: 1250, depth: 1.4, duct: 2.75}
      - {id: open cut, kind: open-cut, labour: 0.70, plant: 14.00, material: 6.00, reinstatement: 62.00, set-up: 900,
         depth: 0.9, duct: 1.55}
  park:
    methods:
      - {id: plough, kind: plough, labour: 0.07, plant: 9.00, material: 0.50, reinstatement: 5.00, set-up: 370,
         depth: 0.8, duct: 1.55}
      - {id: open cut, kind: open-cut, labour: 0.22, plant: 4.50, material: 1.50, reinstatement: 9.00, depth: 0.7,
         duct: 1.55}
  yard:
    methods:
      - {id: saw cut, kind: narrow-trench, labour: 0.26, plant: 9.10, material: 5.00, reinstatement: 13.00, depth: 0.3,
         duct: 1.55}

catalogue:
  cables:
    - {id: cable-4, strands: 4, price: 0.79, end: 35, step: 10, longest: 2500, diameter: 0.007}
    - {id: cable-12, strands: 12, price: 1.14, end: 69, step: 10, longest: 2500, diameter: 0.009}
    - {id: cable-24, strands: 24, price: 1.69, end: 121, step: 10, longest: 2500, diameter: 0.011}
    - {id: cable-48, strands: 48, price: 2.68, end: 225, step: 25, longest: 2000, diameter: 0.013}
    - {id: cable-96, strands: 96, price: 4.37, end: 428, step: 25, longest: 2000, diameter: 0.016}
    - {id: cable-144, strands: 144, price: 6.15, end: 637, step: 50, longest: 1500, diameter: 0.018}
    - {id: cable-288, strands: 288, price: 11.40, end: 1240, step: 50, longest: 1500, diameter: 0.022}
  enclosures:
    - {id: cabinet-12, adapters: 12, price: 252, install-hours: 2.5}
    - {id: cabinet-24, adapters: 24, price: 318, install-hours: 3}
    - {id: cabinet-48, adapters: 48, price: 467, install-hours: 3.5}
    - {id: cabinet-96, adapters: 96, price: 755, install-hours: 5}
    - {id: cabinet-192, adapters: 192, price: 1310, install-hours: 7}
  optics:
    - {id: lx10, standard: 1000BASE-LX10, price: 16}
    - {id: far-1g, rate: 1G, strand-use: duplex, reach: 30000, price: 61, source: invented,
       to-building: {wavelength: 1310, launch-min: -4, launch-max: 0, receive-min: -24, receive-max: -3}}
    - {id: lr, standard: 10GBASE-LR, price: 45}
    - {id: er, standard: 10GBASE-ER, price: 210}
  building-gear:
    - {id: converter, kind: media-converter, optic-ports: 1, copper-ports: 1, fastest-rate: 1G, price: 54,
       install-hours: 0.5}
    - {id: edge-8, kind: poe-switch, optic-ports: 1, copper-ports: 8, poe-budget: 130, fastest-rate: 1G, price: 222,
       install-hours: 1}
    - {id: edge-16, kind: poe-switch, optic-ports: 2, copper-ports: 16, poe-budget: 300, fastest-rate: 1G, price: 388,
       install-hours: 1.5}
    - {id: edge-24, kind: poe-switch, optic-ports: 4, copper-ports: 24, poe-budget: 370, fastest-rate: 1G, price: 560,
       install-hours: 1.5}
    - {id: fast-16, kind: poe-switch, optic-ports: 4, copper-ports: 16, poe-budget: 300, fastest-rate: 10G, price: 685,
       install-hours: 1.5}
  hub-gear:
    - {id: core-8, optic-ports: 8, fastest-rate: 10G, price: 515, install-hours: 1.5}
    - {id: core-24, optic-ports: 24, fastest-rate: 10G, price: 1170, install-hours: 2}
    - {id: core-48, optic-ports: 48, fastest-rate: 10G, price: 1930, install-hours: 2.5}
  patch-cords:
    - {id: cord-duplex, strands: 2, price: 8}
  splicing: {pigtail: 6, hours-per-splice: 0.2, set-up-hours: 0.75, rate: 70}

labour: {groundworks-rate: 60, installer-rate: 48, mobilisation: 3500}
)";
}

}  // namespace spadework::bench
