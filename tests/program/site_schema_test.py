"""scenarios/site.schema.json: a valid JSON Schema that takes every shipped scenario and refuses what the reader refuses."""

import copy
import json
import unittest

from running import SCENARIOS

try:
    import jsonschema
    import yaml
except ImportError as missing:
    jsonschema, why_skipped = None, f"skipped: {missing}"
else:
    why_skipped = ""

INCLUDABLE = ("map", "grounds", "catalogue", "labour", "rules")


def load(path):
    """The values of a YAML file; a date is a text, as it is for the reader."""
    class Loader(yaml.SafeLoader):
        yaml_implicit_resolvers = {
            first: [(tag, pattern) for tag, pattern in resolvers if tag != "tag:yaml.org,2002:timestamp"]
            for first, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()}
    return yaml.load(path.read_text(encoding="utf-8"), Loader)


def whole_site(path):
    """A site with the files that its sections name in their places."""
    site = load(path)
    for key in INCLUDABLE:
        if isinstance(site.get(key), str):
            site[key] = load(path.parent / site[key])
    return site


@unittest.skipIf(jsonschema is None, why_skipped)
class SiteSchema(unittest.TestCase):
    def setUp(self):
        schema = json.loads((SCENARIOS / "site.schema.json").read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        self.validator = jsonschema.Draft202012Validator(schema)
        self.lakeside = whole_site(SCENARIOS / "lakeside.yaml")

    def problems(self, site):
        return [f"{'/'.join(map(str, error.absolute_path))}: {error.message}" for error in
                self.validator.iter_errors(site)]

    def changed(self, change):
        site = copy.deepcopy(self.lakeside)
        change(site)
        return site

    def test_every_shipped_scenario_is_valid(self):
        sites = [path for path in SCENARIOS.glob("*.yaml") if "format" in load(path)]
        self.assertTrue(sites)
        for path in sites:
            with self.subTest(path.name):
                self.assertEqual(self.problems(load(path)), [])
                self.assertEqual(self.problems(whole_site(path)), [])

    def test_what_the_reader_refuses_is_refused(self):
        changes = {
            "unknown key": lambda site: site.update(colour="green"),
            "unknown key deep down": lambda site: site["map"]["places"][0].update(att=[0, 0]),
            "missing key": lambda site: site.pop("currency"),
            "missing key deep down": lambda site: site["map"]["places"][0].pop("at"),
            "another format": lambda site: site.update(format=2),
            "another currency": lambda site: site.update(currency="EUX"),
            "negative price": lambda site: site["catalogue"]["cables"][0].update(price=-1),
            "text for a number": lambda site: site["labour"].update({"installer-rate": "48"}),
            "word that is not on the list": lambda site: site["map"]["places"][0].update(kind="hand-hole"),
            "part of a whole": lambda site: site["buildings"][0]["links"][0].update(count=1.5),
            "position of three": lambda site: site["map"]["places"][0].update(at=[0, 0, 0]),
            "empty list": lambda site: site["buildings"][0].update(links=[]),
            "list for a mapping": lambda site: site.update(hub=[]),
        }
        for name, change in changes.items():
            with self.subTest(name):
                self.assertNotEqual(self.problems(self.changed(change)), [])


if __name__ == "__main__":
    unittest.main()
