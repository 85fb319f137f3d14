"""Are settings read as the table in their module says?"""

import dataclasses

import pytest
from ampwright import settings
from ampwright.catalogue.database import parsed_url, sqlite_path
from ampwright.settings import BadSetting, Settings, read_settings, unknown_variables


def test_nothing_set() -> None:
    found = read_settings({"HOME": "/home/a b%"})
    assert str(sqlite_path(parsed_url(found.database_url))) == "/home/a b%/.local/share/ampwright/ampwright.db"
    assert (found.host, found.port, found.workers, found.allow_open_address) == ("127.0.0.1", 8712, 1, False)


def test_where_the_embedded_database_lies() -> None:
    assert (
        read_settings({"XDG_DATA_HOME": "/data", "HOME": "/h"}).database_url == "sqlite:////data/ampwright/ampwright.db"
    )
    # a relative XDG_DATA_HOME is to be ignored (XDG Base Directory Specification 0.8)
    assert read_settings({"XDG_DATA_HOME": "data", "HOME": "/h"}).database_url.startswith("sqlite:////h/")
    assert read_settings({}).database_url == "sqlite:///ampwright.db"


def test_everything_set() -> None:
    given = {
        "AMPWRIGHT_DATABASE_URL": "postgresql://u:p@h/n",
        "AMPWRIGHT_HOST": "::1",
        "AMPWRIGHT_PORT": " 80 ",
        "AMPWRIGHT_WORKERS": "2",
        "AMPWRIGHT_ALLOW_OPEN_ADDRESS": "Yes",
        "AMPWRIGHT_ALLOW_UNFLUSHED_DATABASE": "off",
        "AMPWRIGHT_BODY_TIMEOUT_S": "2.5",
        "AMPWRIGHT_CALCULATION_QUEUE": "0",
        "AMPWRIGHT_SHUTDOWN_GRACE_S": "",
    }
    found = read_settings(given)
    assert (found.database_url, found.host, found.port, found.workers) == ("postgresql://u:p@h/n", "::1", 80, 2)
    assert (found.allow_open_address, found.allow_unflushed_database) == (True, False)
    assert (found.body_timeout_s, found.calculation_queue, found.shutdown_grace_s) == (2.5, 0, 20.0)
    assert unknown_variables(given) == ()


@pytest.mark.parametrize(
    ("variable", "text"),
    [
        ("AMPWRIGHT_PORT", "0"),
        ("AMPWRIGHT_PORT", "65536"),
        ("AMPWRIGHT_PORT", "http"),
        ("AMPWRIGHT_PORT", "80.0"),
        ("AMPWRIGHT_PORT", "\u0668\u0660"),  # Arabic digits, which int() takes
        ("AMPWRIGHT_PORT", "9" * 5000),
        ("AMPWRIGHT_WORKERS", "-1"),
        ("AMPWRIGHT_ALLOW_OPEN_ADDRESS", "maybe"),
        ("AMPWRIGHT_BODY_TIMEOUT_S", "nan"),
        ("AMPWRIGHT_BODY_TIMEOUT_S", "inf"),
    ],
)
def test_values_that_cannot_be_used(variable: str, text: str) -> None:
    with pytest.raises(BadSetting) as refused:
        read_settings({variable: text})
    assert refused.value.variable == variable


def test_a_misspelt_variable_is_named() -> None:
    assert unknown_variables({"AMPWRIGHT_PROT": "1", "AMPWRIGHT_KERNEL_CACHE": "/x", "PATH": "/bin"}) == (
        "AMPWRIGHT_PROT",
    )


def test_settings_are_frozen() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        read_settings({}).port = 1  # type: ignore[misc]


def test_every_setting_is_in_the_table_with_its_default() -> None:
    table = settings.__doc__ or ""
    for field in dataclasses.fields(Settings):
        row = next((line for line in table.splitlines() if line.startswith(f"AMPWRIGHT_{field.name.upper()} ")), "")
        assert row, field.name
        if field.default is not dataclasses.MISSING:
            assert row.split()[1] == as_shown(field.default), field.name


def as_shown(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, tuple):
        return " ".join(value) or "none"
    return f"{value:g}" if isinstance(value, float) else str(value)
