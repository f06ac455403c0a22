"""What a stack of layers is given at the start: plain tuples, and rows of arrays that hold them."""

from typing import Final, NamedTuple

from sourloam.base.numbers import FloatArray
from sourloam.science.ferment.layer.state import SIZE, Flora, Group

STEP_H: Final = 4.0  # between two exchanges of water and air


class Laid(NamedTuple):
    """One layer as it was laid; amounts by mass are of the whole layer, others to a kg of its first water."""

    laid_h: float  # after the first layer
    water_kg: float
    held_kg: float  # water that its solids keep under pressure
    raw_frac: float  # of its water, in raw tissue
    cell_sugar_g: float
    tissue_eq: float
    salt_times: float
    release_per_d: float
    starch_per_d: float
    proteolysis_per_d: float
    alkali_per_d: float
    respiration_g_per_h: float  # of raw tissue
    breath_per_h: float  # g of sugar for a g of cells, in air
    volume_l: float  # pressed
    air_frac: float  # of that volume
    soluble_frac: float  # of its protein, that runs with its liquid
    caddy_h: float  # before it was laid
    caddy_c: float
    added_g: float  # live lactic cells of bran or culture
    added_ready: float


class Vessel(NamedTuple):
    """A vessel and how it is kept."""

    volume_l: float
    floor_m2: float
    sump_l: float  # room below the grid; nothing without a drain
    lag_h: float  # of its core behind the room
    leak_l_per_d: float  # of air
    swapped_frac: float  # of the headspace, when it is opened
    drains_times: float  # of the part of the free water that runs; one factor for a site
    runs_in_h: float
    freezes_c: float
    burst_share: float  # of the sugar of cells that is set free when it thaws
    bare_frac: float  # of the surface of the scraps, that nothing covers


class Stack(NamedTuple):
    """The layers of one vessel while they ferment, the lowest first: arrays that change in place."""

    y: FloatArray  # (layers, state)
    solutes: FloatArray  # (layers, solutes), to a kg of first water
    water: FloatArray  # (layers), kg to a kg at first
    ln_h: FloatArray  # (layers), logarithm of protons
    step_h: FloatArray  # (layers), to begin the next time with
    laid: FloatArray  # (layers, what was laid)
    sump: FloatArray  # water below the grid, kg; then what is in it: states, solutes
    air: FloatArray  # oxygen over the layers, mol; their headspace, L; oxygen used, mol


SOLUTES: Final = ("malic_mol", "citric_mol", "phosphate_mol", "salt_osmol", "potassium_mol")
SUMP: Final = 1 + SIZE + len(SOLUTES)


def laid_of(row: FloatArray) -> Laid:
    """Return a row as a layer."""
    return Laid(
        row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7],
        row[8], row[9], row[10], row[11], row[12], row[13], row[14],
        row[15], row[16], row[17], row[18], row[19],
    )  # fmt: skip


def vessel_of(row: FloatArray) -> Vessel:
    """Return a row as a vessel."""
    return Vessel(row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7], row[8], row[9], row[10])


def group_of(row: FloatArray) -> Group:
    """Return a row as a living group."""
    return Group(
        row[0], row[1], row[2], row[3], row[4], row[5], row[6], row[7],
        row[8], row[9], row[10], row[11], row[12], row[13], row[14], row[15],
    )  # fmt: skip


def flora_of(rows: FloatArray, homolactic_frac: float) -> Flora:
    """Return the rows of all groups as a flora."""
    return Flora(
        group_of(rows[0]),
        group_of(rows[1]),
        group_of(rows[2]),
        group_of(rows[3]),
        group_of(rows[4]),
        group_of(rows[5]),
        group_of(rows[6]),
        group_of(rows[7]),
        homolactic_frac,
    )
