"""Site: all of the site file by forms, part by part in the order of the chain; and the file itself."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response

from sourloam.base.errors import BadInput, Problem
from sourloam.service.record import export_site, keep_site_text
from sourloam.site.site import REPEATED
from sourloam.sitefile.forms import NEW, SINGLE, Field, PartForm, form_of, forms_of, text_with, text_without
from sourloam.web.forms import by_of, taking
from sourloam.web.furniture import back_to, desk_of, page

WORDS: Final = {
    "site": "The place",
    "material": "Materials of your own",
    "stream": "Scraps",
    "vessel": "Vessels",
    "bed": "Beds",
    "pile": "Piles",
    "worm_bin": "Worm bins",
    "soil_tub": "Tubs of soil",
    "taker": "Takers",
    "stock": "The cupboard",
    "keeper": "The keeper",
}
NONE: Final = "-"  # in the address of a part that there is once


def show(request: Request) -> Response:
    """Show all parts."""
    forms = forms_of(desk_of(request).site)
    tables = ("site", *REPEATED, "stock", "keeper")
    groups = [(each, WORDS[each], [form for form in forms if form.table == each], each in REPEATED) for each in tables]
    return page(request, "site.html", here="site", groups=groups)


def part(request: Request) -> Response:
    """Show one part."""
    return _form(request, _named(request), ())


@taking
def keep(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep one part as it was typed; a fault leaves what was there, and what was typed."""
    desk, form = desk_of(request), _named(request)
    if "remove" in fields:
        text = text_without(desk.site, form.table, form.id)
    else:
        text = text_with(desk.site, form.table, "" if form.id == NEW else form.id, fields)
    try:
        keep_site_text(text, "the site", desk.address, by_of(request, fields))
    except BadInput as bad:
        typed = PartForm(form.table, form.id, form.name, tuple(_as_typed(form, fields)))
        return _form(request, typed, tuple(bad.problems))
    return back_to("/site")


def file(request: Request) -> Response:
    """Show the file."""
    return page(request, "site_file.html", here="site", text=export_site(desk_of(request).must_book()), problems=())


@taking
def keep_file(request: Request, fields: Mapping[str, str]) -> Response:
    """Keep the file as it was changed; a fault leaves what was there."""
    desk = desk_of(request)
    text = fields.get("text", "").replace("\r\n", "\n")
    try:
        keep_site_text(text, "site file", desk.address, by_of(request, fields))
    except BadInput as bad:
        return page(request, "site_file.html", here="site", status=422, text=text, problems=tuple(bad.problems))
    return back_to("/year")


def _named(request: Request) -> PartForm:
    table, id_ = request.path_params["table"], request.path_params["id"]
    if table not in SINGLE and table not in REPEATED:
        raise HTTPException(404)
    try:
        return form_of(desk_of(request).site, table, "" if id_ == NONE else id_)
    except KeyError:
        raise HTTPException(404) from None


def _as_typed(form: PartForm, fields: Mapping[str, str]) -> list[Field]:
    return [replace(each, value=fields.get(each.name, each.value)) for each in form.fields]


def _form(request: Request, form: PartForm, problems: tuple[Problem, ...]) -> Response:
    can_go = form.table in REPEATED and form.id != NEW
    return page(
        request,
        "site_part.html",
        here="site",
        status=422 if problems else 200,
        form=form,
        group=WORDS[form.table],
        can_go=can_go,
        problems=problems,
    )
