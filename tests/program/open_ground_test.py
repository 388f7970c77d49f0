"""Open ground through the program: plans across lawns, their certificates, and a real campus with its lawns opened."""

import json
import pathlib
import re
import tempfile
import unittest
import xml.etree.ElementTree

from running import NOT_PROVED, OK, SCENARIOS, SHARED, run

GREEN = SCENARIOS / "green.yaml"
LAYOUTS = "home-runs,trunk-one"
CAMPUS = SHARED / "data" / "maps" / "rockville_college_us.osm"


def without_areas(text):
    """The site without its section of areas."""
    return re.sub(r"  areas:\n(    .*\n)+", "", text)


def totals(site, *options):
    """What each layout costs in minor units, and the whole result."""
    ended = run("compare", site, "--format", "json", *options)
    result = json.loads(ended.out)
    return {each["layout"]: each["total_cost"] for each in result["layouts"] if each["status"] == "feasible"}, result


class Green(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.scratch = tempfile.TemporaryDirectory()
        cls.folder = pathlib.Path(cls.scratch.name)
        cls.certified = cls.folder / "certified"
        cls.ended = run("compare", GREEN, "--certificate", cls.certified, "--format", "json", "--layouts", LAYOUTS,
                        "--time-limit", "10")
        cls.result = json.loads(cls.ended.out)

    @classmethod
    def tearDownClass(cls):
        cls.scratch.cleanup()

    def test_every_layout_is_cheaper_than_on_walks_alone(self):
        walks = self.folder / "walks.yaml"
        walks.write_text(without_areas(GREEN.read_text()))
        on_walks, _ = totals(walks, "--layouts", LAYOUTS)
        for each in self.result["layouts"]:
            self.assertLess(each["total_cost"], on_walks[each["layout"]], each["layout"])

    def test_the_result_says_what_the_bound_speaks_of(self):
        laid = self.result["open_ground"]
        self.assertEqual((laid["areas"], laid["directions"], laid["longest_detour_percent"]), (4, 16, 2.75))
        self.assertGreater(laid["segments"], 1000)
        text = " ".join(run("compare", GREEN, "--layouts", "home-runs", "--time-limit", "4").out.split())
        self.assertIn("Open ground (1 area) was laid out as a lattice with points every 8 m and ways in 16 directions", text)
        self.assertRegex(text, r"6 buildings, \d+ segments on the map and [\d,]+ over open ground")
        self.assertIn("at most 2.75 % longer than the straight line", text)

    def test_certificates_are_proved_and_carry_the_straight_lines(self):
        verified = run("verify", GREEN, self.certified)
        self.assertEqual((verified.code, verified.err), (OK, ""), verified.out)
        certificate = json.loads((self.certified / "home-runs.certificate.json").read_text())
        self.assertEqual(len(certificate["straight_lines"]), self.result["open_ground"]["straight_lines"])

    def refused(self, start, end):
        """What verify says to the home runs' certificate with one more straight line."""
        file = "home-runs.certificate.json"
        certificate = json.loads((self.certified / file).read_text())
        lines = certificate["straight_lines"]
        lines.append({"segment": f"straight line {len(lines) + 1} in green", "from": start, "to": end,
                      "like": lines[0]["like"]})
        folder = self.folder / "changed"
        folder.mkdir(exist_ok=True)
        (folder / file).write_text(json.dumps(certificate))
        ended = run("verify", GREEN, folder)
        self.assertEqual((ended.code, ended.err), (NOT_PROVED, ""))
        return " ".join(ended.out.split())

    def test_a_line_through_an_obstacle_out_of_the_green_or_through_the_trees_is_refused(self):
        self.assertIn("enters the obstacle pond", self.refused("green 17,10", "green 4,10"))
        self.assertIn("leaves open ground", self.refused("north-west", "school"))
        self.assertIn("does not lie in the same open ground", self.refused("green 13,4", "green 20,5"))

    def test_the_answer_does_not_depend_on_the_number_of_threads(self):
        one = run("compare", GREEN, "--format", "json", "--threads", "1", "--layouts", "home-runs")
        two = run("compare", GREEN, "--format", "json", "--threads", "2", "--layouts", "home-runs")
        self.assertEqual(one.out, two.out)


def grass_of(osm):
    """Closed ways of an OSM file that are grass, as GeoJSON features."""
    root = xml.etree.ElementTree.parse(osm).getroot()
    nodes = {node.get("id"): [float(node.get("lon")), float(node.get("lat"))] for node in root.iter("node")}
    features = []
    for way in root.iter("way"):
        tags = {tag.get("k"): tag.get("v") for tag in way.iter("tag")}
        ring = [nodes[nd.get("ref")] for nd in way.iter("nd") if nd.get("ref") in nodes]
        if tags.get("landuse") == "grass" and len(ring) > 3 and ring[0] == ring[-1]:
            features.append({"type": "Feature", "id": "way/" + way.get("id"), "properties": {"landuse": "grass"},
                             "geometry": {"type": "Polygon", "coordinates": [ring]}})
    return features


@unittest.skipUnless(CAMPUS.exists(), f"skipped: no file {CAMPUS}")
class RealCampus(unittest.TestCase):
    HEAD = """format: 1
site: College
currency: USD
hub: {near: [-77.1590, 39.0990]}
map:
  geojson:
    file: map.geojson
    grounds: {property: surface, values: {asphalt: paving, concrete: paving, grass: grass}, default: paving}
    buildings: {property: building, take: all, nearest: 20}
    cut-off: skip
"""
    AREAS = """    areas:
      - {property: landuse, values: {grass: {use: open-ground, ground: grass}}}
      - {property: building, values: {'*': {use: obstacle, bars-segments: false}}}
"""

    def test_with_its_lawns_open_the_campus_costs_less_than_on_paths_alone(self):
        campus = json.loads(CAMPUS.with_suffix(".geojson").read_text())
        campus["features"] += grass_of(CAMPUS)
        rest = GREEN.read_text()
        rest = re.sub(r"^(hub|buildings|growth):.*\n(  .*\n|\n)*", "", rest[rest.index("grounds:"):], flags=re.M)
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            (folder / "map.geojson").write_text(json.dumps(campus))
            (folder / "paths.yaml").write_text(self.HEAD + rest)
            (folder / "lawns.yaml").write_text(self.HEAD + self.AREAS + rest)
            options = ("--layouts", "home-runs", "--time-limit", "4")
            on_paths, _ = totals(folder / "paths.yaml", *options)
            with_lawns, result = totals(folder / "lawns.yaml", *options)
        self.assertGreater(result["open_ground"]["segments"], 100)
        self.assertLess(with_lawns["home-runs"], on_paths["home-runs"])


if __name__ == "__main__":
    unittest.main()
