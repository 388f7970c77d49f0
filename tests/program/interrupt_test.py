"""Ctrl-C: the best so far is printed with its bound; a second one ends the program at once."""

import json
import os
import pathlib
import pty
import select
import signal
import subprocess
import tempfile
import unittest

from running import INTERRUPTED, PATIENCE_SECONDS, PROGRAM, SCENARIOS, read_until_closed

SIDE = 45  # Places along each side of the square map: too many to be done with soon.


def large_site():
    """A street grid of invented buildings, with the lakeside site's prices and rules."""
    lakeside = (SCENARIOS / "lakeside.yaml").read_text()
    settings = lakeside[lakeside.index("\ngrounds:"):lakeside.index("\nhub:")]
    prices = lakeside[lakeside.index("\ncatalogue:"):]
    places, segments, buildings = [], [], []
    for x in range(SIDE):
        for y in range(SIDE):
            here = f"p{x}-{y}"
            is_hub, is_building = (x, y) == (SIDE // 2, SIDE // 2), (7 * x + 11 * y) % 13 == 0
            kind = "hub" if is_hub else "building" if is_building else "junction"
            places.append(f"    - {{id: {here}, kind: {kind}, at: [{10 * x}, {10 * y}]}}")
            ground = ("grass", "gravel", "paving", "asphalt")[(3 * x + 5 * y + x * y) % 4]
            if x + 1 < SIDE:
                segments.append(f"    - {{id: e{x}-{y}, from: {here}, to: p{x + 1}-{y}, ground: {ground}}}")
            if y + 1 < SIDE:
                segments.append(f"    - {{id: n{x}-{y}, from: {here}, to: p{x}-{y + 1}, ground: {ground}}}")
            if is_building and not is_hub:
                buildings.append(f"  - {{id: {here}, place: {here}, links: [{{rate: 1G}}]}}")
    hub = f"p{SIDE // 2}-{SIDE // 2}"
    prices = prices.replace("max-enclosures: 2", "max-enclosures: 6").replace("hop-limit: 4", "hop-limit: 20")
    return "\n".join(["format: 1", "site: Grid", "currency: EUR", "map:", "  places:", *places, "  segments:", *segments,
                      settings, f"hub: {{place: {hub}}}", "buildings:", *buildings, prices])


class Interrupt(unittest.TestCase):
    def test_the_best_so_far_is_printed_with_its_bound(self):
        with tempfile.TemporaryDirectory() as folder:
            site = pathlib.Path(folder) / "site.yaml"
            site.write_text(large_site())
            self.interrupted_run(site)

    def interrupted_run(self, site):
        ours, theirs = pty.openpty()
        process = subprocess.Popen([PROGRAM, "compare", str(site), "--format", "json", "--time-limit", "60"],
                                   stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=theirs)
        os.close(theirs)
        self.assertTrue(select.select([ours], [], [], PATIENCE_SECONDS)[0], "no progress was drawn")
        process.send_signal(signal.SIGINT)
        out, _ = process.communicate(timeout=PATIENCE_SECONDS)
        screen = read_until_closed(ours)
        os.close(ours)
        self.assertEqual(process.returncode, INTERRUPTED, screen)
        self.assertIn("interrupted; this is the best so far", screen)
        feasible = [layout for layout in json.loads(out)["layouts"] if layout["status"] == "feasible"]
        self.assertNotEqual(feasible, [])
        for layout in feasible:
            self.assertLessEqual(layout["lower_bound"], layout["total_cost"])


if __name__ == "__main__":
    unittest.main()
