"""Two ways that have no cut in common but bridges."""

import heapq
import math


class TwoWays:
    """Ways over the segments of edges, as cuts take a segment with all that lies in it."""

    def __init__(self, edges, passes):
        """`passes` is what each pass of an edge costs besides."""
        self.edges, self.passes = edges, passes
        self.ends = {edge["segment"]: (edge["from"], edge["to"]) for edge in edges}
        self.at = {}
        for name, (start, end) in self.ends.items():
            self.at.setdefault(start, []).append((end, name))
            self.at.setdefault(end, []).append((start, name))
        self.bridges = {name for name in self.ends if self.is_bridge(name)}

    def is_bridge(self, without):
        """Whether the map has no way round a segment."""
        start, end = self.ends[without]
        reached, waiting = {start}, [start]
        while waiting:
            for place, name in self.at[waiting.pop()]:
                if name != without and place not in reached:
                    reached.add(place)
                    waiting.append(place)
        return end not in reached

    def least(self, source, target, prices):
        """What two ways cost at least: prices of each segment once, and its passes. A second cheapest way that may take
        back parts of the first, and passes its bridges again (Suurballe 1974)."""
        once, twice = {}, {}
        for edge, forwards, backwards, a_pass in zip(self.edges, *prices, self.passes):
            name, price = edge["segment"], forwards + backwards
            once[name] = min(once.get(name, math.inf), price + a_pass)
            twice[name] = min(twice.get(name, math.inf), price + 2 * a_pass)
        first, steps = self.first_way(source, target, once)
        return first + self.second_way(source, target, once, twice, steps)

    def first_way(self, source, target, once):
        """Its cost, and for each segment on it where it goes."""
        came, queue = {}, [(0, source, source, "")]
        while queue:
            cost, place, before, by = heapq.heappop(queue)
            if place in came:
                continue
            came[place] = before, by, cost
            for after, name in self.at[place]:
                if after not in came:
                    heapq.heappush(queue, (cost + once[name], after, place, name))
        steps, place = {}, target
        while place != source:
            before, by, _ = came[place]
            steps[by] = place
            place = before
        return came[target][2], steps

    def second_way(self, source, target, once, twice, steps):
        """As parts taken back cost less than nothing, places are looked at again until nothing falls (Bellman 1958)."""
        cost, waiting = {source: 0}, [source]
        while waiting:
            place = waiting.pop(0)
            for after, name in self.at[place]:
                if name not in steps:
                    step = once[name]
                elif name in self.bridges:
                    step = twice[name] - once[name]
                elif steps[name] == place:
                    step = -once[name]
                else:
                    continue
                if cost[place] + step < cost.get(after, math.inf):
                    cost[after] = cost[place] + step
                    waiting.append(after)
        return cost[target]
