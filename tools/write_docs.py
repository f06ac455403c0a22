"""Write the pages of docs/ that are made from the code and its tables: .venv/bin/python tools/write_docs.py.

A test compares the pages with what this writes, so a change of a key, a verb, a
material, a value or a check shows in the documentation or fails.
"""

import ast
import sys
import tomllib
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path

import click

from sourloam.base.source import Basis
from sourloam.base.units import UNITS
from sourloam.cli.main import VERBS, commands
from sourloam.cli.show import plan_text
from sourloam.evidence.climates import load_climates
from sourloam.evidence.crops import load_crops
from sourloam.evidence.materials import load_materials
from sourloam.evidence.rules import load_jurisdictions
from sourloam.evidence.sources import load_sources
from sourloam.service.plan import plan_site
from sourloam.sitefile.write import manual

ROOT = Path(__file__).resolve().parent.parent
DOCS = ROOT / "docs"
DEMO = ROOT / "examples" / "quillet_yard.toml"
PARAMETERS = ROOT / "src" / "sourloam" / "evidence" / "data" / "parameters"
MADE = "Made by tools/write_docs.py; change the code or the table it tells of, not this page."
COLUMNS = 80
SAMPLE, SAMPLE_ENDS = "<!-- sample: made by tools/write_docs.py -->", "<!-- end of the sample -->"
SHOWN = ("When scraps", "The first", "In numbers", "The batches", "Where it goes")
SHOWN_LINES = 7


def table(head: Sequence[str], rows: Sequence[Sequence[object]]) -> str:
    """Return a table in Markdown."""
    lines = [list(head), ["---"] * len(head), *(list(row) for row in rows)]
    return "\n".join("| " + " | ".join(str(cell).replace("|", "\\|") for cell in line) + " |" for line in lines)


def page(title: str, *blocks: str) -> str:
    """Return a whole page."""
    return "\n\n".join([f"# {title}", MADE, *blocks]).rstrip() + "\n"


def site_file() -> str:
    """Return the page of all keys of the site file."""
    title, _, body = manual().partition("\n")
    units = defaultdict(list)
    for unit in UNITS:
        units[unit.dimension].append(unit.names[0])
    names = [
        ("material", "[materials.md](materials.md)"),
        ("climate", "; ".join(f"`{name}`: {each.words}, as {each.like}" for name, each in load_climates().items())),
        ("crop", ", ".join(f"`{each}`" for each in load_crops())),
        ("jurisdiction", ", ".join(f"`{each}`" for each in load_jurisdictions())),
    ]
    return page(
        title.removeprefix("# "),
        "A site file is TOML. Its first line is `format = 1`. A table in double brackets may stand several times, each "
        "with an `id` of its own; `count = 4` beside it makes four of them.\n\n"
        'A decimal comma does as well as a point, and small numbers may be words: `"two handfuls"`. '
        "A complete file is [examples/quillet_yard.toml](../examples/quillet_yard.toml).",
        body.strip(),
        "## Units",
        table(
            ("quantity", "its units (other spellings are known too)"),
            [(dimension, ", ".join(f"`{name}`" for name in found)) for dimension, found in units.items()],
        ),
        "## Names",
        table(("kind", "which there are"), names),
    )


def materials() -> str:
    """Return the page of what goes in."""
    kinds = defaultdict(list)
    for each in load_materials():
        most = f"{100.0 * each.at_most_frac:g} %" if 0.0 < each.at_most_frac < 1.0 else ""
        why = " ".join(words for words in (each.preparation, each.reason) if words)
        kinds[each.kind].append((f"`{each.id}`", each.name, each.rule.value.replace("-", " "), most, why))
    blocks = []
    for kind, rows in kinds.items():
        blocks += [f"## {kind}", table(("id", "what it is", "goes in", "at most", "how and why"), rows)]
    return page(
        "Materials",
        "What a stream may be made of. *Goes in*: yes; prepare (once it is crushed, chopped, drained or cooled); "
        "a little; no. The compositions, each with its source, stand in "
        "[materials.csv](../src/sourloam/evidence/data/materials.csv).",
        *blocks,
    )


def verbs() -> str:
    """Return the page of the command's own help."""
    blocks = []
    for name in VERBS:
        context = click.Context(commands, info_name="sourloam", max_content_width=COLUMNS, terminal_width=COLUMNS)
        verb = commands.get_command(context, name)
        inner = click.Context(verb, info_name=name, parent=context, max_content_width=COLUMNS, terminal_width=COLUMNS)
        blocks += [f"## {name}", f"```text\n{verb.get_help(inner).rstrip()}\n```"]
    return page("Verbs", "What each verb says of itself with `--help`. Exit codes and JSON: [cli.md](cli.md).", *blocks)


def figures() -> str:
    """Return the page of the figures that a plan gives."""
    view = plan_site(DEMO)
    rows = [
        (
            f"`{name}`",
            reason.number.words,
            f"`{reason.number.unit}`",
            f"{reason.formula or reason.origin}{' (lived)' * bool(reason.model)}",
        )
        for name, reason in view.reasons.items()
    ]
    return page(
        "Figures of a plan",
        "Each opens with `sourloam plan SITE --why NAME`; an unambiguous start of the name will do. The words are "
        "those of the plan of Quillet Yard, so a vessel has its name. Units are UCUM codes. *Lived*: counted in a year "
        "that is lived day by day, not computed by a formula.",
        table(("name", "what it is", "unit", "how"), rows),
    )


def values() -> str:
    """Return the page of every value that the models are handed."""
    blocks = []
    for path in sorted(PARAMETERS.glob("*.toml")):
        rows = [
            (
                f"`{name}`",
                row["words"],
                f"{row['value']:g} ({row['low']:g} to {row['high']:g})" if "low" in row else f"{row['value']:g}",
                f"`{row['unit']}`",
                Basis(row["basis"]).words,
                f"`{row['source']}`: {row['place']}",
            )
            for name, row in tomllib.loads(path.read_text("utf-8")).items()
        ]
        blocks += [f"## {path.stem.replace('_', ' ')}", table(("name", "what", "value", "unit", "how", "source"), rows)]
    return page(
        "Values",
        "What the models are handed, each with its 90 % interval, how it came to be known, and where it stands in its "
        "source. The sources themselves: [sources.md](sources.md).",
        *blocks,
    )


def sources() -> str:
    """Return the page of all sources."""
    rows = [
        (f"`{key}`", f"{each.text}{f' Read through: {each.through}.' if each.through else ''}", each.basis.words)
        for key, each in sorted(load_sources().items())
    ]
    return page("Sources", table(("key", "the work", "how it is known"), rows))


def outside_checks() -> str:
    """Return the page of the numbers printed elsewhere that the tests hold the code to."""
    rows = [row for path in sorted((ROOT / "tests").rglob("test_*.py")) for row in _published(path)]
    return page(
        "Checks against the outside",
        "Numbers that are printed somewhere and that the code was not made from. The tolerance is half a unit in the "
        "last printed place, or else the scatter that the source itself states. Checks against tables of measured data "
        "stand beside their tests and are not listed.",
        table(("source", "about", "printed", "within", "test"), rows),
    )


def _published(path: Path) -> Iterator[tuple[str, ...]]:
    """Give a row for each case of a test file; of cases made in a loop, one for the loop."""
    if path.name == "test_published.py":
        return
    link = path.relative_to(ROOT).as_posix()
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Published":
            named = {each.arg: each.value for each in node.keywords}
            source, where = [*node.args, named.get("source"), named.get("where")][:2]
            want, within = named.get("want"), named.get("within")
            why = _words(named.get("why"), "")
            yield (
                _words(source, "several"),
                _words(where, "each row of a table"),
                _words(want, "see the test"),
                f"{_words(within, '')} {f'({why})' if why else ''}".strip(),
                f"[{path.stem}](../{link})",
            )


def _words(node: ast.expr | None, otherwise: str) -> str:
    return str(node.value) if isinstance(node, ast.Constant) else otherwise


def readme() -> str:
    """Return README.md with the sample of its output made anew."""
    text = (ROOT / "README.md").read_text("utf-8")
    before, _, rest = text.partition(SAMPLE)
    _, _, after = rest.partition(SAMPLE_ENDS)
    return f"{before}{SAMPLE}\n\n```text\n{sample()}\n```\n\n{SAMPLE_ENDS}{after}"


def sample() -> str:
    """Return the beginning of each part of the plan of the demonstration that a newcomer looks for first."""
    blocks = plan_text(plan_site(DEMO)).split("\n\n")
    shown = [*blocks[:2], *(_begun(each) for each in blocks[2:] if each.startswith(SHOWN))]
    return "\n\n".join(shown)


def _begun(block: str) -> str:
    lines = block.split("\n")
    return block if len(lines) <= SHOWN_LINES else "\n".join([*lines[:SHOWN_LINES], "  ..."])


PAGES: Mapping[str, Callable[[], str]] = {
    "../README.md": readme,
    "site-file.md": site_file,
    "materials.md": materials,
    "verbs.md": verbs,
    "figures.md": figures,
    "values.md": values,
    "sources.md": sources,
    "outside-checks.md": outside_checks,
}


def main() -> None:
    wanted = sys.argv[1:] or list(PAGES)
    for name in wanted:
        text = PAGES[name]()
        if not (DOCS / name).exists() or (DOCS / name).read_text("utf-8") != text:
            (DOCS / name).write_text(text, "utf-8")
            print(f"Written: {(DOCS / name).resolve().relative_to(ROOT)}")


if __name__ == "__main__":
    main()
