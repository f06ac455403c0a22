"""What an amount weighs that a person wrote."""

from sourloam.base.figure import Figure, derive, written
from sourloam.exchange.amounts import Amount, By
from sourloam.science.load import laws
from sourloam.science.load.members import members_of, value_figure
from sourloam.science.materials.packing import kilograms


def weighed(amount: Amount, name: str, handful: Figure, members: int) -> Figure:
    """Return what an amount weighs: by the density of the table, a handful, or the mass of a piece."""
    material = amount.material
    if amount.by is By.MASS:
        return written(name, amount.value, "kg", words=material.name, typed=amount.typed, members=members)
    drawn = members_of(material, members)
    if amount.by is By.PIECE:
        count = written(f"{name}.count", amount.value, "1", words="pieces", typed=amount.typed, members=members)
        piece = value_figure(material, "piece", drawn)
        return derive(name, laws.counted_kg, words=material.name, count=count, piece_kg=piece)
    volume = written(f"{name}.volume", amount.value, "L", words="volume", typed=amount.typed, members=members)
    if amount.by is By.HANDFUL:
        hands = written(f"{name}.hands", amount.value, "1", words="handfuls", typed=amount.typed, members=members)
        volume = derive(f"{name}.volume", laws.handfuls_l, words="volume", count=hands, handful_l=handful)
    loose = value_figure(material, "loose", drawn)
    return derive(name, kilograms, words=material.name, volume_l=volume, density_kg_per_l=loose)
