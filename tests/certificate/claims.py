"""What a certificate claims, held against what its evidence proves."""

from chains import Chains
from fan_out import bound as fan_out_bound
from site_model import NotRead
from trunks import Trunks

#: Layouts whose plans are all among another's.
CONTAINED = {("home-runs", "mixed"), ("trunk-one", "trunk"), ("trunk-one", "mixed"), ("trunk", "mixed")}


def bound_by_evidence(site, layout, proof):
    """What the evidence of a layout proves; nothing where it has none."""
    if proof["trunks"] is not None:
        assert layout in ("trunk", "mixed"), f"evidence of trunks says nothing of {layout}"
        return Trunks(site, proof["trunks"], layout == "mixed").bound()
    if proof["chains"] is not None:
        assert layout in ("daisy-chain", "ring"), f"evidence of chains says nothing of {layout}"
        return Chains(site, proof["chains"], layout == "ring").bound()
    if not proof["evidence"]:
        return None
    one_trunk = layout == "trunk-one" or (layout == "trunk" and site.rules.most_enclosures == 1)
    assert one_trunk or layout == "home-runs", f"evidence of one place where cables fan out says nothing of {layout}"
    return fan_out_bound(site, proof["evidence"], one_trunk)


def proved(site, certificate, all_certificates):
    """The direct cost that no plan of the layout undercuts. A layout that names another, of which `all_certificates`
    holds one for each layout, has its bound as well."""
    assert certificate["site"]["name"] == site.name, f"it is for {certificate['site']['name']}, not {site.name}"
    if "other_strand_use" in certificate:
        raise NotRead("plans with either strand use")
    layout, proof = certificate["layout"], certificate["proof"]
    bounds = [bound_by_evidence(site, layout, proof)]
    wide = proof["contained_in"]
    if wide is not None:
        assert (layout, wide) in CONTAINED, f"plans of {layout} are not all among those of {wide}"
        assert wide in all_certificates, f"its bound is that of {wide}, whose certificate is not there"
        bounds.append(proved(site, all_certificates[wide], all_certificates))
    found = [bound for bound in bounds if bound is not None]
    assert found, "it holds no evidence"
    return max(found)


def check(site, certificate, all_certificates):
    """What is proved; an AssertionError where that is less than what is claimed."""
    bound, claim = proved(site, certificate, all_certificates), certificate["direct_bound"]
    assert bound >= claim, f"claims a direct cost of {claim} at least, its evidence proves {bound}"
    claimed_in_all = certificate["bound"]
    assert site.charged(claim) == claimed_in_all, f"with contingency and tax {claim} is not {claimed_in_all}"
    assert claimed_in_all <= certificate["total"], "the plan is cheaper than its bound"
    return bound
