"""What every plan pays beside its routes: step 2b of lib/certificate/certificate.hpp, from the prices of a site."""

from site_model import SECONDS, THOUSANDTHS, nearest, rounded_up


class PlanCosts:
    """Minor units, each no more than a bill has."""

    def __init__(self, site):
        self.site = site

    def work(self, rate, seconds):
        return nearest(rate * seconds, THOUSANDTHS * SECONDS)

    def installed(self, product, pieces):
        return (nearest(product.price * pieces, THOUSANDTHS)
                + self.work(self.site.labour.installer, product.install * pieces))

    def link(self, rate, route):
        """Two optics that reach, two patch cords, testing."""
        strands = self.site.rules.strands_a_link
        optic = min(optic.price for optic in self.site.catalogue.optics
                    if optic.rate >= rate and optic.strands == strands and optic.reach >= route)
        cord = min((price for at_cord, price in self.site.catalogue.cords if at_cord == strands), default=0)
        return (nearest(2 * optic, THOUSANDTHS) + nearest(2 * cord, THOUSANDTHS)
                + self.work(self.site.labour.installer, self.site.labour.test * strands))

    def pieces(self, gear, building, optic_ports, rate):
        """How many pieces of gear, joined in a row by copper, serve a building; nothing where none do."""
        devices = [watts for count, watts in building.devices for _ in range(count)]
        fed = sorted((at_source(watts) for watts in devices if watts > 0), reverse=True)
        if gear.optic_ports < optic_ports or gear.rate < rate or (gear.converter and len(devices) > 1):
            return None
        for pieces in range(1, 65):
            joints = [(i > 0) + (i + 1 < pieces) for i in range(pieces)]
            if pieces * gear.copper_ports - sum(joints) >= len(devices) + self.site.rules.spare_ports and feeds(
                    [[gear.copper_ports - joined, gear.milliwatts] for joined in joints], fed):
                return pieces
        return None

    def gear(self, building, optic_ports, rate):
        """The cheapest gear for a building; nothing where none will do."""
        gear = [(gear, self.pieces(gear, building, optic_ports, rate)) for gear in self.site.catalogue.building_gear]
        return min((self.installed(one, pieces) for one, pieces in gear if pieces), default=None)

    def building(self, building, route):
        """Links and gear."""
        return (sum(count * self.link(rate, route) for rate, count in building.wanted)
                + self.gear(building, building.links(), building.rate()))

    def hub(self, links):
        """The cheapest set of hub gear with optic ports for so many links and copper for what stands there; nothing
        where no set will do."""
        rate = self.site.fastest_rate()
        optic = max(0, links + self.site.hub.growth_ports - self.site.hub.free_optic_ports)
        copper = max(0, self.site.hub.devices - self.site.hub.free_copper_ports)
        least = {(0, 0): 0}
        for ports in ((o, c) for o in range(optic + 1) for c in range(copper + 1) if o or c):
            less = [(self.installed(gear, 1), max(0, ports[0] - (gear.optic_ports if gear.rate >= rate else 0)),
                     max(0, ports[1] - gear.copper_ports)) for gear in self.site.catalogue.hub_gear]
            found = [price + least[o, c] for price, o, c in less if (o, c) != ports and (o, c) in least]
            least.update({ports: min(found)} if found else {})
        return least.get((optic, copper))

    def end_work(self, in_use):
        """Plugging, or splicing with pigtails, of strands at both ends of a cable."""
        if self.site.rules.factory:
            return self.work(self.site.labour.installer, 2 * in_use * self.site.labour.plug)
        seconds = self.site.catalogue.set_up + in_use * self.site.catalogue.splice
        return (self.work(self.site.catalogue.splicer, 2 * seconds)
                + nearest(2 * in_use * self.site.catalogue.pigtail, THOUSANDTHS))

    def trunk_end_work(self, in_use):
        """A building's share of it in a trunk, where set-up is shared and two minor units an end go in rounding."""
        if self.site.rules.factory:
            one = self.work(self.site.labour.installer, in_use * self.site.labour.plug)
        else:
            one = (self.work(self.site.catalogue.splicer, in_use * self.site.catalogue.splice)
                   + nearest(in_use * self.site.catalogue.pigtail, THOUSANDTHS))
        return max(0, 2 * one - 4)

    def rounding(self, cable):
        """By how much the lines of a bill may be rounded below a cable's figures: in halves one for its line, its
        pulling and each price of duct, two each for material and work at its two ends and for these figures' own sums;
        and half a second of pulling. Of each cable in parallel."""
        halves = 8 + len({duct for duct, _ in self.site.passages if duct})
        half_a_second = self.site.labour.installer // (2 * THOUSANDTHS * SECONDS) + 1
        sizes = [product.strands for product in self.site.catalogue.cables]
        most = 1 if max(sizes) >= cable.strands else rounded_up(cable.strands, min(sizes))
        return (rounded_up(halves, 2) + half_a_second) * most

    def enclosures(self, strands):
        least = [0]
        for held in range(1, max(1, strands) + 1):
            least.append(min(self.installed(one, 1) + least[max(0, held - one.copper_ports)]
                             for one in self.site.catalogue.enclosures))
        return least[-1]

    def trunk(self, cable):
        """Enclosure and ends of a trunk, without work on strands."""
        return self.enclosures(cable.strands) + cable.ends + self.end_work(0)

    def all_trunk_end_work(self):
        return sum(self.trunk_end_work(self.site.in_use(building)) for building in self.site.buildings.values())

    def beside_routes(self, cables, from_hub):
        """All but trunks, from whichever place; `cables` are the buildings' own."""
        links = sum(building.links() for building in self.site.buildings.values())
        cost = self.hub(links) + self.site.labour.mobilisation
        for building, cable in zip(self.site.buildings.values(), cables):
            cost += self.building(building, from_hub[building.place])
            cost += cable.ends + self.end_work(self.site.in_use(building)) - self.rounding(cable)
        return cost


def at_source(watts):
    """Milliwatts that a device takes at the supplying side by its class (IEEE 802.3 clauses 33 and 145)."""
    classes = ((3.84, 4000), (6.49, 7000), (12.95, 15400), (25.5, 30000), (40, 45000), (51, 60000), (62, 75000),
               (71.3, 90000))
    return next(milliwatts for most, milliwatts in classes if watts <= most)


def feeds(pieces, wanted):
    """Whether pieces of gear, each with ports and power left, feed the devices: each the first piece that has both."""
    for milliwatts in wanted:
        piece = next((piece for piece in pieces if piece[0] > 0 and piece[1] >= milliwatts), None)
        if piece is None:
            return False
        piece[0], piece[1] = piece[0] - 1, piece[1] - milliwatts
    return True
