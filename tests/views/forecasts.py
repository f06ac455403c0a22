"""Batches that are followed once and looked at by many tests: few members, the compiled model."""

from functools import lru_cache

from sourloam.science.ferment.kernel import live_all
from sourloam.service.batches import AskedBatch
from sourloam.service.ferment import forecast_batch
from tests.architecture.tree import ROOT

MEMBERS = 40
EXAMPLE = ROOT / "examples" / "batch.toml"
BARBECUE = """
format = 1
name = "Barbecue"
temperature = "22 C"
[vessel]
volume = "20 L"
drain = false
lid = "tight"
[[layer]]
amounts = ["800 g cooked chicken", "4 bread rolls", "200 g coleslaw"]
bran = "20 g"
[[layer]]
amounts = ["1 kg raw chicken", "500 g bread"]
bran = "60 g"
"""
FROST = """
format = 1
name = "Das sehr lange Kellerfass hinter der Treppe, das niemand je wegräumt"
days = 20
[[temperature]]
day = 0
is = "12 C"
[[temperature]]
day = 2
is = "-8 C"
[vessel]
volume = "8 L"
[[layer]]
amounts = ["4 kg vegetable peelings"]
bran = "60 g"
"""
MANY = """
format = 1
units = "us"
temperature = "68 F"
[vessel]
volume = "60 L"
""" + "".join(f'[[layer]]\namounts = ["{300 + each} g vegetable peelings"]\nbran = "10 g"\n' for each in range(16))
FILES = {"barbecue": BARBECUE, "frost": FROST, "many": MANY}
NAMES = ("example", *FILES)
WARM = 'format = 1\ntemperature = "18 C"\n[vessel]\nvolume = "20 L"\n'
LEAKY = 'leak = "20 L/day"\n'
BREAD = '[[layer]]\namounts = ["3 kg vegetable peelings", "500 g bread"]\nbran = "60 g"\n'
CHEESE = '[[layer]]\nday = 6\namounts = ["2 kg vegetable peelings", "300 g cheese"]\nbran = "30 g"\n'
HARD = {
    "leaky": WARM + LEAKY + BREAD + CHEESE,
    "bare": WARM + '[[layer]]\namounts = ["3 kg vegetable peelings", "500 g raw fish"]\n',
    "little": WARM + '[[layer]]\namounts = ["5 kg vegetable peelings", "50 g raw fish"]\n',
    "fish": WARM + '[[layer]]\namounts = ["3 kg vegetable peelings", "500 g raw fish"]\nbran = "80 g"\n',
    "shells": WARM + '[[layer]]\namounts = ["3 kg vegetable peelings", "300 g eggshells"]\n',
    "peel": WARM + '[[layer]]\namounts = ["3 kg vegetable peelings"]\nbran = "60 g"\n',
    "rot": WARM + '[[layer]]\namounts = ["2 kg raw fish"]\nbran = "100 g"\n',
    "hot": WARM.replace("18 C", "40 C") + '[[layer]]\namounts = ["8 kg grass clippings"]\nbran = "160 g"\n',
    "over": WARM.replace("20 L", "5 L") + '[[layer]]\namounts = ["30 kg vegetable peelings"]\nbran = "1 kg"\n',
    "ice": WARM.replace("18 C", "-5 C") + '[[layer]]\namounts = ["3 kg vegetable peelings"]\nbran = "60 g"\n',
    "oven": WARM.replace("18 C", "60 C") + '[[layer]]\namounts = ["3 kg vegetable peelings"]\nbran = "60 g"\n',
    "short": "days = 5\n" + WARM + '[[layer]]\namounts = ["3 kg vegetable peelings"]\nbran = "60 g"\n',
}


@lru_cache(maxsize=16)
def followed(name, folder):
    """Return the view of a batch by its name; `folder` is one to write into."""
    path = EXAMPLE
    if name != "example":
        path = folder / f"{name}.toml"
        path.write_text((FILES | HARD)[name], encoding="utf-8")
    return forecast_batch(AskedBatch((str(path),), members=MEMBERS), compiler=live_all)
