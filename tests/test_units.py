import pytest
from published import cases

from navlib import units

# BIPM SI brochure and EPSG dataset; each item of the file names its source.
UNITS = "units.json"


@pytest.mark.parametrize("item", cases(UNITS, "unit"))
def test_units_are_as_published(item):
    names = {
        "international nautical mile": "NM",
        "60 nautical miles": "NM",
        "international foot": "ft",
        "international yard": "yd",
        "UK (Admiralty) nautical mile": "UK nautical mile",
    }
    i, expected = item["inputs"], item["expected"]
    count = 60 if i["unit"].startswith("60") else 1
    value = units.convert(count, names.get(i["unit"], i["unit"]), i["to"])
    if expected["exact"]:
        assert value == pytest.approx(expected["value"], rel=3e-16)
    else:
        assert value == pytest.approx(expected["value"], rel=item["tolerance"]["rel"])


def test_sums_in_the_head_are_near_the_exact_ones():
    # Common practice: 6 NM is about 11 km; 6 km is about 3 NM.
    assert units.nm_to_km_in_the_head(6) == pytest.approx(11.1)
    assert units.km_to_nm_in_the_head(6) == pytest.approx(3.24)
    for nm in (1, 7, 60):
        km = units.convert(nm, "NM", "km")
        assert units.nm_to_km_in_the_head(nm) == pytest.approx(km, rel=0.0011)
        assert units.km_to_nm_in_the_head(km) == pytest.approx(nm, rel=0.0002)


def test_a_length_does_not_become_a_speed():
    with pytest.raises(ValueError, match="two lengths"):
        units.convert(1, "NM", "kn")
    assert units.convert(1, "kn", "km/h") == pytest.approx(1.852)
