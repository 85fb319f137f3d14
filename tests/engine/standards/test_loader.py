"""Does the loader refuse whatever nobody can trace, and does every table stand on a citation and a reference value?"""

import dataclasses

import pytest
from ampwright.engine.standards import loader
from ampwright.engine.standards.loader import STATUSES, UncitedTable, citations, read_citations, read_table, table
from ampwright.engine.standards.loader import table_keys as keys
from published.reference_rows import published

CITED = {
    "somewhere": loader.Citation("somewhere", "a document", "2020", "table 1", "", "", "verified"),
}
GOOD = "size,value_a,status,row\n12 AWG,25,verified,02-0008\n"


def test_a_sound_table_is_read():
    found = read_table("somewhere", GOOD, CITED)
    assert found.columns == ("size", "value_a")
    assert found.at(size="12 AWG").number("value_a") == 25.0
    assert found.find(size="13 AWG") is None
    with pytest.raises(UncitedTable):
        found.at(size="13 AWG")


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("elsewhere", GOOD),  # no citation
        ("somewhere", GOOD.replace("verified", "certain")),  # a status nobody knows
        ("somewhere", GOOD.replace(",verified,", ",,")),  # no status
        ("somewhere", "size,value_a,status,row\n"),  # no rows
        ("somewhere", GOOD.replace(",02-0008", "")),  # a cell is missing
        ("somewhere", GOOD.replace(",02-0008", ",02-0008,more")),  # a cell too many
        ("somewhere", GOOD.replace("size,value_a", "size,size")),  # two columns of one name
        ("somewhere", "size,value_a\n12 AWG,25\n"),  # no bookkeeping
        ("somewhere", ""),
    ],
)
def test_what_cannot_be_traced_is_refused(key, text):
    with pytest.raises(UncitedTable):
        read_table(key, text, CITED)


def test_text_where_a_number_is_needed_is_refused():
    found = read_table("somewhere", GOOD.replace(",25,", ",about 25,"), CITED)
    with pytest.raises(UncitedTable, match="value_a"):
        found.rows[0].number("value_a")
    empty = read_table("somewhere", GOOD.replace(",25,", ",,"), CITED)
    assert empty.rows[0].number_or_none("value_a") is None


@pytest.mark.parametrize(
    "text",
    [
        '["a"]\ndocument = "d"\n',
        '["a"]\ndocument="d"\nedition=""\nplace="p"\nconditions=""\nerrata=""\nstatus="sure"\n',
        '["a"]\ndocument=""\nedition=""\nplace="p"\nconditions=""\nerrata=""\nstatus="verified"\n',
        '["a"]\ndocument="d"\nedition=2023\nplace="p"\nconditions=""\nerrata=""\nstatus="verified"\n',
        'a = "text"\n',
    ],
)
def test_a_citation_that_is_not_whole_is_refused(text):
    with pytest.raises(UncitedTable):
        read_citations(text)


def test_a_table_that_is_not_there_is_refused():
    with pytest.raises(UncitedTable):
        table("nfpa-70_1889_t1")
    with pytest.raises(UncitedTable):
        table("../citations")


def test_tables_cannot_be_changed():
    found = table("nfpa-70_2023_ch9-t8")
    with pytest.raises(TypeError):
        found.rows[0].cells["resistance_ohm_per_kft"] = "0"
    with pytest.raises(dataclasses.FrozenInstanceError):
        found.rows = ()
    with pytest.raises(TypeError):
        citations()["new"] = None
    assert table("nfpa-70_2023_ch9-t8") is found


@pytest.mark.parametrize("key", keys())
def test_every_table_is_sound(key):
    found = table(key)
    assert found.citation.key == key
    # No line stands twice: the same keys with another value would make the first one win in silence.
    lines = [tuple(row.cells.values()) for row in found]
    assert len(lines) == len(set(lines))


@pytest.mark.parametrize("key", keys())
def test_every_reference_named_in_a_table_exists_and_is_as_sure(key):
    for row in table(key):
        if not row.reference:
            assert row.status in STATUSES
            continue
        # A row may not claim more than the published value it agrees with.
        assert STATUSES.index(row.status) >= STATUSES.index(published()[row.reference].status), row


def test_every_citation_but_formulas_and_clauses_has_its_table():
    without = set(citations()) - set(keys())
    assert without == {
        "astm-b258", "class-b-lay", "epa-mpge", "iec-60028", "iec-60228_2004_annex-b", "iec-60889",
        "iec-60974-1_i1eff", "iso-2533", "iso-3046-1", "nema-wd-6", "nfpa-70_210-20", "nfpa-70_630-12",
        "nrel-pvwatts-5", "sae-j1772_pilot", "sandia-inverter",
    }  # fmt: skip
