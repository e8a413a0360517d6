"""Pipes against each other and against another standard, and what must hold for any pipe."""

from itertools import pairwise

import fluids.piping
import pytest

from footvalve.tables.materials import MATERIALS, material
from footvalve.tables.pipes import PIPE_PRODUCTS, nominals, pipe_product, pipe_size
from footvalve.tables.reading import UnknownEntry, rows

INCH = 0.0254
NOMINAL_ORDER = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2")
SIZES = [pipe_size(product=product, nominal=nominal) for product in PIPE_PRODUCTS for nominal in nominals(product)]


@pytest.mark.parametrize(
    ("nominal", "bore_with_least_wall"),
    [("1/2", 0.485), ("3/4", 0.681), ("1-1/4", 1.069), ("1-1/2", 1.263), ("2", 1.653)],
)
def test_pex_bore_lies_below_that_with_the_least_wall_by_the_walls_tolerance(nominal, bore_with_least_wall):
    """ASTM F876 lets the wall be 0.010 to 0.024 in thicker than its least, and the mean bore less by as much; bores
    with the least wall are printed in tables of PEX tubing, those of 1/2 and 3/4 in seen, the others from memory."""
    bore = pipe_size(product="pex-sdr-9", nominal=nominal).inside_diameter / INCH
    assert 0.010 - 0.001 <= bore_with_least_wall - bore <= 0.024 + 0.001


@pytest.mark.parametrize("dimension_ratio", ["7", "9", "11", "13.5"])
def test_polyethylene_in_iron_pipe_size_is_that_of_another_standard(dimension_ratio):
    """ASTM F2619, held in fluids 1.3.1, has the same dimensions as D3035; half a thousandth for rounding."""
    held = "SDR" + dimension_ratio.replace(".", "")
    bores = getattr(fluids.piping, f"{held}i_F2619IPS")
    for nominal, millimetres in zip(NOMINAL_ORDER, bores, strict=False):
        bore = pipe_size(product=f"pe-ips-dr-{dimension_ratio}", nominal=nominal).inside_diameter
        assert bore * 1000 == pytest.approx(millimetres, abs=0.0127)


@pytest.mark.parametrize("row", rows("pipes"), ids=lambda row: f"{row['product']} {row['nominal']}")
def test_outside_less_twice_the_wall_is_the_bore(row):
    """The three columns are rounded apart: half a thousandth of an inch."""
    outside, wall, inside = (float(row[column]) for column in ("outside_diameter_in", "wall_in", "inside_diameter_in"))
    assert outside - 2 * wall == pytest.approx(inside, abs=0.0005)


@pytest.mark.parametrize("product", PIPE_PRODUCTS)
def test_bores_and_outsides_grow_with_the_nominal_size(product):
    """The rows of a product stand from small to large."""
    sizes = [pipe_size(product=product, nominal=nominal) for nominal in nominals(product)]
    assert [NOMINAL_ORDER.index(size.nominal) for size in sizes] == sorted(
        NOMINAL_ORDER.index(size.nominal) for size in sizes
    )
    for smaller, larger in pairwise(sizes):
        assert smaller.inside_diameter < larger.inside_diameter
        assert smaller.outside_diameter < larger.outside_diameter


@pytest.mark.parametrize("nominal", NOMINAL_ORDER)
@pytest.mark.parametrize(
    "thick_to_thin",
    [
        ("pvc-sch-80", "pvc-sch-40"),
        ("copper-k", "copper-l", "copper-m"),
        ("pe-ips-dr-7", "pe-ips-dr-9", "pe-ips-dr-11", "pe-ips-dr-13.5"),
    ],
    ids=lambda products: products[0],
)
def test_a_thicker_wall_leaves_a_smaller_bore(thick_to_thin, nominal):
    """Pipes of one outside diameter differ by their wall alone."""
    sizes = [pipe_size(product=product, nominal=nominal) for product in thick_to_thin]
    assert len({size.outside_diameter for size in sizes}) == 1
    for thick, thin in pairwise(sizes):
        assert thick.inside_diameter <= thin.inside_diameter
    assert sizes[0].inside_diameter < sizes[-1].inside_diameter


@pytest.mark.parametrize("nominal", NOMINAL_ORDER)
def test_a_controlled_bore_is_the_same_for_every_ratio(nominal):
    """ASTM D2239 sizes by the bore, and a lower ratio is a thicker wall."""
    sizes = [pipe_size(product=f"pe-sidr-{ratio}", nominal=nominal) for ratio in ("7", "9", "11.5", "15", "19")]
    assert len({size.inside_diameter for size in sizes}) == 1
    for lower, higher in pairwise(sizes):
        assert lower.outside_diameter >= higher.outside_diameter


@pytest.mark.parametrize("name", MATERIALS)
def test_walls_are_as_rough_as_new_pipe(name):
    """Between a drawn tube (0.0015 mm) and galvanized iron (0.15 mm), Moody (1944); C from 120 to 150."""
    wall = material(name)
    assert 1.5e-6 <= wall.roughness <= 1.5e-4
    assert 120 <= wall.hazen_williams_coefficient <= 150


def test_every_product_has_sizes_a_material_and_a_basis():
    """Each product of the one table has rows in the other, and says of which wall its bores are."""
    assert {row["product"] for row in rows("pipes")} == set(PIPE_PRODUCTS)
    assert {pipe_product(product).material for product in PIPE_PRODUCTS} == set(MATERIALS)
    assert {pipe_product(product).bore_basis for product in PIPE_PRODUCTS} == {
        "average wall",
        "controlled bore",
        "minimum wall",
        "nominal wall",
    }


def test_a_size_carries_the_wall_of_its_material():
    """Galvanized steel is a hundred times as rough as plastic."""
    steel = pipe_size(product="steel-galvanized-sch-40", nominal="1")
    plastic = pipe_size(product="pe-sidr-15", nominal="1")
    assert steel.roughness == pytest.approx(100 * plastic.roughness)
    assert (steel.hazen_williams_coefficient, plastic.hazen_williams_coefficient) == (120, 150)
    assert all(size.source and size.roughness_source and size.hazen_williams_source for size in SIZES)


def test_an_unknown_product_or_size_is_named_with_the_choices():
    """A caller who asks for what is not there learns what is."""
    with pytest.raises(UnknownEntry) as unknown_product:
        pipe_size(product="pvc", nominal="1")
    assert unknown_product.value.choices == PIPE_PRODUCTS
    with pytest.raises(UnknownEntry) as unknown_size:
        pipe_size(product="pvc-sch-40", nominal="8")
    assert unknown_size.value.choices == nominals("pvc-sch-40")
    with pytest.raises(UnknownEntry):
        pipe_product("pvc")
    with pytest.raises(UnknownEntry):
        material("lead")
