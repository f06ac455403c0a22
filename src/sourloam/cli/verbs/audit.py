"""`sourloam audit [BASIS]`: every value of the tool, and how it came to be known."""

import sys

import click

from sourloam.base.source import Basis
from sourloam.cli import options
from sourloam.cli.exits import Exit, guarded
from sourloam.cli.show_materials import audit_text
from sourloam.service.materials import audit_all
from sourloam.views.materials_json import audit_object


@click.command("audit")
@click.argument("basis", required=False, type=click.Choice([each.value for each in Basis], case_sensitive=False))
@options.as_json
def command(basis: str | None, *, as_json: bool) -> None:
    """Show how every value came to be known: read, worked out, custom, judgement or memory.

    With BASIS, list the values of that kind: MEMORY and JUDGEMENT are the
    weakest.

    Exit code 0: done.
    """
    sys.exit(guarded(lambda: _run(basis, as_json=as_json), as_json=as_json))


def _run(basis: str | None, *, as_json: bool) -> Exit:
    view = audit_all(Basis(basis.upper()) if basis else None)
    click.echo(options.json_text(audit_object(view)) if as_json else audit_text(view, is_narrowed=basis is not None))
    return Exit.DONE
