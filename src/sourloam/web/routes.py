"""Every address of the program on one screen."""

from typing import Final

from starlette.routing import BaseRoute, Route

from sourloam.web.pages import (
    act,
    ask,
    assets,
    cultures,
    first,
    ground,
    history,
    layer,
    materials,
    more,
    shelf,
    site,
    today,
    vessel,
    wrong,
    year,
)

ROUTES: Final[list[BaseRoute]] = [
    Route("/", today.show),
    Route("/task", today.mark, methods=["POST"]),
    Route("/shelf", shelf.show),
    Route("/shelf/{vessel}", vessel.show),
    Route("/shelf/{vessel}/layer", layer.ask),
    Route("/shelf/{vessel}/layer", layer.keep, methods=["POST"]),
    Route("/shelf/{vessel}/layer/dose", layer.dose),
    Route("/shelf/{vessel}/{act}", act.ask),
    Route("/shelf/{vessel}/{act}", act.keep, methods=["POST"]),
    Route("/wrong", wrong.show),
    Route("/cultures", cultures.show),
    Route("/cultures", cultures.keep, methods=["POST"]),
    Route("/ground", ground.show),
    Route("/year", year.show),
    Route("/more", more.show),
    Route("/ask", ask.show),
    Route("/ask/{name}", ask.one),
    Route("/materials", materials.show),
    Route("/site", site.show),
    Route("/site", site.keep, methods=["POST"]),
    Route("/history", history.show),
    Route("/history", history.write, methods=["POST"]),
    Route("/history/undo", history.take_back, methods=["POST"]),
    Route("/history/lines.jsonl", history.lines_file),
    Route("/history/site.toml", history.site_file),
    Route("/first", first.show),
    Route("/first", first.start, methods=["POST"]),
    Route("/static/{name}", assets.static),
    Route("/worker.js", assets.worker),
    Route("/favicon.ico", assets.icon),
]
