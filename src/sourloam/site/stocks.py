"""Bran, and all that it is made from."""

from dataclasses import dataclass
from datetime import date
from typing import Annotated

from sourloam.base.fields import Key
from sourloam.base.kinds import Choice, Day, Text, amount
from sourloam.base.money import Money


@dataclass(frozen=True)
class Stock:
    """What is in the cupboard on the first day, and what things cost."""

    bran_kg: Annotated[
        float,
        amount(
            "bran",
            "0 kg",
            "1000 kg",
            help="Finished, dry bran on hand.",
            default="0 kg",
            assume="There is no finished bran on the first day.",
        ),
    ] = 0.0
    bran_made_on: Annotated[
        date | None, Key("bran_made", Day(), "When that bran was made or bought.", default=None)
    ] = None
    bran_from: Annotated[
        str,
        Key(
            "bran_from",
            Choice(("made", "bought")),
            "Whether bran is made at home or bought.",
            default="made",
            assume="Bran is made at home.",
        ),
    ] = "made"
    serum_l: Annotated[float, amount("serum", "0 L", "100 L", help="Serum kept in the cold.", default="0 L")] = 0.0
    currency: Annotated[str, Key("currency", Text(8), "The sign for money.", default="")] = ""
    bran_price_per_kg: Annotated[
        float | None, amount("bran_price", "0 /kg", "1000 /kg", help="What ready bran costs.", default=None)
    ] = None
    carrier_price_per_kg: Annotated[
        float | None, amount("carrier_price", "0 /kg", "1000 /kg", help="What plain wheat bran costs.", default=None)
    ] = None
    sugar_price_per_kg: Annotated[
        float | None, amount("sugar_price", "0 /kg", "1000 /kg", help="What sugar costs.", default=None)
    ] = None
    vessel_price: Annotated[float | None, Key("vessel_price", Money(), "What one more vessel costs.", default=None)] = (
        None
    )
