"""spadework survey: from real maps, and from the shipped one, to a site file that compares as it is."""

import json
import pathlib
import random
import tempfile
import unittest

from running import CANNOT_WRITE, INVALID_SITE, OK, SCENARIOS, SHARED, USAGE, run

MAPS = SHARED / "data" / "maps"
HERON = SCENARIOS / "survey" / "heron-meadow.kml"
HUBS = {"rockville_college_us": "Campus Center", "harsdorf_village_de": "Gemeindeverwaltung Harsdorf",
        "frederiksted_town_vi": "Senate Building", "atlanta_tiny_us": "-84.5632848,33.6366795"}


class Survey(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)
        self.site = self.folder / "site.yaml"

    def survey(self, *arguments):
        """Surveys into self.site and returns the findings."""
        ended = run("survey", *arguments, "--force", "--quiet", "--format", "json", "-o", self.site)
        self.assertEqual(ended.code, OK, ended.err)
        return json.loads(ended.out)

    def map(self, name):
        path = MAPS / name
        if not path.exists():
            self.skipTest(f"no {path}")
        return path

    def test_every_real_map_becomes_a_site_that_compares_as_it_is(self):
        for name, hub in HUBS.items():
            with self.subTest(map=name):
                self.survey(self.map(name + ".geojson"), f"--hub={hub}", "--nearest", "5")
                ended = run("check", self.site)
                self.assertEqual((ended.code, ended.err), (OK, ""))
                ended = run("compare", self.site, "--layouts", "home-runs,trunk-one", "--time-limit", "10", "--quiet",
                            "--format", "json")
                self.assertEqual(ended.code, OK, ended.err)
                self.assertTrue(json.loads(ended.out)["cheapest"])

    def test_the_note_of_the_site_says_whose_data_it_is(self):
        self.survey(self.map("rockville_college_us.geojson"), "--hub", "Campus Center", "--nearest", "3")
        self.assertIn("OpenStreetMap contributors", self.site.read_text())
        self.survey(HERON, "--hub", "Gatehouse")
        self.assertNotIn("OpenStreetMap", self.site.read_text())

    def network_of(self, *arguments):
        findings = self.survey(*arguments)
        return {key: findings[key] for key in ("lines", "metres_drawn", "parts", "crossings_apart")}

    def test_the_campus_is_the_same_network_in_every_format(self):
        expected = self.network_of(self.map("rockville_college_us.geojson"), "--hub=-77.1590,39.0980")
        for name in ("rockville_college_us.osm", "formats/rockville.kml", "formats/rockville.kmz",
                     "formats/rockville.gpx"):
            with self.subTest(format=name):
                found = self.network_of(self.map(name), "--hub=-77.1590,39.0980")
                self.assertEqual(found["lines"], expected["lines"])
                self.assertAlmostEqual(found["metres_drawn"], expected["metres_drawn"], delta=1)
                if not name.endswith("gpx"):  # Tracks carry no levels.
                    self.assertEqual(found["parts"], expected["parts"])
                    self.assertEqual(len(found["crossings_apart"]), len(expected["crossings_apart"]))

    def test_paths_from_one_file_and_buildings_from_another_go_together(self):
        paths = json.loads(self.map("rockville_college_us.geojson").read_text())
        paths["features"] = [f for f in paths["features"] if f["geometry"]["type"] == "LineString"]
        only_paths = self.folder / "paths.geojson"
        only_paths.write_text(json.dumps(paths))
        for table in ("rockville_buildings.csv", "rockville_buildings_excel_de.csv"):
            findings = self.survey(only_paths, self.map("formats/" + table), "--hub", "Campus Center")
            self.assertGreater(findings["buildings_mapped"], 40)
            self.assertEqual(findings["lines"], 252)

    def test_projected_metres_without_a_declared_system_are_refused_with_the_reason(self):
        for name in ("rockville_paths_3857_nocrs.geojson", "rockville_paths_epsg32618.geojson", "rockville_utm18n.dxf"):
            path = self.map("formats/" + name)
            ended = run("survey", path, "--hub", "x", "-o", self.site)
            self.assertEqual(ended.code, INVALID_SITE, name)
            self.assertIn("no site file was written", ended.err)
            self.assertFalse(self.site.exists())

    def test_features_in_another_order_make_the_same_site(self):
        data = json.loads(self.map("rockville_college_us.geojson").read_text())
        texts = set()
        for number in range(3):
            random.Random(number).shuffle(data["features"])
            (self.folder / "map.geojson").write_text(json.dumps(data))
            self.survey(self.folder / "map.geojson", "--hub", "Campus Center")
            texts.add(self.site.read_text())
        self.assertEqual(len(texts), 1)

    def test_the_shipped_map_shows_joins_crossings_and_what_is_left_over(self):
        findings = self.survey(HERON, "--hub", "Gatehouse", "--open-ground")
        self.assertEqual(len(findings["dead_ends_joined"]), 1)
        self.assertEqual([part["nearest_line"] for part in findings["left_over"]], ["North shore walk"])
        self.assertEqual([each["building"] for each in findings["buildings_left_out"]], ["North hut"])
        self.assertEqual([each["building"] for each in findings["laterals"] if each["to_entrance"]], ["Boathouse"])
        self.assertEqual({barred["reason"] for barred in findings["barred"]}, set())
        self.assertGreaterEqual(findings["areas_taken"], 2)
        self.assertEqual(run("check", self.site).code, OK)

    def test_buildings_are_chosen_by_name_by_list_by_number_and_by_area(self):
        names = lambda findings: {each["building"] for each in findings["laterals"]} - {"Gatehouse"}
        common = (HERON, "--hub", "gatehouse")
        self.assertEqual(names(self.survey(*common, "--building", "Greenhouse")), {"Greenhouse"})
        (self.folder / "list.txt").write_text("# wanted\nGreenhouse\r\n  Boathouse  \n\n")
        self.assertEqual(names(self.survey(*common, "--buildings-from", self.folder / "list.txt")),
                         {"Greenhouse", "Boathouse"})
        self.assertEqual(len(names(self.survey(*common, "--nearest", "2"))), 2)
        ring = [[-29.9975, 45.0010], [-29.9955, 45.0010], [-29.9955, 45.0015], [-29.9975, 45.0015], [-29.9975, 45.0010]]
        (self.folder / "area.geojson").write_text(json.dumps({"type": "Polygon", "coordinates": [ring]}))
        self.assertEqual(names(self.survey(*common, "--within", self.folder / "area.geojson")), {"Boathouse"})

    def test_a_plan_in_metres_is_laid_on_the_map_by_control_points(self):
        plan = {"type": "FeatureCollection", "features": [
            {"type": "Feature", "properties": {"name": name}, "geometry": {"type": kind, "coordinates": coordinates}}
            for name, kind, coordinates in (("way", "LineString", [[0, 0], [100, 0], [200, 50]]),
                                            ("hall", "Point", [0, 10]), ("shed", "Point", [150, 40]))]}
        (self.folder / "plan.geojson").write_text(json.dumps(plan))
        (self.folder / "points.csv").write_text("x,y,lon,lat\n0,0,-30,45\n"
                                                "200,0,-29.99746344,45\n0,200,-30,45.00179967\n")
        findings = self.survey("--plan", self.folder / "plan.geojson", "--control-points", self.folder / "points.csv",
                               "--hub", "hall")
        self.assertLess(findings["plans"][0]["root_mean_square_metres"], 0.1)
        self.assertAlmostEqual(findings["metres_drawn"], 100 + (100**2 + 50**2) ** 0.5, delta=0.3)

    def test_mistakes_are_told_with_what_would_be_right(self):
        for arguments, code, words in (
                ((HERON, "-o", self.site), INVALID_SITE, ("no hub is chosen", "'Gatehouse'")),
                ((HERON, "--hub", "Gatehous", "-o", self.site), INVALID_SITE, ("did you mean 'Gatehouse'?",)),
                ((HERON, "--hub", "0,0", "-o", self.site), INVALID_SITE, ("m from the nearest line",)),
                ((HERON, "--hub", "Gatehouse"), USAGE, ("--output",)),
                (("-o", self.site, "--hub", "x"), USAGE, ("MAP",)),
                ((HERON, "--hub", "Gatehouse", "-o", self.site, "--currency", "EURO"), USAGE, ("--currency",)),
                ((HERON, "--hub", "Gatehouse", "-o", self.site, "--rate", "fast"), USAGE, ("--rate",)),
                ((HERON, "--hub", "Gatehouse", "-o", self.site, "--snap", "-1"), USAGE, ("--snap",)),
                ((HERON, "--hub", "Gatehouse", "-o", self.site, "--default-ground", "gras"), INVALID_SITE,
                 ("did you mean 'grass'?",)),
                ((HERON, "--hub", "Gatehouse", "-o", self.site, "--plan", HERON), USAGE, ("--control-points",)),
                ((self.folder / "absent.kml", "--hub", "x", "-o", self.site), INVALID_SITE, ("cannot be read",))):
            with self.subTest(arguments=arguments):
                ended = run("survey", *arguments)
                self.assertEqual((ended.code, ended.out), (code, ""))
                for word in words:
                    self.assertIn(word, ended.err)
                self.assertFalse(self.site.exists())

    def test_a_file_that_cannot_be_written_is_told_by_the_name_that_was_asked_for(self):
        too_long = self.folder / ("x" * 300)
        ended = run("survey", HERON, "--hub", "Gatehouse", "-o", too_long)
        self.assertEqual(ended.code, CANNOT_WRITE)
        self.assertIn(f"cannot write {too_long}: ", ended.err)

    def test_an_area_of_a_name_too_long_for_a_file_is_looked_for_on_the_maps(self):
        ended = run("survey", HERON, "--hub", "Gatehouse", "--within", "x" * 300, "-o", self.site)
        self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
        self.assertIn("--within: error: no area in 'xxx", ended.err)

    def test_a_site_file_that_is_there_is_not_written_over_unless_forced(self):
        self.site.write_text("mine")
        ended = run("survey", HERON, "--hub", "Gatehouse", "-o", self.site)
        self.assertEqual((ended.code, self.site.read_text()), (CANNOT_WRITE, "mine"))
        self.assertIn("--force", ended.err)
        self.survey(HERON, "--hub", "Gatehouse")
        self.assertEqual([path.name for path in self.folder.iterdir()], ["site.yaml"])

    def test_the_site_goes_to_standard_output_and_can_be_compared_from_there(self):
        ended = run("survey", HERON, "--hub", "Gatehouse", "-o", "-")
        self.assertEqual(ended.code, OK)
        self.assertIn("Metres by ground", ended.err)
        self.assertEqual(run("check", "-", stdin=ended.out).code, OK)

    def test_the_table_of_tags_can_be_printed_changed_and_used(self):
        table = run("survey", "--print-table").out
        self.assertEqual(table, (SCENARIOS / "survey" / "tags.yaml").read_text())
        changed = self.folder / "tags.yaml"
        changed.write_text(table.replace("ground: steps, over-surface: true",
                                         "use: barred, reason: no digging in steps"))
        findings = self.survey(HERON, "--hub", "Gatehouse", "--table", changed)
        self.assertEqual([barred["reason"] for barred in findings["barred"]], ["no digging in steps"])
        changed.write_text(table.replace("ground: steps", "ground: stairs"))
        ended = run("survey", HERON, "--hub", "Gatehouse", "--table", changed, "--force", "-o", self.site)
        self.assertEqual(ended.code, INVALID_SITE)
        self.assertIn(f"{changed}:", ended.err)
        self.assertIn("no ground 'stairs'", ended.err)

    def test_sections_of_ones_own_go_into_the_site(self):
        grounds = self.folder / "grounds.yaml"
        grounds.write_text((SCENARIOS / "survey" / "grounds.yaml").read_text().replace("labour: 0.20", "labour: 0.77"))
        self.survey(HERON, "--hub", "Gatehouse", "--grounds", grounds)
        self.assertIn("labour: 0.77", self.site.read_text())

    def test_hostile_names_come_through_as_text(self):
        name = "a\u202eb'\"]}, {id: x} # <script>&\\"
        data = {"type": "FeatureCollection", "features": [
            {"type": "Feature", "properties": {"highway": "path", "name": name},
             "geometry": {"type": "LineString", "coordinates": [[11.5, 50], [11.501, 50]]}},
            {"type": "Feature", "properties": {"building": "yes", "name": "hub"},
             "geometry": {"type": "Point", "coordinates": [11.5, 50.0001]}},
            {"type": "Feature", "properties": {"building": "yes", "name": name + "x" * 5000},
             "geometry": {"type": "Point", "coordinates": [11.501, 50.0001]}}]}
        path = self.folder / "map.geojson"
        path.write_text(json.dumps(data))
        ended = run("survey", path, "--hub", "hub", "-o", self.site)
        self.assertEqual(ended.code, OK, ended.err)
        self.assertNotIn("\u202e", ended.out)
        ended = run("check", self.site)
        self.assertEqual((ended.code, ended.err), (OK, ""))


if __name__ == "__main__":
    unittest.main()
