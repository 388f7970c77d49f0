"""Proves the bounds of certificates again by the rules that lib/certificate/certificate.hpp gives (its steps 2 to 6),
with code that shares no line with Spadework:

    /usr/bin/python3 check_by_script.py site.yaml home-runs.certificate.json trunk-one.certificate.json …

Money is in minor units of the site's currency. It bounds layouts whose cables fan out from one place (home runs, one
trunk) and says so where a file is none of these. site_reading.py tells what it reads of a site. It does not look at
plans (step 1), nor at the map of open ground, of which it takes segments and their lengths as the certificate has them.

Exit codes: 0 all is proved that the files claim; 3 a file has something that is not read; 6 something is not proved."""

import json
import pathlib
import sys

import fan_out
from site_model import NotRead
from site_reading import read_site

PROVED, NOT_READ, NOT_PROVED = 0, 3, 6


def check_file(site, path):
    certificate = json.loads(pathlib.Path(path).read_text())
    try:
        bound = fan_out.check(site, certificate)
    except NotRead as what:
        return NOT_READ, f"{path}: not read: {what}"
    except AssertionError as fault:
        return NOT_PROVED, f"{path}: not proved: {fault}"
    return PROVED, f"{path}: proved: claims a direct cost of {certificate['direct_bound']}, its evidence proves {bound}"


def main(arguments):
    if len(arguments) < 2:
        sys.exit(__doc__)
    try:
        site = read_site(arguments[0])
    except NotRead as what:
        print(f"{arguments[0]}: not read: {what}")
        return NOT_READ
    checked = [check_file(site, path) for path in arguments[1:]]
    print("\n".join(told for _, told in checked))
    return max(code for code, _ in checked)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
