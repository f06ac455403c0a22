"""How sour the shelf is drawn: by the kept forecasts, and dotted where nobody has followed a vessel yet."""

from sourloam.draw.palette import cabbage
from sourloam.service.compiled import compiled
from sourloam.service.desk import Desk
from tests.web.browsing import client_of, demo_book


def test_layers_are_as_sour_as_they_were_last_followed(tmp_path):
    book, on = demo_book(tmp_path)
    client = client_of(book, on)
    assert "have not been followed yet" in client.get("/shelf").text
    assert "It has not been followed yet" in client.get("/shelf/blue-2").text
    desk = Desk(book, on=on)
    new = desk.forecast(compiled)
    assert {"blue-2/1", "green-1/1", "green-2/1"} == set(new)
    ph = desk.shelf().ph["blue-2"]
    assert len(ph) == 7
    assert all(each is not None and 3.0 < each < 5.0 for each in ph), "sealed for seventeen days and read as 4"
    page = client_of(book, on).get("/shelf/blue-2").text
    assert cabbage(ph[-1]) in page
    assert "How it goes" in page
    assert desk.forecast(compiled) == (), "what still holds is not worked out again"


def test_a_reading_makes_the_forecast_stale_and_the_next_one_tells_the_change(tmp_path):
    book, on = demo_book(tmp_path)
    client = client_of(book, on)
    desk = Desk(book, on=on)
    desk.forecast(compiled)
    token = client.get("/wrong") and client.cookies["sourloam-token"]
    client.post("/shelf/green-1/reading", data={"token": token, "ph": "6", "smell": "putrid"})
    fresh = Desk(book, on=on)
    assert not fresh.forecasts()["green-1/1"].is_current
    assert "worked out again" in client_of(book, on).get("/shelf/green-1").text
    assert fresh.forecast(compiled) == ("green-1/1",)
    kept = fresh.forecasts()["green-1/1"]
    assert kept.is_current
    assert kept.before is not None
    assert not kept.is_sound
