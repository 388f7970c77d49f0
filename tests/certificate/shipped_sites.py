"""Shipped sites, some with a change, one that is made for trial, and the certificates that the program makes of them."""

import functools
import os
import pathlib
import re
import shutil
import subprocess
import tempfile

import check_by_script
from site_reading import read_site

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
SCENARIOS = ROOT / "scenarios"
PROGRAM = os.environ.get("SPADEWORK_PROGRAM", str(ROOT / "build" / "spadework"))
#: Which layouts are looked at; none named: all that the site's rules allow.
LAYOUTS = {"lakeside": [], "studio": [], "orchard": [], "village": [], "campus": [],
           "green": ["home-runs", "trunk-one", "mixed"], "estate": ["home-runs", "daisy-chain"],
           "estate with one enclosure": ["trunk"], "lakeside with joints": [], "lakeside with thin cables": []}
#: Bounds of its home runs rest on splits.
CROSSINGS = "three crossings"
SMALL = ("lakeside", "studio", "orchard", "village", "campus")
#: Shipped sites with a change: the site, what is replaced wherever it stands, and by what.
CHANGED = {"estate with one enclosure": ("estate", "max-enclosures: 3", "max-enclosures: 1"),
           "lakeside with joints": ("lakeside", "longest: 1000", "longest: 170"),
           "lakeside with thin cables": ("lakeside", r"    - \{id: cable-(12|24), .*\n", "")}


class Sites:
    """Sites and their certificates, made once."""

    kept = tempfile.TemporaryDirectory()  # till the program ends
    folder = kept.name

    @classmethod
    @functools.cache
    def path(cls, name):
        if name == CROSSINGS:
            return pathlib.Path(__file__).with_name("three_crossings.yaml")
        if name not in CHANGED:
            return SCENARIOS / f"{name}.yaml"
        site, old, new = CHANGED[name]
        text, count = re.subn(old, new, (SCENARIOS / f"{site}.yaml").read_text())
        assert count > 0
        folder = pathlib.Path(cls.folder, f"{name} site")
        for files in ("estate", "prices"):
            shutil.copytree(SCENARIOS / files, folder / files)
        path = folder / f"{site}.yaml"
        path.write_text(text)
        return path

    @classmethod
    @functools.cache
    def site(cls, name):
        return read_site(cls.path(name))

    @classmethod
    @functools.cache
    def certificates(cls, name):
        """By layout."""
        folder = pathlib.Path(cls.folder, name)
        layouts = ["--layouts", ",".join(LAYOUTS[name])] if LAYOUTS.get(name) else []
        subprocess.run([PROGRAM, "compare", cls.path(name), *layouts, "--time-limit", "300", "--certificate", folder,
                        "--quiet"], check=True, capture_output=True)
        certificates = map(check_by_script.read_certificate, folder.glob("*.certificate.json"))
        return {certificate["layout"]: certificate for certificate in certificates}
