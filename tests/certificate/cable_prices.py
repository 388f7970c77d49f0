"""What cable costs at least, a metre and as it is bought, from the prices of a site."""

import dataclasses
import functools

from site_model import MILLIMETRES, SECONDS, THOUSANDTHS, nearest, rounded_up


@dataclasses.dataclass(frozen=True)
class LeastCable:
    """A cable for so many strands, each figure from whichever product makes it least."""
    strands: int
    metre: int  # thousandths of a minor unit a metre of route
    pieces: int  # cables in parallel
    ends: int  # minor units: rise, coils and factory-made ends at both


class CablePrices:
    def __init__(self, site):
        self.site = site
        self.price = functools.cache(self.price)

    def least_of_sets(self, strands, price):
        """Least price of one product that holds the strands, or of several where none is large enough."""
        alone = [price(cable) for cable in self.site.catalogue.cables if cable.strands >= strands]
        if alone:
            return min(alone)
        least = [0]
        for covered in range(1, strands + 1):
            least.append(min(price(cable) + least[max(0, covered - cable.strands)]
                             for cable in self.site.catalogue.cables))
        return least[strands]

    def with_slack(self, route):
        return rounded_up((route + self.site.rules.ends) * (1 + self.site.rules.allowance))

    def made_ends(self, cable):
        return nearest(2 * cable.end, THOUSANDTHS) if self.site.rules.factory else 0

    def ordered(self, cable, route):
        """Length as it is bought, and in how many places that is joined."""
        step = cable.step if self.site.rules.factory else MILLIMETRES
        ordered = rounded_up(self.with_slack(route), step) * step
        return ordered, max(0, rounded_up(ordered, cable.longest) - 1)

    def joint(self, cable):
        """At least: a bill rounds the work on all joints of a cable at once."""
        seconds = self.site.catalogue.set_up + self.site.catalogue.splice * cable.strands
        return max(0, nearest(self.site.catalogue.splicer * seconds, THOUSANDTHS * SECONDS) - 1)

    def of_length(self, cable, length, joints):
        return (cable.price * length // (THOUSANDTHS * MILLIMETRES) + self.made_ends(cable)
                + joints * self.joint(cable))

    def least(self, strands):
        factor = 1 + self.site.rules.allowance
        short = max(0, self.with_slack(0) - 1)  # a millimetre for rounding
        return LeastCable(strands, self.least_of_sets(strands, lambda cable: cable.price * factor // 1),
                          self.least_of_sets(strands, lambda cable: 1),
                          self.least_of_sets(strands, lambda cable: self.of_length(cable, short, 0)))

    def beyond(self, least, route):
        """What a cable costs more than its least figures where its route is at least so long: joints, or a product
        that is dearer by the metre or at its ends than the least of each."""
        short = max(0, self.with_slack(route) - 1)
        price = self.least_of_sets(least.strands,
                                   lambda cable: self.of_length(cable, short, self.ordered(cable, route)[1]))
        return max(0, price - rounded_up(least.metre * route, THOUSANDTHS * MILLIMETRES) - least.ends)

    def price(self, strands, route):
        """Cable as it is bought: in whole steps, with its ends and joints; minor units, rounded down."""
        return self.least_of_sets(strands, lambda cable: self.of_length(cable, *self.ordered(cable, route)))
