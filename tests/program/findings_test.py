"""What checks find, through the program: exact findings, in every kind of output, and what they make of a plan."""

import csv
import json
import pathlib
import tempfile
import unittest

from running import INFEASIBLE, NOT_PROVED, OK, run

LX = "{id: lx, standard: 1000BASE-LX, price: 12}"
LX10 = "{id: lx10, standard: 1000BASE-LX10, price: 19}"
BX10 = "{id: bx10, standard: 1000BASE-BX10, price: 23}"
ER = "{id: er, standard: 10GBASE-ER, price: 310}"
SWITCH = ("{id: switch, kind: poe-switch, optic-ports: 4, copper-ports: 8, poe-budget: 130, fastest-rate: 10G, "
          "price: 260, install-hours: 1}")
CORE = "{id: core, optic-ports: 8, copper-ports: 4, fastest-rate: 10G, price: 480, install-hours: 1.5}"
CORDS = "{id: cord-2, strands: 2, price: 9}, {id: cord-1, strands: 1, price: 6}"


def site(optics=(LX10,), attenuators=(), gear=SWITCH, hub_gear=CORE, hub="", building="", rate="1G", metres=5000,
         duct="", rules="", cable="strands: 12, price: 1.3, end: 74", buildings=("mill",)):
    """An invented site: a hub, a gate, and buildings behind the gate, each on a spur of its own."""
    spurs = "".join(f"    - {{id: spur-{b}, from: gate, to: {b}, ground: grass, length: 20}}\n" for b in buildings)
    places = "".join(f"    - {{id: {b}, at: [{metres}, {20 * (i + 1)}]}}\n" for i, b in enumerate(buildings))
    wanted = "".join(f"  - {{id: {b}, links: [{{rate: {rate}}}]{building}}}\n" for b in buildings)
    return f"""format: 1
site: Invented for findings
currency: EUR
map:
  places:
    - {{id: hub, at: [0, 0]}}
    - {{id: gate, at: [{metres - 20}, 0]}}
{places}  segments:
    - {{id: drive, from: hub, to: gate, ground: grass, length: {metres - 20}{duct}}}
{spurs}grounds:
  grass: {{methods: [{{id: open cut, kind: open-cut, labour: 0.2, plant: 4, depth: 0.6}}]}}
existing-duct: {{pull: 0.02}}
hub: {{place: hub{hub}}}
buildings:
{wanted}catalogue:
  cables:
    - {{id: cable-12, {cable}, step: 10, longest: 9000, diameter: 0.009}}
  enclosures:
    - {{id: post-24, adapters: 24, price: 210, install-hours: 1}}
  optics: [{", ".join(optics)}]
  attenuators: [{", ".join(attenuators)}]
  building-gear: [{gear}]
  hub-gear: [{hub_gear}]
  patch-cords: [{CORDS}]
  splicing: {{pigtail: 6, hours-per-splice: 0.25, set-up-hours: 1.0, rate: 75}}
labour: {{groundworks-rate: 62, installer-rate: 48}}
{rules}
"""


class OfSites(unittest.TestCase):
    """Writes sites and compares their layouts."""

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def write(self, text):
        path = self.folder / "site.yaml"
        path.write_text(text)
        return path

    def compared(self, text, *options, layouts="home-runs"):
        """Exit code and the first layout."""
        ended = run("compare", self.write(text), "--format", "json", "--layouts", layouts, *options)
        self.assertNotEqual(ended.out, "", ended.err)
        return ended.code, json.loads(ended.out)["layouts"][0]


class Findings(OfSites):
    def errors(self, text, layouts="home-runs"):
        """The error findings of a site on which the layout cannot be built."""
        code, layout = self.compared(text, layouts=layouts)
        self.assertEqual((code, layout["status"]), (INFEASIBLE, "infeasible"))
        return [finding for finding in layout["findings"] if finding["severity"] == "error"]

    def only_error(self, text, layouts="home-runs"):
        errors = self.errors(text, layouts)
        self.assertEqual(len(errors), 1, errors)
        return errors[0]

    def assert_figures(self, finding, kind, where, measured, limit, unit):
        self.assertEqual((finding["kind"], finding["where"], finding["unit"]), (kind, where, unit))
        self.assertAlmostEqual(finding["measured"], measured, places=6)
        self.assertAlmostEqual(finding["limit"], limit, places=6)

    # 5000 m with 5 m of rise and coil at each end and 10 % are 5511 m; as it is ordered, 5520 m.
    def test_a_5_km_link_is_too_long_for_an_optic_of_5_km(self):
        self.assert_figures(self.only_error(site(optics=[LX])), "link-reach", "building mill, link 1", 5520, 5000, "m")

    def test_a_5_km_link_takes_the_optic_that_carries_it(self):
        code, layout = self.compared(site(optics=[LX, LX10]))
        self.assertEqual((code, layout["links"][0]["optic"]), (OK, "lx10"))
        self.assertEqual(layout["links"][0]["glass_m"], 5520)
        # 0.4 dB/km over 5.52 km and two mated pairs.
        self.assertAlmostEqual(layout["links"][0]["loss_db"], 0.4 * 5.52 + 1.5, places=4)

    def test_the_budget_has_the_length_of_the_test_sheet(self):
        for termination, glass in (("factory", 5520), ("spliced", 5511)):
            path = self.write(site(rules=f"rules: {{termination: {termination}}}"))
            self.assertEqual(run("compare", path, "--layouts", "home-runs", "--out", self.folder / "out").code, OK)
            with open(self.folder / "out" / "links.csv", newline="", encoding="utf-8") as links, \
                    open(self.folder / "out" / "test-sheet.csv", newline="", encoding="utf-8") as tests:
                self.assertEqual({float(row["fibre_m"]) for row in csv.DictReader(links)}, {glass})
                self.assertEqual({float(row["fibre_m"]) for row in csv.DictReader(tests)}, {glass})

    # 100 m become 130 m: 0.039 dB of fibre between 4 dBm and -1 dBm.
    def test_a_short_long_reach_link_is_overloaded_in_both_directions(self):
        errors = self.errors(site(optics=[ER], rate="10G", metres=100))
        self.assertEqual(len(errors), 2)
        for error in errors:
            self.assert_figures(error, "link-overload", "building mill, link 1", 5 - 0.3 * 0.13, 0, "dB")

    def test_attenuators_are_bought_noted_and_shown_where_they_help(self):
        text = site(optics=[ER], rate="10G", metres=100,
                    attenuators=["{id: att-3, loss: 3, price: 8}", "{id: att-7, loss: 7, price: 11}"])
        code, layout = self.compared(text, "--out", self.folder / "out")
        self.assertEqual(code, OK)
        link = layout["links"][0]
        self.assertEqual((link["attenuator_at_start"], link["attenuator_at_end"]), ("att-7", "att-7"))
        self.assertAlmostEqual(link["loss_db"], 0.039 + 1.5 + 7, places=4)
        self.assertEqual(layout["cost_by_category"]["optics"], 2 * 310 + 2 * 11)
        notes = [finding for finding in layout["findings"] if finding["kind"] == "attenuator"]
        self.assertEqual([note["severity"] for note in notes], ["note", "note"])
        self.assertAlmostEqual(notes[0]["measured"], 4.961, places=6)
        text = (self.folder / "out" / "comparison.txt").read_text()
        self.assertIn("att-7 at hub", " ".join(text.split()))
        page = (self.folder / "out" / "report.html").read_text()
        self.assertIn("att-7 at hub, att-7 at mill", page)
        with open(self.folder / "out" / "links.csv", newline="", encoding="utf-8") as links:
            row = next(csv.DictReader(links))
        self.assertEqual((row["attenuator_at_from"], row["attenuator_at_building"]), ("att-7", "att-7"))
        with open(self.folder / "out" / "test-sheet.csv", newline="", encoding="utf-8") as tests:
            after = {row["strand"]: row["attenuator_after_test"] for row in csv.DictReader(tests)}
        self.assertEqual(after, {"1": "att-7 at mill", "2": "att-7 at hub"})  # by the receiver of each strand

    def test_a_full_hub_without_gear_in_the_catalogue(self):
        text = site(hub_gear="", hub=", free-optic-ports: 1", buildings=("mill", "barn"))
        for layouts in ("home-runs", "trunk"):
            self.assert_figures(self.only_error(text, layouts), "hub-ports", "hub", 2, 1, "ports")
        self.assertEqual(self.compared(text, layouts="daisy-chain")[0], OK)  # one chain takes one port
        self.assertEqual(self.compared(text.replace("free-optic-ports: 1", "free-optic-ports: 2"))[0], OK)

    def test_growth_and_copper_at_the_hub_are_bought_or_told_as_missing(self):
        text = site(hub=", growth-ports: 7, devices: [{what: recorder}, {what: server, count: 3}]")
        code, layout = self.compared(text)
        self.assertEqual((code, layout["cost_by_category"]["hub-gear"]), (OK, 480 + 72))
        more = self.compared(text.replace("growth-ports: 7", "growth-ports: 8"))[1]
        self.assertEqual(more["cost_by_category"]["hub-gear"], 2 * (480 + 72))
        bare = text.replace("copper-ports: 4", "copper-ports: 0")
        errors = self.errors(bare)
        self.assertIn("hub-copper-ports", [error["kind"] for error in errors])
        copper = next(error for error in errors if error["kind"] == "hub-copper-ports")
        self.assert_figures(copper, "hub-copper-ports", "hub", 4, 0, "ports")

    def test_the_uplink_is_held_against_the_demand(self):
        code, layout = self.compared(site(hub=", uplink: 1G", buildings=("mill", "barn")))
        self.assertEqual(code, OK)
        finding = next(each for each in layout["findings"] if each["kind"] == "hub-uplink")
        self.assertEqual(finding["severity"], "warning")
        self.assert_figures(finding, "hub-uplink", "hub", 2000, 1000, "Mbit/s")

    def test_a_power_budget_one_watt_short(self):
        converter = ("{id: converter, kind: media-converter, optic-ports: 1, copper-ports: 1, poe-budget: 14.4, "
                     "fastest-rate: 1G, price: 60, install-hours: 0.5}")
        text = site(gear=converter, building=", devices: [{what: camera, watts: 12.95}]")
        # 12.95 W at the device are class 3: 15.4 W at the supplying side.
        self.assert_figures(self.only_error(text), "poe-budget", "building mill", 15.4, 14.4, "W")
        self.assertEqual(self.compared(text.replace("14.4", "15.4"))[0], OK)

    def test_copper_beyond_100_m(self):
        text = site(building=", devices: [{what: camera, watts: 6, copper-length: 100.5}]")
        self.assert_figures(self.only_error(text), "copper-length", "building mill", 100.5, 100, "m")
        self.assertEqual(self.compared(text.replace("100.5", "100"))[0], OK)

    def test_a_duct_one_cable_too_full(self):
        # 9 mm cables in 22 mm: two fill 33.5 %, above 31 %.
        buildings = ("mill", "barn")
        path = self.write(site(duct=", duct: {room: 2, inner-diameter: 0.022}", buildings=buildings))
        ended = run("check", path)
        self.assertEqual(ended.code, OK)
        self.assertIn("the duct in segment 'drive' is said to have room for 2 cables; rules.duct-fill leaves room for "
                      "1, as 2 in it with the catalogue's thickest of 9.0 mm fill 33.5 % of 31 %; expected room: 1, "
                      "which counts here", ended.err)
        layout = self.compared(path.read_text(), layouts="home-runs")[1]
        fills = [finding for finding in layout["findings"] if finding["kind"] == "duct-fill"]
        self.assertEqual(len(fills), 1)
        self.assertEqual(fills[0]["severity"], "note")
        self.assert_figures(fills[0], "duct-fill", "segment drive", round(100 * 81 / 484, 6), 53, "%")
        wide = self.compared(path.read_text().replace("0.022", "0.023"))[1]
        fill = next(finding for finding in wide["findings"] if finding["kind"] == "duct-fill")
        self.assert_figures(fill, "duct-fill", "segment drive", round(100 * 162 / 529, 6), 31, "%")

    def test_an_error_finding_is_in_every_output_and_leaves_nothing_to_build(self):
        path = self.write(site(optics=[LX]))
        ended = run("compare", path, "--out", self.folder / "out")
        self.assertEqual(ended.code, INFEASIBLE)
        self.assertIn("What rules layouts out", ended.out)
        self.assertIn("5,520.00", ended.out)
        page = (self.folder / "out" / "report.html").read_text()
        self.assertIn("What rules layouts out", page)
        self.assertIn("5,520.00", page)
        result = json.loads((self.folder / "out" / "comparison.json").read_text())
        self.assertIsNone(result["cheapest"])
        for layout in result["layouts"]:
            self.assertEqual(layout["status"], "infeasible")
            self.assertIn("link-reach", [finding["kind"] for finding in layout["findings"]], layout["layout"])
        with open(self.folder / "out" / "findings.csv", newline="", encoding="utf-8") as findings:
            rows = [row for row in csv.DictReader(findings) if row["kind"] == "link-reach"]
        self.assertEqual({row["layout"] for row in rows}, {layout["layout"] for layout in result["layouts"]})
        self.assertTrue(all(row["severity"] == "error" and row["limit"] == "5000" for row in rows))

    def test_the_next_rate_is_told_in_every_output(self):
        path = self.write(site())
        ended = run("compare", path, "--layouts", "home-runs", "--out", self.folder / "out")
        self.assertEqual(ended.code, OK)
        next_rate = json.loads((self.folder / "out" / "comparison.json").read_text())["layouts"][0]["links"][0]
        self.assertEqual(next_rate["longest_glass_m"], 10000)
        next_rate = next_rate["next_rate"]
        self.assertEqual((next_rate["rate"], next_rate["optic"], next_rate["in_catalogue"], next_rate["passes"]),
                         ("10G", "10GBASE-LR", False, True))
        # 6.2 dB less 0.4 dB/km over 5.52 km and two mated pairs.
        self.assertAlmostEqual(next_rate["margin_db"], 6.2 - 0.4 * 5.52 - 1.5, places=4)
        self.assertIn("yes, 2.49 dB left", ended.out)
        self.assertIn("yes, 2.49 dB left", (self.folder / "out" / "report.html").read_text())
        with open(self.folder / "out" / "links.csv", newline="", encoding="utf-8") as links:
            row = next(csv.DictReader(links))
        self.assertEqual((row["next_rate"], row["next_rate_passes"], row["next_rate_limit"]), ("10G", "yes", ""))

    def test_the_limit_that_the_next_rate_fails_is_told_with_how_much(self):
        code, layout = self.compared(site(optics=[LX10, "{id: lr-5, standard: 10GBASE-LR, reach: 5000, price: 90}"]))
        self.assertEqual(code, OK)
        next_rate = layout["links"][0]["next_rate"]
        self.assertEqual((next_rate["optic"], next_rate["passes"], next_rate["limit"], next_rate["unit"]),
                         ("lr-5", False, "reach", "m"))
        self.assertAlmostEqual(next_rate["short_by"], 520, places=4)


class StrandUse(OfSites):
    """Sites that leave it to the price whether a link takes two strands or one."""

    CABLES = ("strands: 2, price: 0.9, end: 30, step: 10, longest: 9000, diameter: 0.007}}\n"
              "    - {{id: cable-4, strands: 4, price: 2.4, end: 60")

    def either(self, **changes):
        return site(rules="rules: {strand-use: cheaper, spare: {drop-least: 0}}", optics=[LX10, BX10],
                    cable=self.CABLES.replace("{{", "{").replace("}}", "}"),
                    **{"building": ", devices: []", **changes}).replace("[{rate: 1G}]", "[{rate: 1G, count: 2}]")

    def test_the_cheaper_is_chosen_and_what_the_other_costs_is_told(self):
        # Two links take two strands or four: 4,020 m of the small cable against the large one outweigh dearer optics.
        code, layout = self.compared(self.either())
        self.assertEqual(code, OK)
        self.assertEqual(layout["strand_use"], "bidirectional")
        other = layout["other_strand_use"]
        self.assertEqual(other["strand_use"], "duplex")
        fixed = {use: self.compared(self.either().replace("cheaper", use))[1] for use in ("duplex", "bidirectional")}
        self.assertEqual(other["total_cost"], fixed["duplex"]["total_cost"])
        self.assertEqual(layout["total_cost"], fixed["bidirectional"]["total_cost"])
        self.assertEqual(layout["lower_bound"], min(each["lower_bound"] for each in fixed.values()))

    def test_a_short_way_with_cheap_duplex_optics_takes_two_strands(self):
        text = self.either(metres=60).replace("price: 23", "price: 900")
        self.assertEqual(self.compared(text)[1]["strand_use"], "duplex")

    def test_text_and_page_say_which_was_chosen(self):
        ended = run("compare", self.write(self.either()), "--layouts", "home-runs", "--out", self.folder / "out")
        text = " ".join(ended.out.split())
        self.assertIn("Every link uses one strand (bidirectional), which is cheaper here: with two strands (duplex) a "
                      "link this layout costs EUR", text)
        self.assertIn("Every link uses one strand (bidirectional)", (self.folder / "out" / "report.html").read_text())
        with open(self.folder / "out" / "layouts.csv", newline="", encoding="utf-8") as layouts:
            row = next(csv.DictReader(layouts))
        self.assertEqual(row["strand_use"], "bidirectional")
        self.assertGreater(float(row["other_strand_use_total"]), float(row["total"]))

    def test_where_one_kind_cannot_be_had_the_other_is_taken_and_its_bound_stands(self):
        text = self.either().replace("standard: 1000BASE-LX10", "standard: 1000BASE-LX10, reach: 2000")
        code, layout = self.compared(text)
        self.assertEqual((code, layout["strand_use"]), (OK, "bidirectional"))
        self.assertIsNone(layout["other_strand_use"]["total_cost"])
        self.assertIn("beyond the longest reach of 2.000 km", layout["other_strand_use"]["reason"])
        fixed = self.compared(text.replace("cheaper", "bidirectional"))[1]
        self.assertEqual(layout["lower_bound"], fixed["lower_bound"])

    def certified(self, text):
        path = self.write(text)
        ended = run("compare", path, "--certificate", self.folder / "certificates")
        self.assertEqual(ended.code, OK, ended.err)
        return path

    def test_certificates_of_both_strand_uses_are_proved(self):
        for text in (self.either(buildings=("mill", "barn")),
                     self.either().replace("standard: 1000BASE-LX10", "standard: 1000BASE-LX10, reach: 2000")):
            path = self.certified(text)
            ended = run("verify", path, self.folder / "certificates")
            self.assertEqual(ended.code, OK, ended.out + ended.err)

    def test_a_certificate_without_the_other_strand_uses_bound_proves_nothing(self):
        path = self.certified(self.either())
        for file in (self.folder / "certificates").glob("*.json"):
            certificate = json.loads(file.read_text())
            self.assertEqual(certificate["strand_use"], "bidirectional")
            self.assertEqual(certificate["other_strand_use"]["strand_use"], "duplex")
            certificate["other_strand_use"]["proof"] = None
            file.write_text(json.dumps(certificate))
        ended = run("verify", path, self.folder / "certificates")
        self.assertEqual(ended.code, NOT_PROVED)
        self.assertIn("duplex plans are said to be impossible, which the site's figures do not show",
                      " ".join(ended.out.split()))


if __name__ == "__main__":
    unittest.main()
