"""spadework compare --certificate and spadework verify, end to end: what holds is proved, what was changed is not."""

import collections
import copy
import json
import pathlib
import random
import re
import shutil
import tempfile
import unittest

from running import CANNOT_WRITE, INFEASIBLE, INVALID_SITE, NOT_PROVED, OK, SCENARIOS, SHARE, USAGE, effort, run

LAKESIDE = SCENARIOS / "lakeside.yaml"
CAMPUS = SCENARIOS / "campus.yaml"
SITES = sorted(path for path in SCENARIOS.glob("*.yaml") if path.stem != "remote-mast")
# Where the build asks for a share of the work, these are planned by the tests of shipped scenarios alone.
LARGE = ("estate", "green")


def checksum(data):
    """FNV-1a, 64 bits, as 16 hexadecimal digits."""
    value = 14695981039346656037
    for byte in data:
        value = ((value ^ byte) * 1099511628211) % 2**64
    return f"{value:016x}"


def sealed(certificate):
    """The certificate as a file with a seal that fits."""
    head = json.dumps({key: value for key, value in certificate.items() if key != "seal"}, ensure_ascii=False)[:-1]
    return f'{head}, "seal": "{checksum((head + ", ").encode())}"}}'


def leaves(value, path=()):
    """(path, value) of everything that is neither object nor list."""
    if isinstance(value, dict):
        for key, member in value.items():
            yield from leaves(member, path + (key,))
    elif isinstance(value, list):
        for position, member in enumerate(value):
            yield from leaves(member, path + (position,))
    else:
        yield path, value


def kind(path):
    """The path without positions in lists."""
    return ".".join(step if isinstance(step, str) else "*" for step in path)


def changed(certificate, path, value):
    certificate = copy.deepcopy(certificate)
    inner = certificate
    for step in path[:-1]:
        inner = inner[step]
    inner[path[-1]] = value
    return certificate


class Verify(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.made = pathlib.Path(tempfile.mkdtemp())
        cls.addClassCleanup(shutil.rmtree, cls.made)
        cls.ended = {site: cls.certify(site, 20) for site in (LAKESIDE, CAMPUS)}

    @classmethod
    def certify(cls, site, seconds):
        """Compares the site within that time and writes its certificates."""
        return run("compare", site, "--certificate", cls.made / site.stem, "--time-limit", seconds)

    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def certificate(self, layout, site=LAKESIDE):
        """What was written for the layout, made to stand alone."""
        certificate = json.loads((self.made / site.stem / f"{layout}.certificate.json").read_text())
        certificate["certified_together"] = [layout]
        return certificate

    def verify_text(self, layout, text, site=LAKESIDE):
        (self.folder / f"{layout}.certificate.json").write_text(text)
        ended = run("verify", site, self.folder)
        self.assertIn(ended.code, (OK, INVALID_SITE, NOT_PROVED), ended.err)
        return ended

    def verdicts(self, ended):
        """Layouts by verdict."""
        found = collections.defaultdict(set)
        for line in ended.out.splitlines():
            row = re.match(r"(.+?) +(proved|not proved) +[-\d]", line)
            if row:
                found[row[2]].add(row[1])
        return found

    def test_every_layout_of_every_shipped_site_is_proved(self):
        for site in SITES:
            if SHARE > 1 and site.stem in LARGE:
                continue
            with self.subTest(site=site.stem):
                ended = self.ended.get(site) or self.certify(site, 10)
                self.assertEqual(ended.code, OK)
                self.assertRegex(ended.err, r"^spadework: wrote \d certificates to ")
                ended = run("verify", site, self.made / site.stem)
                self.assertEqual(ended.code, OK, ended.out)
                self.assertIn("Home runs", self.verdicts(ended)["proved"])
                self.assertFalse(self.verdicts(ended)["not proved"])

    def test_a_certificate_stands_alone_and_says_what_is_proved(self):
        ended = self.verify_text("home-runs", sealed(self.certificate("home-runs")))
        self.assertEqual((ended.code, ended.err), (OK, ""))
        for wanted in ("Lakeside holiday park", "proved", "32,661.50", "32,661.17", "0.00"):
            self.assertIn(wanted, ended.out)

    def test_the_same_bytes_come_out_for_any_number_of_threads(self):
        for threads in ("1", "4"):
            run("compare", LAKESIDE, "--certificate", self.folder / threads, "--threads", threads)
        files = sorted(path.name for path in (self.folder / "1").iterdir())
        self.assertEqual(files, sorted(path.name for path in (self.folder / "4").iterdir()))
        for name in files:
            self.assertEqual((self.folder / "1" / name).read_bytes(), (self.folder / "4" / name).read_bytes(), name)

    def test_any_change_breaks_the_seal(self):
        text = (self.made / "lakeside" / "home-runs.certificate.json").read_text()
        digits = [match.start() for match in re.finditer(r"(?<=[ ,\[])\d", text)]
        for at in random.Random(7).sample(digits, effort(60)):
            digit = str((int(text[at]) + 1) % 10)
            with self.subTest(at=at):
                self.assertNotEqual(self.verify_text("home-runs", text[:at] + digit + text[at + 1:]).code, OK)

    def test_a_plan_or_a_claim_that_was_changed_and_sealed_again_is_not_proved(self):
        spare_within_the_cable = re.compile(r"plan\.cables\.\*\.(id|spare|headroom)")
        for layout, site in (("home-runs", LAKESIDE), ("trunk-one", CAMPUS)):
            certificate = self.certificate(layout, site)
            for seed in range(effort(2)):
                dice = random.Random(seed)
                kinds = collections.defaultdict(list)
                for path, value in leaves(certificate):
                    if path[0] not in ("proof", "seal", "certified_together"):
                        kinds[kind(path)].append((path, value))
                for name, found in kinds.items():
                    if spare_within_the_cable.fullmatch(name):
                        continue
                    path, value = dice.choice(found)
                    others = [0] if value is None else ["elsewhere"] if isinstance(value, str) else [
                        value + 1, value - 1, 10**18]
                    for other in others:
                        with self.subTest(layout=layout, path=path, value=other):
                            ended = self.verify_text(layout, sealed(changed(certificate, path, other)), site)
                            self.assertNotEqual(ended.code, OK)

    def test_figures_above_what_the_site_makes_are_not_proved(self):
        for layout, site in (("home-runs", LAKESIDE), ("trunk-one", CAMPUS)):
            certificate = self.certificate(layout, site)
            evidence = certificate["proof"]["evidence"]
            kinds = collections.defaultdict(list)
            for path, value in leaves(evidence):
                # Where a segment has several ways, a cheaper one may stand for a dearer one.
                one_way = path[1] != "edges" or [edge["segment"] for edge in evidence[path[0]]["edges"]].count(
                    evidence[path[0]]["edges"][path[2]]["segment"]) == 1
                if isinstance(value, int) and one_way:
                    kinds[kind(path)].append((path, value))
            for seed in range(effort(3)):
                for name in ("*.constant", "*.units_a_minor", "*.edges.*.opening", "*.edges.*.length",
                             "*.edges.*.room", "*.edges.*.room_price", "*.demands.*.weight"):
                    path, value = random.Random(seed).choice(kinds[name])
                    # Lengths and weights are rounded down, so there is a little room above them; and what charges leave
                    # out along all ways may be in the constant.
                    other = 2 * value + 1 if name.endswith(("length", "weight", "constant")) else value + 1
                    if name == "*.units_a_minor":
                        other = max(1, value // 10)
                    with self.subTest(layout=layout, path=path, value=other):
                        other_proof = changed(certificate, ("proof", "evidence") + path, other)
                        ended = self.verify_text(layout, sealed(other_proof), site)
                        self.assertEqual(ended.code, NOT_PROVED)

    def test_weaker_evidence_proves_less_than_is_claimed(self):
        certificate = self.certificate("home-runs")
        evidence = certificate["proof"]["evidence"][0]
        weaker = {"prices": [[[] for _ in demands] for demands in evidence["prices"]], "parts": 2 * evidence["parts"],
                  "demands": [{**demand, "weight": 0} for demand in evidence["demands"]]}
        for key, value in weaker.items():
            with self.subTest(weaker=key):
                other = changed(certificate, ("proof", "evidence", 0, key), value)
                ended = self.verify_text("home-runs", sealed(other))
                self.assertEqual(ended.code, NOT_PROVED)
                self.assertIn("the evidence proves", " ".join(ended.out.split()))

    def test_cables_as_they_are_bought_are_worked_out_from_the_site_and_not_from_the_certificate(self):
        evidence = self.certificate("home-runs")["proof"]["evidence"][0]
        weaker = {"edges": [{**edge, "length": edge["length"] // 2} for edge in evidence["edges"]],
                  "constant": evidence["constant"] - 100}
        for key, value in weaker.items():
            with self.subTest(weaker=key):
                other = changed(self.certificate("home-runs"), ("proof", "evidence", 0, key), value)
                self.assertEqual(self.verify_text("home-runs", sealed(other)).code, OK)

    def test_prices_above_an_opening_are_not_proved(self):
        certificate = self.certificate("home-runs")
        evidence = certificate["proof"]["evidence"][0]
        prices = evidence["prices"][0]
        opening = evidence["edges"][prices[0][0]]["opening"]
        prices[0][2] = opening * evidence["parts"] + 1
        ended = self.verify_text("home-runs", sealed(certificate))
        self.assertEqual(ended.code, NOT_PROVED)
        self.assertIn("come to more than its opening", " ".join(ended.out.split()))

    def test_no_way_round_may_be_left_out(self):
        certificate = self.certificate("home-runs", CAMPUS)
        evidence = certificate["proof"]["evidence"][0]
        last = len(evidence["edges"]) - 1
        evidence["edges"].pop()
        for prices in evidence["prices"]:
            for demand, triples in enumerate(prices):
                kept = [triples[i:i + 3] for i in range(0, len(triples), 3) if triples[i] != last]
                prices[demand] = [number for triple in kept for number in triple]
        ended = self.verify_text("home-runs", sealed(certificate), CAMPUS)
        self.assertEqual(ended.code, NOT_PROVED)
        self.assertIn("no edge stands for it", " ".join(ended.out.split()))

    def test_another_site_and_a_changed_site_are_not_proved(self):
        ended = run("verify", CAMPUS, self.made / "lakeside")
        self.assertEqual(ended.code, NOT_PROVED)
        self.assertIn("it is of the site 'Lakeside holiday park'", " ".join(ended.out.split()))
        cheaper = self.folder / "cheaper.yaml"
        cheaper.write_text(LAKESIDE.read_text().replace("price: 24", "price: 23", 1) + "\n# cheaper\n")
        ended = run("verify", cheaper, self.made / "lakeside")
        self.assertEqual(ended.code, NOT_PROVED)
        self.assertIn("files have changed since", " ".join(ended.out.split()))

    def test_prices_of_another_site_are_found_even_where_name_and_digest_are_forged(self):
        text = LAKESIDE.read_text()
        cheaper = self.folder / "cheaper.yaml"
        for old, new in (("labour: 0.06, plant: 9", "labour: 0.06, plant: 8"), ("mobilisation: 6", "mobilisation: 5")):
            with self.subTest(old=old):
                self.assertIn(old, text)
                cheaper.write_text(text.replace(old, new))
                digest = json.loads(run("compare", cheaper, "--format", "json").out)["site"]["digest"]
                forged = changed(self.certificate("home-runs"), ("site", "digest"), digest)
                ended = self.verify_text("home-runs", sealed(forged), cheaper)
                self.assertEqual(ended.code, NOT_PROVED)
                self.assertNotIn("changed since", ended.out)

    def test_a_missing_file_and_one_of_another_layout_are_told(self):
        shutil.copytree(self.made / "lakeside", self.folder, dirs_exist_ok=True)
        (self.folder / "home-runs.certificate.json").unlink()
        shutil.copy(self.folder / "mixed.certificate.json", self.folder / "trunk.certificate.json")
        ended = run("verify", LAKESIDE, self.folder)
        self.assertEqual(ended.code, NOT_PROVED)
        self.assertIn("there is no file home-runs.certificate.json", ended.out)
        self.assertIn("the file is of layout mixed", ended.out)

    def test_a_bound_taken_over_from_another_layout_needs_that_layout(self):
        certificate = self.certificate("home-runs")
        certificate["proof"] = {"contained_in": "mixed", "evidence": [], "trunks": None, "chains": None}
        ended = self.verify_text("home-runs", sealed(certificate))
        self.assertEqual(ended.code, NOT_PROVED)
        self.assertIn("its bound is that of mixed, which is not proved", ended.out)
        certificate["proof"]["contained_in"] = "daisy-chain"
        ended = self.verify_text("home-runs", sealed(certificate))
        self.assertIn("layout daisy-chain does not contain home-runs", ended.out)

    def test_files_that_are_no_certificates_are_told_with_place_and_remedy(self):
        good = (self.made / "lakeside" / "home-runs.certificate.json").read_text()
        for text, wanted in ((good[:len(good) // 2], "the end of the file"),
                             ("", "the end of the file"),
                             ("[" * 100000, "expected a certificate, which begins with '{'"),
                             ('{"a": ' + "[" * 100000, "more than 16 deep"),
                             ('{"a": ' * 100000, "more than 16 deep"),
                             (good.replace('"version": 1', '"version": 2'), "expected version 1"),
                             (good.replace('"parts": ', '"parts": 99999999999999999999'), "more than 64 bits"),
                             (good.replace('"parts": ', '"parts": 1e'), "expected a whole number"),
                             (good.replace('"parts": ', '"parts": -'), "expected a whole number from 1"),
                             (good.replace('"parts": ', '"Parts": '), "no key 'parts'"),
                             (good.replace('"parts": ', '"parts": null, "parts": '), "key 'parts' twice"),
                             (good.replace('"way": 0', '"way": "0"'), "found"),
                             (good.replace('"cabins"', '"cabin"'), "expected the id of"),
                             ("\0\xff", "byte 0")):
            with self.subTest(wanted=wanted, text=text[:20]):
                ended = self.verify_text("home-runs", text)
                self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
                self.assertRegex(ended.err, r"home-runs\.certificate\.json:\d+:\d+: error: ")
                if wanted != "found":
                    self.assertIn(wanted, ended.err)

    def test_every_problem_of_a_file_is_told_at_once(self):
        certificate = self.certificate("home-runs")
        certificate["total"] = "much"
        certificate["plan"]["hub_ports"] = -1
        certificate["proof"]["evidence"][0]["edges"][0]["segment"] = "nowhere"
        ended = self.verify_text("home-runs", json.dumps(certificate, indent=1))
        self.assertEqual(ended.code, INVALID_SITE)
        for wanted in ("text 'much'; expected a whole number", "number -1; expected", "'nowhere'; expected the id"):
            self.assertIn(wanted, ended.err)

    def test_hostile_numbers_do_no_harm(self):
        certificate = self.certificate("home-runs")
        dice = random.Random(3)
        numbers = [(path, value) for path, value in leaves(certificate) if isinstance(value, int)]
        for number in (2**63 - 1, -2**63, 2**62, 10**18, 0):
            for path, value in dice.sample(numbers, effort(12)):
                with self.subTest(path=path, number=number):
                    self.verify_text("home-runs", sealed(changed(certificate, path, number)))
        everything = copy.deepcopy(certificate)
        for path, _ in numbers:
            if path[0] == "proof" and path[-1] in ("opening", "length", "passage", "weight", "multiplicity", "cost"):
                everything = changed(everything, path, 2**62)
        self.assertEqual(self.verify_text("home-runs", sealed(everything)).code, NOT_PROVED)

    def test_a_folder_without_certificates_is_an_error(self):
        for folder in (self.folder, self.folder / "none"):
            ended = run("verify", LAKESIDE, folder)
            self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
            self.assertIn("no certificate in this folder", ended.err)
        ended = run("verify", LAKESIDE, LAKESIDE)
        self.assertEqual((ended.code, ended.out), (INVALID_SITE, ""))
        self.assertIn("lakeside.yaml: error: not a folder; expected the one that", ended.err)
        self.assertEqual(run("verify", LAKESIDE).code, USAGE)

    def test_certificates_of_an_earlier_run_do_not_stay(self):
        shutil.copytree(self.made / "lakeside", self.folder, dirs_exist_ok=True)
        ended = run("compare", LAKESIDE, "--layouts", "home-runs", "--certificate", self.folder)
        self.assertEqual(ended.err, f"spadework: wrote 1 certificate to {self.folder}\n")
        self.assertEqual([path.name for path in self.folder.iterdir()], ["home-runs.certificate.json"])
        self.assertEqual(run("verify", LAKESIDE, self.folder).code, OK)

    def test_a_layout_without_plan_has_no_certificate(self):
        ended = run("compare", SCENARIOS / "remote-mast.yaml", "--certificate", self.folder)
        self.assertEqual(ended.code, INFEASIBLE)
        self.assertEqual(list(self.folder.iterdir()), [])

    def test_a_folder_that_cannot_be_written_is_told(self):
        file = self.folder / "file"
        file.write_text("")
        self.assertEqual(run("compare", LAKESIDE, "--certificate", file).code, CANNOT_WRITE)


if __name__ == "__main__":
    unittest.main()
