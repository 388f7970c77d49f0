"""Surveys a large invented map and says how long that took and how much memory: a town of square blocks.

    python3 bench/bench_survey.py [--megabytes 60] [--program build/spadework] [--keep FOLDER]

Every street is drawn crossing by crossing, every tenth avenue is a viaduct that meets none of the streets, every block
has a path drawn without a vertex where it crosses, and four houses with addresses: about as many houses a way as a real
village has. Processor time counts; elapsed time is disturbed by whatever else runs.
"""

import argparse
import json
import pathlib
import resource
import subprocess
import tempfile

STEP = 0.0008  # Degrees: some 60 to 90 m.


def line(number, coordinates, **tags):
    return {"type": "Feature", "id": f"way/{number}", "properties": tags,
            "geometry": {"type": "LineString", "coordinates": [[round(x, 7), round(y, 7)] for x, y in coordinates]}}


def house(number, x, y, street):
    w, h = STEP * 0.1, STEP * 0.07
    ring = [(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)]
    return {"type": "Feature", "id": f"way/{number}", "properties": {"building": "yes", "addr:street": f"Street {street}", "addr:housenumber": str(number)},
            "geometry": {"type": "Polygon", "coordinates": [[[round(a, 7), round(b, 7)] for a, b in ring]]}}


def features(blocks):
    """A town of blocks x blocks."""
    west, south = -30.0, 45.0
    number = 0
    for row in range(blocks + 1):
        for column in range(blocks):
            number += 1
            x, y = west + column * STEP, south + row * STEP
            yield line(number, [(x + STEP * k / 4, y) for k in range(5)], highway="residential", name=f"Street {row}")
    for column in range(blocks + 1):
        number += 1
        x = west + column * STEP
        if column % 10 == 5:
            yield line(number, [(x + STEP / 3, south + STEP * (row + 0.5)) for row in range(blocks)],
                       highway="secondary", bridge="yes", layer="1")
        else:
            yield line(number, [(x, south + STEP * row) for row in range(blocks + 1)], highway="residential",
                       surface="asphalt")
    for row in range(blocks):
        for column in range(blocks):
            x, y = west + column * STEP, south + row * STEP
            number += 5
            yield line(number, [(x + STEP * 0.1, y - STEP * 0.1), (x + STEP * 0.15, y + STEP * 0.4),
                                (x + STEP * 0.6, y + STEP * 0.55)], highway="footway")
            for k in range(4):
                yield house(number - k, x + STEP * (0.3 + 0.3 * (k % 2)), y + STEP * (0.15 + 0.5 * (k // 2)), row)


def write_map(path, megabytes):
    blocks = max(3, int((megabytes * 1e6 / 1640) ** 0.5))
    with open(path, "w") as file:
        file.write('{"type": "FeatureCollection", "features": [\n')
        file.write(",\n".join(json.dumps(each) for each in features(blocks)))
        file.write("\n]}\n")


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--megabytes", type=float, default=60)
    parser.add_argument("--program", default="build/spadework")
    parser.add_argument("--keep", help="folder to leave the map and the site file in")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(options.keep or scratch)
        source, site = folder / "town.geojson", folder / "town.yaml"
        write_map(source, options.megabytes)
        print(f"map: {source.stat().st_size / 1e6:.1f} MB")
        subprocess.run([options.program, "survey", source, "--hub=-29.99,45.01", "--nearest", "30", "--force",
                        "--format", "json", "-o", site], check=True, stdout=subprocess.PIPE)
        used = resource.getrusage(resource.RUSAGE_CHILDREN)
        print(f"site file: {site.stat().st_size / 1e6:.1f} MB")
        print(f"processor time: {used.ru_utime + used.ru_stime:.2f} s, of it in the program {used.ru_utime:.2f} s")
        print(f"most memory: {used.ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main()
