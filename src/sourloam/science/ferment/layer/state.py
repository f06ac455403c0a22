"""The state of one layer, what it lies in, and what every living group is given: tuples of floats."""

from typing import Final, NamedTuple

GROUPS: Final = (
    *("warm", "cold", "enteric", "sugar_putrid", "protein_putrid", "yeast"),
    *("film", "mould"),  # these need oxygen
)


class State(NamedTuple):
    """Amounts to a kilogram of the water that the layer was laid with; cells as the logarithm of their grams."""

    sugar_g: float
    cell_sugar_g: float  # still inside whole cells
    starch_g: float  # within reach
    protein_g: float
    lactic_mol: float
    acetic_mol: float
    butyric_mol: float
    ethanol_mol: float
    ammonium_mol: float
    co2_mol: float  # made
    alkali_eq: float  # of shell, lime and ash, undissolved
    strong_eq: float  # cations less anions
    cells_g: float  # of all groups, alive or dead
    oxygen_mol: float  # let in and not used yet
    warm_ln_g: float
    cold_ln_g: float
    enteric_ln_g: float
    sugar_putrid_ln_g: float
    protein_putrid_ln_g: float
    yeast_ln_g: float
    film_ln_g: float
    mould_ln_g: float
    warm_ready: float  # how far each group is over its lag, 0 to 1
    cold_ready: float
    enteric_ready: float


SIZE: Final = len(State._fields)
LN_FROM = State._fields.index("warm_ln_g")
STRONG, OXYGEN = State._fields.index("strong_eq"), State._fields.index("oxygen_mol")


class Group(NamedTuple):
    """A living group: its cardinal values, its greatest rate, and what stops it."""

    least_c: float
    best_c: float
    most_c: float
    least_ph: float
    best_ph: float
    most_ph: float
    least_aw: float
    per_h: float  # greatest rate of growth in the packed mass
    lactic_mol: float  # undissociated acid that stops it, mol per kg water
    acetic_mol: float
    most_g: float  # carrying capacity, g per kg water
    half_sugar_g: float
    made_per_growth: float  # g of food turned for a g of cells grown
    made_per_h: float  # g of food turned by a g of cells in an hour, without growth
    ceiling_times: float  # of the limits of acid, for what is made without growth
    dies_per_h: float  # at 25 °C and pH 4


class Flora(NamedTuple):
    """The living groups of one member of the ensemble."""

    warm: Group  # homolactic rods
    cold: Group  # lactic cocci and rods that work in the cold
    enteric: Group
    sugar_putrid: Group
    protein_putrid: Group
    yeast: Group
    film: Group  # yeasts that live on lactic acid and air
    mould: Group
    homolactic_frac: float  # of the cold group


class Cells(NamedTuple):
    """Grams of each group, to a kilogram of first water."""

    warm: float
    cold: float
    enteric: float
    sugar_putrid: float
    protein_putrid: float
    yeast: float
    film: float
    mould: float


class Place(NamedTuple):
    """What a layer is and lies in, between two exchanges with its neighbours; amounts as in `State`."""

    temperature_c: float
    water: float  # kg now, to a kg at first
    tissue_eq: float  # charge that the tissue takes up between pH 4 and 6
    malic_mol: float
    citric_mol: float
    phosphate_mol: float
    salt_osmol: float  # of salts and acids that do not change
    salt_times: float  # acids let go of their protons so many times more easily, in the salt of the water
    release_per_d: float  # of sugar from cells, at 20 °C
    starch_per_d: float  # at 20 °C
    proteolysis_per_d: float  # by the enzymes of raw tissue, at 20 °C
    alkali_per_d: float
    respiration_g_per_h: float  # of sugar by raw tissue in air, at 20 °C, to a kg of the first water
    breath_per_h: float  # of sugar by lactic and enteric bacteria and yeasts in air, g for a g of cells, at 20 °C
    ammonium_k: float  # dissociation at this temperature
    aired: float  # part of the layer that oxygen reaches
    oxygen_mol: float  # let in for this time, as in `State`
