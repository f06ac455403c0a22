"""Materials and the audit as text for a terminal."""

import textwrap
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

from sourloam.cli.lines import WIDTH, wrapped
from sourloam.views.audit import AuditView, MaterialsAuditView, MethodShares
from sourloam.views.materials import MaterialView

NAME: Final = 34
WHAT: Final = 34

# What a card shows, in lines: the name of a value, and how it is said.
CARD: Final = (
    (("water_g_per_kg", "water {:.0f} g/kg"), ("water_low_g_per_kg", "({:.0f} to"), ("water_high_g_per_kg", "{:.0f})")),
    (
        ("protein_g_per_kg", "protein {:.3g}"),
        ("fat_g_per_kg", "fat {:.3g}"),
        ("sugars_g_per_kg", "sugars {:.3g}"),
        ("starch_g_per_kg", "starch {:.3g}"),
        ("fibre_g_per_kg", "fibre {:.3g}"),
        ("lignin_g_per_kg", "lignin {:.3g}"),
        ("ash_g_per_kg", "ash {:.3g} g/kg"),
    ),
    (
        ("ph", "pH {:.1f}"),
        ("ph_low", "({:.1f} to"),
        ("ph_high", "{:.1f}),"),
        ("citric_g_per_kg", "citric {:.2g}"),
        ("malic_g_per_kg", "malic {:.2g}"),
        ("lactic_g_per_kg", "lactic {:.2g}"),
        ("acetic_g_per_kg", "acetic acid {:.2g} g/kg,"),
        ("buffering_meq_per_kg_dm", "buffering {:.0f} meq/kg dry"),
    ),
    (
        ("c_to_n", "C:N {:.0f},"),
        ("nitrogen_g_per_kg", "N {:.2g}"),
        ("phosphorus_g_per_kg", "P {:.2g}"),
        ("potassium_g_per_kg", "K {:.2g}"),
        ("sodium_g_per_kg", "Na {:.2g}"),
        ("chlorine_g_per_kg", "Cl {:.2g}"),
        ("calcium_g_per_kg", "Ca {:.2g}"),
        ("magnesium_g_per_kg", "Mg {:.2g} g/kg,"),
        ("cod_g_per_kg", "COD {:.0f} g/kg"),
    ),
    (
        ("loose_kg_per_l", "loose {:.2f}"),
        ("pressed_kg_per_l", "pressed {:.2f} kg/L,"),
        ("held_g_per_g_dm", "keeps {:.1f} g water to a g dry,"),
        ("piece_mm", "pieces of {:.0f} mm"),
        ("piece_g", "and {:.3g} g"),
    ),
    (
        ("lactic_log10_per_g", "lives on it, powers of ten in a gram: lactic {:.1f}"),
        ("enteric_log10_per_g", "enteric {:.1f}"),
        ("yeast_log10_per_g", "yeasts {:.1f}"),
        ("spore_log10_per_g", "clostridial spores {:.1f}"),
    ),
)


def materials_text(views: Sequence[MaterialView]) -> str:
    """Return one material as a card, several as a list by kind."""
    if len(views) == 1:
        return "\n".join(_card(views[0]))
    return "\n".join(_list(views))


def _card(view: MaterialView) -> Iterator[str]:
    yield f"{view.name} ({view.id}), {view.kind}"
    if view.synonyms:
        yield from wrapped("  also: ", ", ".join(view.synonyms))
    most = f", up to {view.at_most_pct:g} % of what goes in" if 0.0 < view.at_most_pct < 100.0 else ""
    why = " ".join(each for each in (view.preparation, view.reason) if each)
    yield from wrapped("  goes in: ", f"{view.goes_in}{most}. {why}".strip())
    if view.is_barred_by_strict and view.goes_in != "no":
        yield "  Stricter lists bar it."
    yield f"  In soil it can be seen for: {view.persists}"
    yield ""
    for line in CARD:
        said = [form.format(view.values[name]) for name, form in line if view.values[name] is not None]
        yield from wrapped("  ", " ".join(said))
    yield ""
    yield "  From"
    for each in view.grounds:
        within = f", within {each.spread_pct:g} %" if each.spread_pct else ""
        source = f" [{each.source}]" if each.text else ""
        yield from wrapped("    ", f"{each.words}: {each.method}, {each.known}{within}{source} {each.place}", hang=2)
    for key, text in dict.fromkeys((each.source, each.text) for each in view.grounds if each.text):
        yield from wrapped("  ", f"[{key}] {text}", hang=2)
    if view.note:
        yield from wrapped("  Note: ", f"{view.note}.")


def _list(views: Sequence[MaterialView]) -> Iterator[str]:
    for kind, group in groupby(sorted(views, key=lambda each: each.kind), key=lambda each: each.kind):
        yield f"{kind}"
        for each in group:
            yield f"  {textwrap.shorten(each.name, NAME, placeholder=' ...'):<{NAME}} {each.goes_in:<14} {each.id}"
    yield ""
    yield f"{len(views)} materials. One of them in full: sourloam materials NAME."


def materials_audit_text(view: MaterialsAuditView) -> str:
    """Return how the values of the materials were obtained."""
    lines = [
        f"{view.materials} materials; groups of values by how they were obtained",
        "",
        f"  {'':<{WHAT}} {'groups':>6} {'measured':>9} {'relative':>9} {'by rule':>9}",
        *(_shares(each) for each in (view.all, view.commonest)),
        "",
        *(_shares(each) for each in view.by_group),
        "",
        *textwrap.wrap(
            "Measured: of this very material. Relative: another part, or another food, stands for it. By rule: from "
            "its class, a handbook's nitrogen and moisture, a law, or a mixture.",
            WIDTH,
        ),
    ]
    return "\n".join(lines)


def _shares(shares: MethodShares) -> str:
    said = f"{shares.measured_pct:>7.0f} % {shares.relative_pct:>7.0f} % {shares.rule_pct:>7.0f} %"
    return f"  {shares.what:<{WHAT}} {shares.groups:>6} {said}"


def audit_text(view: AuditView, *, is_narrowed: bool) -> str:
    """Return every value by its basis; of an audit that was not narrowed down only how many there are."""
    whole = sum(count for _, _, count in view.counts)
    lines = [f"{whole} values and groups of values, by how they came to be known", ""]
    lines += [f"  {basis:<10} {count:>5}  {words}" for basis, words, count in view.counts]
    if not is_narrowed:
        return "\n".join([*lines, "", "Those of one kind: sourloam audit MEMORY. All of them: sourloam audit --json."])
    for table, group in groupby(view.rows, key=lambda each: each.table):
        lines += ["", table]
        for each in group:
            told = f"{each.name}: {each.value} [{each.source}] {each.place}".replace(":  [", ": [")
            lines += wrapped("  ", told, hang=2)
    return "\n".join(lines)
