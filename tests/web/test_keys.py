"""The file of the keys: what may stand in it, what is said of what may not, and how it is read again."""

import asyncio
import re
import tomllib
from datetime import UTC, date, datetime, timedelta
from hashlib import sha256

import pytest

from footvalve.command import main
from footvalve.web import key_ring
from footvalve.web.allowance import Allowance
from footvalve.web.application import create_app
from footvalve.web.key_file import BadKeys, read_keys
from footvalve.web.key_making import entry_of, made_key
from footvalve.web.key_ring import KeyRing
from footvalve.web.metrics import COUNTED
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings

ENDPOINTS = ("sounding", "friction", "suction-feasibility")
HASH = sha256(b"one").hexdigest()
ENTRY = f'[[keys]]\nname = "shop"\nhash = "sha256:{HASH}"\n'
USUAL = Allowance(60, 60)


@pytest.fixture
def file(tmp_path):
    return tmp_path / "keys.toml"


def read(file, text):
    file.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_keys(file, USUAL, ENDPOINTS)


def test_an_entry_of_name_and_hash_is_enough(file):
    [key] = read(file, ENTRY).values()
    assert (key.name, key.digest) == ("shop", sha256(b"one").digest())
    assert (key.allowance, key.endpoints, key.last_day) == (USUAL, None, None)


def test_an_entry_may_say_how_much_what_and_until_when(file):
    [key] = read(file, ENTRY + 'limit = "6000/hour"\nendpoints = ["sounding"]\nexpires = 2027-01-31\n').values()
    assert key.allowance == Allowance(6000, 3600)
    assert key.endpoints == {"sounding"}
    assert key.last_day == date(2027, 1, 31)


def test_an_entry_may_free_its_key_of_the_usual_limit(file):
    [key] = read(file, ENTRY + 'limit = "none"\n').values()
    assert key.allowance is None


OTHER = ENTRY.replace("shop", "other").replace(HASH, "0" * 64)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", r"it has no entry \[\[keys\]\]\.$"),
        ("keys = []", r"it has no entry \[\[keys\]\]\.$"),
        ("nonsense", r"(line 1|end of document)"),
        (b"\xff\xfe", r"utf-8"),
        (ENTRY.replace("keys", "key"), r"unknown field `key`"),
        ("keys = 5", r"`array`"),
        ("keys = [5]", r"`object`"),
        ('[[keys]]\nname = "shop"', r'entry 1 \("shop"\): .*missing required field `hash`'),
        (f'[[keys]]\nhash = "sha256:{HASH}"', r"entry 1: .*missing required field `name`"),
        (f'[[keys]]\nname = 5\nhash = "sha256:{HASH}"', r"entry 1: .*`\$\.name`"),
        (ENTRY + OTHER + 'limits = "5/second"', r'entry 2 \("other"\): .*unknown field `limits`'),
        (ENTRY.replace("shop", "a shop"), r'entry 1 \("a shop"\): `name` must be 1 to 64 letters'),
        (ENTRY.replace("shop", "s" * 65), r"`name` must be 1 to 64 letters"),
        (ENTRY.replace('"shop"', '""'), r"`name` must be 1 to 64 letters"),
        (ENTRY.replace("sha256:", ""), r"`hash` must be sha256: and 64"),
        (ENTRY.replace(HASH, HASH[1:]), r"`hash` must be sha256: and 64"),
        (ENTRY.replace(HASH, HASH.upper()), r"`hash` must be sha256: and 64"),
        (ENTRY + "limit = 5", r'entry 1 \("shop"\): .*`\$\.limit`'),
        (ENTRY + 'limit = "fast"', r"`limit` must be none, or a number of requests in a time such as 6000/minute"),
        (ENTRY + 'endpoints = "sounding"', r"`\$\.endpoints`"),
        (ENTRY + 'endpoints = ["soundings"]', r"holds `soundings`, which is none of .*did you mean `sounding`"),
        (ENTRY + 'expires = "2027-01-31"', r"`expires` must be a date such as 2027-01-31, without quotes"),
        (ENTRY + "expires = 2027-01-31T00:00:00Z", r"`expires` must be a date"),
        (ENTRY + OTHER.replace("0" * 64, HASH), r'entry 2 \("other"\): it has the `hash` of entry 1'),
        (ENTRY + OTHER.replace("other", "shop"), r'entry 2 \("shop"\): it has the `name` of entry 1'),
    ],
)
def test_what_is_wrong_is_told_in_a_sentence_that_names_the_entry(file, text, told):
    with pytest.raises(BadKeys, match=told) as raised:
        read(file, text)
    assert str(raised.value).endswith(".")
    assert "\n" not in str(raised.value)


def test_a_key_that_was_written_for_its_hash_is_not_told(file):
    key = made_key()
    with pytest.raises(BadKeys) as raised:
        read(file, ENTRY.replace(f"sha256:{HASH}", key))
    assert key not in str(raised.value)


@pytest.mark.parametrize("text", ["", ENTRY + "limit = 5"])
def test_a_bad_file_stops_the_start_with_the_name_of_its_variable(file, text):
    file.write_text(text)
    with pytest.raises(BadSetting, match=r"^FOOTVALVE_KEYS_FILE must hold keys"):
        create_app(Settings(keys_file=file))


def test_access_by_keys_alone_needs_a_file_of_them():
    with pytest.raises(BadSetting, match=r"^FOOTVALVE_ACCESS is keys, but FOOTVALVE_KEYS_FILE names no file"):
        create_app(Settings(access="keys"))


@pytest.fixture
def at_once(monkeypatch):
    """Looks for a change whenever it is asked to."""
    monkeypatch.setattr(key_ring, "LOOK_AGAIN_SECONDS", 0.0)


def refreshed(ring):
    asyncio.run(ring.refresh())
    return ring


def test_a_key_is_found_and_no_other(file):
    file.write_text(ENTRY)
    ring = KeyRing(file, USUAL, ENDPOINTS)
    assert ring.find(b"one").name == "shop"
    assert [ring.find(other) for other in (b"", b"two", b"one ", HASH.encode(), bytes(32))] == [None] * 5


@pytest.mark.usefixtures("at_once")
def test_a_file_that_has_changed_is_read_again(file):
    file.write_text(ENTRY)
    ring = KeyRing(file, USUAL, ENDPOINTS)
    file.write_text(ENTRY.replace(HASH, sha256(b"two").hexdigest()) + 'limit = "5/second"')
    assert refreshed(ring).find(b"one") is None
    assert ring.find(b"two").allowance == Allowance(5, 1)
    assert ring.is_current


@pytest.mark.usefixtures("at_once")
@pytest.mark.parametrize("spoil", [lambda file: file.write_text("nonsense"), lambda file: file.unlink()])
def test_a_file_that_cannot_be_used_any_more_leaves_the_keys_from_before(file, spoil, caplog, monkeypatch):
    counted = []
    monkeypatch.setattr(COUNTED, "keys_not_read", lambda: counted.append(1))
    file.write_text(ENTRY)
    ring = KeyRing(file, USUAL, ENDPOINTS)
    spoil(file)
    for _ in range(3):
        assert refreshed(ring).find(b"one").name == "shop"
    assert not ring.is_current
    errors = [record for record in caplog.records if record.levelname == "ERROR"]
    assert (len(errors), len(counted)) == (1, 1), "it is said once, and counted"
    assert str(file) in errors[0].getMessage()
    file.write_text(ENTRY + 'limit = "5/second"')
    assert refreshed(ring).is_current
    assert ring.find(b"one").allowance == Allowance(5, 1)


def test_a_file_is_not_looked_at_for_each_request(file, monkeypatch):
    file.write_text(ENTRY)
    ring = KeyRing(file, USUAL, ENDPOINTS)
    monkeypatch.setattr(ring, "_signed", lambda: pytest.fail("it has been looked at just now"))
    for _ in range(10):
        refreshed(ring)


def test_the_command_makes_a_key_and_its_entry(capsys, file):
    assert main(["key", "shop-2"]) == 0
    told = capsys.readouterr()
    [key] = re.findall(r"^footvalve_[0-9A-Za-z_-]{43}$", told.err, re.MULTILINE)
    assert key not in told.out
    file.write_text(told.out)
    assert KeyRing(file, None, ENDPOINTS).find(key.encode()).name == "shop-2"
    assert main(["key", "shop-2"]) == 0
    assert key not in capsys.readouterr().err, "each has its own"


@pytest.mark.parametrize("name", ["", "two words", 'quo"te', "new\nline", "-o", "s" * 65])
def test_the_command_takes_no_name_that_the_file_would_not(name, capsys):
    with pytest.raises(SystemExit) as ended:
        main(["key", "--", name])
    assert ended.value.code == 2
    assert "must be 1 to 64 letters" in capsys.readouterr().err


def test_a_made_entry_is_toml():
    key = made_key()
    [entry] = tomllib.loads(entry_of("shop", key))["keys"]
    assert entry == {"name": "shop", "hash": f"sha256:{sha256(key.encode()).hexdigest()}"}


def test_a_key_is_good_through_its_last_day(file, send_to):
    key = made_key()
    today = datetime.now(UTC).date()
    statuses = []
    for last_day in (today + timedelta(days=2), today - timedelta(days=2)):
        file.write_text(f"{entry_of('shop', key)}expires = {last_day}\n")
        send = send_to(create_app(Settings(keys_file=file)))
        statuses.append(send("GET", "/v1/tables/units", headers={"authorization": f"Bearer {key}"}).status_code)
    assert statuses == [200, 403]
