"""`sourloam materials [WORDS]`: what goes in, what it is made of, and where that is from."""

import csv
import io
import sys
from collections.abc import Sequence
from typing import Any

import click

from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_materials import materials_audit_text, materials_text
from sourloam.service.materials import audit_materials, look_up
from sourloam.views.materials_json import material_rows, materials_audit_object, materials_object


@click.command("materials")
@click.argument("words", nargs=-1)
@click.option("--audit", is_flag=True, help="How well the values are known: measured, from a relative, or by rule.")
@click.option("--csv", "as_csv", is_flag=True, help="Print a table, one row to a material.")
@options.as_json
def command(words: tuple[str, ...], *, audit: bool, as_csv: bool, as_json: bool) -> None:
    """List the materials, or those that WORDS name: a name, a kind, a part of a name.

    One that is named alone is shown in full, with the source of each group of
    its values.

    Exit code 0: done. 2: nothing answers to WORDS.
    """
    sys.exit(guarded(lambda: _run(words, audit=audit, as_csv=as_csv, as_json=as_json), as_json=as_json))


def _run(words: Sequence[str], *, audit: bool, as_csv: bool, as_json: bool) -> Exit:
    if audit:
        shares = audit_materials()
        click.echo(options.json_text(materials_audit_object(shares)) if as_json else materials_audit_text(shares))
        return Exit.DONE
    views = look_up(words)
    if as_json:
        click.echo(options.json_text(materials_object(views)))
    elif as_csv:
        click.echo(_table(material_rows(views)), nl=False)
    else:
        click.echo(materials_text(views))
    return Exit.DONE


def _table(rows: Sequence[dict[str, Any]]) -> str:
    columns = list(dict.fromkeys(name for row in rows for name in row))
    written = io.StringIO()
    table = csv.DictWriter(written, columns, lineterminator="\n")
    table.writeheader()
    table.writerows(rows)
    return written.getvalue()
