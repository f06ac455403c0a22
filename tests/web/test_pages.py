"""What the pages say and keep, without a browser: as a reader without script meets them."""

import html
import json
import re

import pytest

from sourloam.web.asks import ASKS
from sourloam.web.pages.act import ACTS
from sourloam.web.routes import ROUTES
from tests.web.browsing import client_of, send

PAGES = ("/", "/shelf", "/shelf/blue-2", "/shelf/green-2/layer", "/wrong", "/cultures", "/ground", "/year", "/more",
         "/ask", "/materials", "/site", "/site/file", "/history")  # fmt: skip
HOSTILE = ['<script>alert("x")</script>', "{{ 7 * 7 }}", "\u202eגן ירוק", "'; DROP TABLE entry; --", "a" * 5000,
           "\x00\x07", "%s%n", "../../etc/passwd", "=cmd|' /C calc'!A0"]  # fmt: skip


def heading(answer):
    return re.sub(r"<[^>]+>", "", re.search(r"<h1[^>]*>(.*?)</h1>", answer.text, re.DOTALL)[1]).strip()


@pytest.mark.parametrize("path", PAGES)
def test_every_page_says_its_answer_first(reader, path):
    answer = reader.get(path)
    assert answer.status_code == 200
    assert answer.text.count("<h1") == 1
    assert len(heading(answer)) > 5


@pytest.mark.parametrize("path", PAGES)
def test_no_page_asks_anything_of_another_machine(reader, path):
    found = re.findall(r'(?:src|href|action|hx-\w+)="([^"]+)"', reader.get(path).text)
    assert found
    assert not [each for each in found if re.match(r"(?:[a-z]+:)?//", each)]


@pytest.mark.parametrize("path", PAGES)
def test_no_page_holds_script_or_style_of_its_own(reader, path):
    """The policy of the pages forbids both, so a browser would drop them."""
    text = reader.get(path).text
    assert not re.search(r"<style|\sstyle=|\son[a-z]+=|javascript:", text)
    assert all("src=" in each for each in re.findall(r"<script[^>]*>", text))


def test_every_address_has_a_test():
    """A new address is added to the pages above, or to a test of its own."""
    own = {"/task", "/shelf/{vessel}/layer/dose", "/shelf/{vessel}/{act}", "/ask/{name}", "/history/undo", "/events"}
    own |= {"/events/stop", "/history/lines.jsonl", "/history/site.toml", "/first", "/static/{name}", "/worker.js"}
    own |= {"/favicon.ico", "/site/{table}/{id}"}
    known = {re.sub(r"/shelf/[a-z]+-\d", "/shelf/{vessel}", each) for each in PAGES} | own
    assert {each.path for each in ROUTES} == known


def test_a_first_visit_begins_with_a_question(tmp_path):
    client = client_of(str(tmp_path / "new.sourloam"))
    for path in ("/", "/shelf", "/year", "/history"):
        assert heading(client.get(path)) == "Where do the scraps come from?"


def test_the_questions_lead_to_a_plan(tmp_path):
    client = client_of(str(tmp_path / "new.sourloam"))
    given, asked = {}, 0
    while found := re.search(
        r'<button class="plain" name="(a\d+)" value="\?"', client.get("/first", params=given).text
    ):
        given[found[1]] = "home" if found[1] == "a0" else "?"
        asked += 1
    assert asked <= 12
    assert heading(client.get("/first", params=given)) == "That is enough for a plan"
    answer = send(client, "/first", **given, name="Below the oak")
    assert heading(answer).startswith(("Enough", "Not enough"))
    assert "Below the oak" in answer.text
    assert heading(client.get("/first")) == heading(client.get("/")), "who has begun is not asked again"


def test_an_answer_that_cannot_be_read_is_asked_again(tmp_path):
    client = client_of(str(tmp_path / "new.sourloam"))
    answer = client.get("/first", params={"a0": "home", "a1": "a lorry of it"})
    assert answer.status_code == 422
    assert "call" in answer.text


def test_a_layer_is_kept_with_its_bran(writer):
    answer = send(writer, "/shelf/green-2/layer", kind="vegetable-scraps", amount="1.5 kg")
    assert heading(answer).startswith("Kept: Green 2: 1.5 kg vegetable scraps")
    assert "bran" in heading(answer)
    assert "1.5 kg vegetable scraps" in writer.get("/shelf/green-2").text


def test_the_bran_is_told_before_it_is_kept(reader):
    told = reader.get("/shelf/green-2/layer/dose", params={"kind": "usual:north-house", "amount": "2 kg"}).text
    assert re.search(r'class="big">\d+ g<', told)


def test_a_layer_that_is_sent_twice_is_kept_once(writer):
    fields = {"kind": "vegetable-scraps", "amount": "1 kg", "entry-id": "abc123def456"}
    first, again = (send(writer, "/shelf/green-2/layer", **fields) for _ in range(2))
    assert heading(first).startswith("Kept")
    assert heading(again).startswith("It was kept already")


def test_a_layer_in_own_words(writer):
    answer = send(writer, "/shelf/green-2/layer", kind="bread", amount="1 kg", phrase="800 g peelings, some chicken")
    assert "800 g" in heading(answer)


@pytest.mark.parametrize("amount", ["", "much", "-3 kg", "900 kg", *HOSTILE[:3]])
def test_an_amount_that_will_not_do_is_said_beside_the_form(writer, amount):
    answer = send(writer, "/shelf/green-2/layer", kind="vegetable-scraps", other=amount)
    assert answer.status_code == 422
    assert 'role="alert"' in answer.text
    assert "<script>alert" not in answer.text


def test_a_sealed_vessel_takes_no_layer(writer):
    answer = send(writer, "/shelf/blue-2/layer", kind="vegetable-scraps", amount="1 kg")
    assert answer.status_code == 422
    assert "sealed" in answer.text


@pytest.mark.parametrize("act", ACTS)
def test_every_act_has_a_form_with_one_button(reader, act):
    text = reader.get(f"/shelf/blue-2/{act}").text
    assert text.count('class="solid"') == 1
    assert 'name="token"' in text


def test_acts_are_kept_and_undone(writer):
    acts = (
        ("/shelf/blue-2/reading", {"ph": "4", "smell": "pickle"}, "pH 4, smells of pickle"),
        ("/shelf/blue-2/draw", {"litres": "300 ml", "colour": "amber"}, "300 ml drawn off, amber"),
        ("/shelf/blue-2/open", {"found": "ready"}, "opened: ready"),
        ("/shelf/blue-2/place", {"place": "wall-bed", "mass": "5 kg"}, "5.0 kg to the wall bed"),
        ("/shelf/green-2/seal", {}, "sealed"),
    )
    for path, fields, says in acts:
        assert says in heading(send(writer, path, **fields)), path
    answer = send(writer, "/history/undo", back="/history")
    assert "(taken back)" in answer.text


def test_a_task_is_marked_from_the_list(writer):
    text = writer.get("/").text
    task = re.search(r'name="task" value="([^"]+)"', text)[1]
    answer = send(writer, "/task", task=task, act="done", what="what it was")
    assert answer.text.count('name="task"') == text.count('name="task"') - 1
    assert task not in re.findall(r'name="task" value="([^"]+)"', answer.text)


@pytest.mark.parametrize("name", ASKS)
def test_every_question_can_be_asked_and_has_an_address(reader, name):
    assert reader.get(f"/ask/{name}").status_code == 200
    amounts = "100 kg grass clippings" if name == "heap" else "2 kg vegetable peelings"
    usual = {"amounts": amounts, "product": "10 kg", "bran": "3 kg", "alive": "bran", "age": "11 months"}
    usual |= {"liquid": "500 ml", "amount": "200 L dry leaves", "at_hand": "300 L dry leaves" if name == "pile" else ""}
    sent = {each.name: usual[each.name] for each in ASKS[name].fields if each.name in usual}
    answer = reader.get(f"/ask/{name}", params=sent)
    assert answer.status_code == 200, answer.text
    assert heading(answer) != ASKS[name].words
    assert 'class="bill"' in answer.text, "a number opens its reason"
    assert "(--" not in re.sub(r"<[^>]+>", "", answer.text), "options of the command line mean nothing here"


@pytest.mark.parametrize("name", ASKS)
@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_in_any_field_is_answered_in_words(reader, name, text):
    sent = {each.name: text for each in ASKS[name].fields}
    answer = reader.get(f"/ask/{name}", params=sent)
    assert answer.status_code in (200, 422)
    assert "<script>alert" not in answer.text
    assert "49" not in heading(answer)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_in_the_record_are_shown_as_words(writer, text):
    answer = send(writer, "/history", phrase=f"note {text}")
    assert answer.status_code in (200, 422)
    for path in ("/history", "/", "/shelf"):
        page = writer.get(path)
        assert page.status_code == 200
        assert "<script>alert" not in page.text


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_answers_to_what_is_wrong(reader, text):
    for query in (
        {"trouble": text},
        {"trouble": "smells", "smell": text},
        {"trouble": "nothing", "days": text},
        {text: text},
    ):
        answer = reader.get("/wrong", params=query)
        assert answer.status_code in (200, 422)
        assert "<script>alert" not in answer.text


def test_what_is_wrong_needs_no_site(tmp_path):
    client = client_of(str(tmp_path / "none.sourloam"))
    answer = client.get("/wrong", params={"trouble": "smells", "smell": "rotten", "days": "9", "growth": "", "wet": ""})
    assert answer.status_code == 200
    assert "Do this now" in answer.text
    assert "You said" in answer.text


def test_a_site_with_a_fault_is_left_as_it_was(writer):
    text = writer.get("/history/site.toml").text
    answer = send(writer, "/site/file", text=text.replace('volume = "20 L"', 'volume = "20 cats"', 1))
    assert answer.status_code == 422
    assert "20 cats" in answer.text
    assert writer.get("/history/site.toml").text == text


def test_a_changed_site_is_kept_and_planned(writer):
    text = writer.get("/history/site.toml").text
    answer = send(writer, "/site/file", text=text.replace('name = "Quillet Yard"', 'name = "Quillet Yard and Lane"', 1))
    assert answer.status_code == 200
    assert "Quillet Yard and Lane" in answer.text


def test_the_lines_can_be_taken_along(reader):
    answer = reader.get("/history/lines.jsonl")
    assert "attachment" in answer.headers["content-disposition"]
    assert all(json.loads(each) for each in answer.text.splitlines())


@pytest.mark.parametrize("path", ["/shelf/none", "/shelf/none/layer", "/shelf/blue-1/none", "/ask/none", "/nowhere"])
def test_what_is_not_there_is_said(reader, path):
    answer = reader.get(path)
    assert answer.status_code == 404
    assert heading(answer) == "There is no such page."


@pytest.mark.parametrize(
    "name", ["style.css", "page.js", "htmx.min.js", "vollkorn.woff2", "icon.svg", "manifest.webmanifest"]
)
def test_what_pages_load_is_there(reader, name):
    assert reader.get(f"/static/{name}").status_code == 200


def test_a_first_page_is_small(reader):
    """The page, its style, its scripts and its face together under 100 KB as they are sent."""
    import gzip

    parts = ("/", "/static/style.css", "/static/page.js", "/static/htmx.min.js")
    sent = sum(len(gzip.compress(reader.get(each).content, 6)) for each in parts)
    assert sent + len(reader.get("/static/vollkorn.woff2").content) < 100_000


PARTS = ("site/-", "stream/north-house", "vessel/blue-1", "bed/long-bed", "pile/heap", "worm_bin/worms", "soil_tub/tub",
         "taker/allotment", "stock/-", "keeper/-")  # fmt: skip


def fields_of(text):
    """What a form holds as it stands: every field with its value, every choice with the one that is chosen."""
    found = dict(re.findall(r'<input id="f-[^"]+" name="([^"]+)" value="([^"]*)"', text))
    for name, options in re.findall(r'<select id="f-[^"]+" name="([^"]+)"[^>]*>(.*?)</select>', text, re.DOTALL):
        chosen = re.search(r'value="([^"]*)" selected', options)
        found[name] = chosen[1] if chosen else ""
    return {name: html.unescape(value) for name, value in found.items()}


@pytest.mark.parametrize("part", PARTS)
def test_a_form_that_is_sent_as_it_stands_changes_nothing(writer, part):
    before = writer.get("/history/site.toml").text
    answer = send(writer, f"/site/{part}", **fields_of(writer.get(f"/site/{part}").text))
    assert answer.status_code == 200
    assert writer.get("/history/site.toml").text == before


def test_every_key_of_a_site_file_stands_in_a_form(reader):
    """The manual of the site file is made from the same declarations."""
    from sourloam.base.fields import Key, declared
    from sourloam.site.site import REPEATED

    for part in PARTS:
        table = part.partition("/")[0]
        if table in REPEATED:
            named = fields_of(reader.get(f"/site/{part}").text)
            assert {mark.name for _, mark in declared(REPEATED[table]) if isinstance(mark, Key)} <= set(named)


def test_a_vessel_is_added_changed_and_taken_away(writer):
    send(writer, "/site/vessel/new", id="red", volume="10 L", name="Red")
    assert ">Red<" in writer.get("/shelf").text
    fields = fields_of(writer.get("/site/vessel/red").text) | {"name": "Red one", "volume": "3 gal"}
    send(writer, "/site/vessel/red", **fields)
    assert ">Red one<" in writer.get("/shelf").text
    send(writer, "/site/vessel/red", remove="1")
    assert ">Red one<" not in writer.get("/shelf").text


@pytest.mark.parametrize("text", ["20 cats", "-3 L", "", "[", "{", 'x" \n y', *HOSTILE])
def test_a_form_with_a_fault_keeps_what_was_typed_and_what_was_so(writer, text):
    before = writer.get("/history/site.toml").text
    fields = fields_of(writer.get("/site/vessel/blue-1").text) | {"volume": text}
    answer = send(writer, "/site/vessel/blue-1", **fields)
    assert answer.status_code == 422
    assert "<script>alert" not in answer.text
    assert writer.get("/history/site.toml").text == before
