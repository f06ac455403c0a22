"""Nobody but the keeper's own browser reads or writes; nothing is loaded from elsewhere."""

import pytest
from starlette.datastructures import Headers

from sourloam.web.guard import LARGEST_BODY, is_here, refusal
from tests.web.browsing import client_of, send, token_of


@pytest.mark.parametrize("host", ["localhost", "localhost:8765", "127.0.0.1:1", "[::1]:8765", "[::1]", "LOCALHOST:9"])
def test_this_machine_is_reached_by_its_own_names(host):
    assert is_here(host)


@pytest.mark.parametrize(
    "host",
    ["", "example.org", "localhost.example.org", "127.0.0.1.example.org:80", "localhost:80:80", "10.0.0.1", "[::2]:1",
     "localhost:x", "@localhost", "localhost/"],
)  # fmt: skip
def test_a_forged_host_is_refused(host):
    """A name that somebody else points at this machine (DNS rebinding) is none of its own."""
    assert not is_here(host)
    assert refusal("GET", Headers({"host": host})) is not None


def test_a_page_under_another_name_is_not_answered(demo):
    answer = client_of(*demo).get("/", headers={"host": "attacker.example"})
    assert answer.status_code == 421
    assert "Quillet" not in answer.text


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://attacker.example"},
        {"origin": "http://localhost:9999"},
        {"origin": "null"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_what_another_page_sends_is_refused(demo, headers):
    client = client_of(*demo)
    token = token_of(client)
    answer = client.post("/task", data={"token": token, "task": "x", "act": "done"}, headers=headers)
    assert answer.status_code == 403


@pytest.mark.parametrize("token", [None, "", "0" * 32, "é"])
def test_a_form_without_the_token_of_the_browser_is_refused(demo, token):
    client = client_of(*demo)
    before = client.get("/history").text.count("<li")
    fields = {"phrase": "note that this was not written"} | ({"token": token} if token is not None else {})
    answer = client.post("/history", data=fields)
    assert answer.status_code == 403
    assert "too old" in answer.text
    assert client.get("/history").text.count("<li") == before


def test_the_token_of_one_browser_is_not_that_of_another(demo):
    ours, other = client_of(*demo), client_of(*demo)
    stolen = token_of(other)
    token_of(ours)
    assert ours.post("/history", data={"phrase": "note x", "token": stolen}).status_code == 403


@pytest.mark.parametrize("path", ["/", "/shelf", "/wrong", "/static/style.css", "/worker.js", "/nowhere"])
def test_every_answer_says_what_it_may_load(reader, path):
    headers = reader.get(path).headers
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "script-src 'self'" in policy
    assert "unsafe" not in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["x-frame-options"] == "DENY"


def test_a_bomb_is_refused_before_it_is_read(demo):
    client = client_of(*demo)
    token = token_of(client)
    told = client.post("/site", content=b"x", headers={"content-length": str(LARGEST_BODY + 1)})
    assert told.status_code == 413
    big = {"token": token, "text": "#" * (LARGEST_BODY + 1)}
    assert client.post("/site", data=big).status_code == 413


@pytest.mark.parametrize(
    "path",
    ["/static/../app.py", "/static/%2e%2e/app.py", "/static/..%2f..%2fetc%2fpasswd", "/static/style.css/..", "/static/",
     "/shelf/..%2f..", "/shelf/%00", "/ask/..%2fsite", "/history/..%2flines"],
)  # fmt: skip
def test_no_path_leads_out_of_the_program(reader, path):
    answer = reader.get(path)
    assert answer.status_code in (404, 405)
    assert "import" not in answer.text


@pytest.mark.parametrize(
    "back", ["//attacker.example", "https://attacker.example", "/\\attacker.example", "x\r\nSet-Cookie: a=b"]
)
def test_nobody_is_sent_elsewhere_and_no_header_is_slipped_in(writer, back):
    answer = send(writer, "/history", phrase="note one")
    assert answer.status_code == 200
    answer = writer.post(
        "/history/undo", data={"token": writer.cookies["sourloam-token"], "back": back}, follow_redirects=False
    )
    assert answer.headers["location"] == "/"
    assert "a=b" not in answer.headers.get("set-cookie", "")


def test_only_get_and_post_are_answered(reader):
    assert {reader.request(each, "/").status_code for each in ("PUT", "DELETE", "PATCH", "TRACE")} == {405}
