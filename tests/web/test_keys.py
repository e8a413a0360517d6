"""The file of the keys: what may stand in it, what is said of what may not, and how it is read again."""

import asyncio
import os
import re
import threading
import tomllib
from datetime import UTC, date, datetime, timedelta
from hashlib import sha256

import pytest

from footvalve.command import main
from footvalve.web import key_file, key_ring
from footvalve.web.allowance import Allowance
from footvalve.web.application import create_app
from footvalve.web.key_file import BadKeys, read_keys
from footvalve.web.key_handed_on import HANDED_ON
from footvalve.web.key_making import entry_of, made_key
from footvalve.web.key_ring import KeyRing
from footvalve.web.metrics import COUNTED
from footvalve.web.setting import BadSetting
from footvalve.web.settings import Settings

ENDPOINTS = ("sounding", "friction", "suction-feasibility")
HASH = sha256(b"one").hexdigest()
ENTRY = f'[[keys]]\nname = "shop"\nhash = "sha256:{HASH}"\n'
USUAL = Allowance(60, 60)
PATIENCE_S = 60.0


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
        (ENTRY + 'limit = "fast"', r"`limit` must be none, or .* per second, minute, hour or day, such as 6000/minute"),
        (ENTRY + "endpoints = []", r"`endpoints` is empty, so that the key would open nothing"),
        ("a=" + "[" * 200_000, r"nested too deeply"),
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


def test_a_byte_order_mark_before_the_entries_is_passed_over(file):
    [key] = read(file, b"\xef\xbb\xbf" + ENTRY.encode()).values()
    assert key.name == "shop"


def test_what_nobody_foresaw_is_a_file_that_cannot_be_read(file, monkeypatch):
    monkeypatch.setattr(key_file, "_key", lambda *_: {}["a secret"])
    with pytest.raises(BadKeys, match=r"^it cannot be read \(KeyError\)\.$"):
        read(file, ENTRY)


def test_a_pipe_is_not_waited_for(file):
    os.mkfifo(file)
    with pytest.raises(BadKeys, match="it is no plain file"):
        read_keys(file, USUAL, ENDPOINTS)


def ran_out(caplog):
    """What is told of keys that have run out."""
    return [record.getMessage() for record in caplog.records if "ran out" in record.getMessage()]


@pytest.mark.usefixtures("at_once")
def test_a_key_that_has_run_out_is_told_when_it_is_read(file, caplog):
    today = datetime.now(UTC).date()
    file.write_text(f"{ENTRY}expires = {today - timedelta(days=2)}\n{OTHER}expires = {today + timedelta(days=2)}\n")
    ring = KeyRing(file, USUAL, ENDPOINTS)
    told = [f"FOOTVALVE_KEYS_FILE: key shop ran out on {today - timedelta(days=2)}"]
    assert ran_out(caplog) == told
    file.write_text(f"{ENTRY}expires = {today - timedelta(days=3)}\n")
    refreshed(ring)
    assert ran_out(caplog) == [*told, f"FOOTVALVE_KEYS_FILE: key shop ran out on {today - timedelta(days=3)}"]


@pytest.mark.parametrize("text", ["", "keys = []", "# none"])
def test_a_file_without_keys_stops_the_start_and_tells_how_to_make_one(file, text):
    file.write_text(text)
    with pytest.raises(BadSetting, match=r"has no entry \[\[keys\]\]: `footvalve key NAME` makes one"):
        create_app(Settings(keys_file=file))


@pytest.mark.usefixtures("at_once")
@pytest.mark.parametrize("text", ["", "keys = []"])
def test_who_takes_out_the_last_key_revokes_it(file, text, send_to, caplog):
    key = made_key()
    file.write_text(entry_of("shop", key))
    send = send_to(create_app(Settings(keys_file=file)))
    with_key = {"authorization": f"Bearer {key}"}
    assert send("GET", "/v1/tables/units", headers=with_key).status_code == 200
    file.write_text(text)
    assert [send("GET", "/v1/tables/units", headers=headers).status_code for headers in (with_key, {})] == [401, 401]
    assert send("GET", "/ready").json()["keys"] == "current"
    assert f"no key is left in {file}" in caplog.text


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
@pytest.mark.parametrize(
    "spoil",
    [
        lambda file: file.write_text("nonsense"),
        lambda file: file.write_text("a=" + "[" * 200_000),
        lambda file: file.unlink(),
    ],
)
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


@pytest.mark.usefixtures("at_once")
def test_a_file_that_cannot_be_looked_at_is_a_failed_reading_and_no_failed_request(file, send_to, monkeypatch):
    counted = []
    monkeypatch.setattr(COUNTED, "keys_not_read", lambda: counted.append(1))
    key = made_key()
    file.write_text(entry_of("shop", key))
    send = send_to(create_app(Settings(keys_file=file)))

    def no_thread(*_):
        raise RuntimeError("can't start new thread")

    with monkeypatch.context() as patched:
        patched.setattr(key_ring.asyncio, "to_thread", no_thread)
        told = send("GET", "/v1/tables/units", headers={"authorization": f"Bearer {key}"})
        ready = send("GET", "/ready")
    assert (told.status_code, ready.status_code, ready.json()["keys"]) == (200, 200, "outdated")
    assert len(counted) == 2
    assert send("GET", "/ready").json()["keys"] == "current", "it is read as soon as that can be done"


@pytest.fixture
def handed_on(monkeypatch):
    """Hands on what a file was when it could be used last."""
    return lambda text: monkeypatch.setattr(HANDED_ON, "octets", text.encode())


def test_a_process_that_was_handed_keys_begins_with_them_while_the_file_is_spoiled(file, handed_on, monkeypatch):
    counted = []
    monkeypatch.setattr(COUNTED, "keys_not_read", lambda: counted.append(1))
    handed_on(ENTRY)
    file.write_text("nonsense")
    ring = KeyRing(file, USUAL, ENDPOINTS)
    assert ring.find(b"one").allowance == USUAL
    assert (ring.is_current, len(counted)) == (False, 1)


@pytest.mark.parametrize("text", ["", OTHER])
def test_a_process_that_was_handed_keys_takes_those_of_a_sound_file(file, handed_on, text):
    handed_on(ENTRY)
    file.write_text(text)
    ring = KeyRing(file, USUAL, ENDPOINTS)
    assert ring.find(b"one") is None
    assert ring.is_current


def test_a_file_is_not_looked_at_for_each_request(file, monkeypatch):
    file.write_text(ENTRY)
    ring = KeyRing(file, USUAL, ENDPOINTS)
    monkeypatch.setattr(ring, "_signed", lambda: pytest.fail("it has been looked at just now"))
    for _ in range(10):
        refreshed(ring)


@pytest.mark.usefixtures("at_once")
def test_who_comes_while_the_file_is_read_waits_for_it(file, monkeypatch):
    file.write_text(ENTRY)
    ring = KeyRing(file, USUAL, ENDPOINTS)
    file.write_text(OTHER)
    read = threading.Event()
    looks = []

    def slowly(path, *more):
        looks.append(path)
        read.wait(PATIENCE_S)
        return read_keys(path, *more)

    async def asked():
        await ring.refresh()
        return ring.find(b"one")

    async def many():
        asking = [asyncio.create_task(asked()) for _ in range(20)]
        while not looks:
            await asyncio.sleep(0.001)
        read.set()
        return await asyncio.gather(*asking)

    monkeypatch.setattr(key_ring, "LONGEST_WAIT_SECONDS", PATIENCE_S)
    monkeypatch.setattr(key_ring, "read_keys", slowly)
    assert asyncio.run(many()) == [None] * 20
    assert len(looks) == 1


@pytest.mark.usefixtures("at_once")
def test_nobody_waits_long_for_a_disk_that_hangs(file, monkeypatch):
    file.write_text(ENTRY)
    ring = KeyRing(file, USUAL, ENDPOINTS)
    hangs = threading.Event()
    monkeypatch.setattr(ring, "_signed", lambda: hangs.wait(PATIENCE_S) and None)

    async def asked():
        await ring.refresh()
        return ring.find(b"one"), hangs.set()

    found, _ = asyncio.run(asked())
    assert found.name == "shop"


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


def test_a_key_is_not_shown_where_its_entry_cannot_be_written(unwritable):
    ended = unwritable("key", "shop")
    assert ended.returncode == 1
    assert ended.stderr.startswith("footvalve: ")
    assert ended.stderr.count("\n") == 1
    assert "footvalve_" not in ended.stderr


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
