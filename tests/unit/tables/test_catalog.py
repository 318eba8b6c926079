"""`rack catalog`: what it finds and how it prints."""

import json

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from frame.cli.catalog import command
from frame.errors import CatalogError
from frame.report import catalog
from frame.tables import channels, pipes, soils, steels, wires

NEAR_NAMES = st.text(alphabet="0123456789/-. \"'nominalschtubgceDNx#", max_size=24)


def names(words: str, kind: str | None = None) -> set[str]:
    return {entry.name for entry in catalog.search_catalog(words.split(), kind)}


def test_no_words_list_everything() -> None:
    assert {entry.kind for entry in catalog.search_catalog(())} == set(catalog.KINDS)
    assert len(catalog.search_catalog(())) == len(catalog.entries()) > 120


def test_a_size_finds_both_its_meanings_unless_nominal_is_said() -> None:
    both = names("3-1/2", "pipe")
    assert {"3-1/2 in nominal sch 40", "3 in nominal sch 40", "3-1/2 in tubing 9.3 lb/ft"} <= both
    assert names("3-1/2 nominal") == {"3-1/2 in nominal sch 40", "3-1/2 in nominal sch 80"}
    assert names("3.5") == names("3.500") <= both


def test_numbers_match_whole_and_words_from_their_start() -> None:
    assert names("1/4 ehs") == {"1/4 in EHS strand"}
    assert names("14 ga") == {c.name for c in channels.channels() if "14 ga" in c.name}
    assert names("UNKN steel") == {"unknown sound", "unknown old"}
    assert names("sedim rock") == {"sedimentary rock"}
    assert names("zebra") == set()


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("0.237", "4 in nominal sch 40"),
        (".237", "4 in nominal sch 40"),
        ("wall 0.237", "4 in nominal sch 40"),
        ("outside 6.625 wall .280", "6 in nominal sch 40"),
        ("6.02 mm", "4 in nominal sch 40"),
        ("breaking 6,650", "1/4 in EHS strand"),
        ("6650 lb", "1/4 in EHS strand"),
        ("yield 35 ksi", "A53 B"),
        ("lateral 150", "sand"),
        ("terzaghi", "hard clay"),
    ],
)
def test_what_is_no_name_is_found_in_any_column(words: str, found: str) -> None:
    """ASME B36.10M, ASTM A53 and A475, IBC Table 1806.2: walls, strengths and pressures."""
    assert found in names(words)
    assert len(names(words)) < 12


def test_a_name_is_looked_for_first() -> None:
    """A53 stands in the source of every standard pipe, but nobody means those."""
    assert {entry.kind for entry in catalog.search_catalog(["A53"])} == {"steel"}
    assert {entry.kind for entry in catalog.search_catalog(["4.5"])} == {"pipe"}


@pytest.mark.parametrize("units", ["us", "metric"])
def test_tables_fit_80_letters_and_cut_nothing_off(units: str) -> None:
    result = CliRunner().invoke(command, ["--units", units], env={"COLUMNS": "80"})
    assert result.exit_code == 0
    lines = result.output.splitlines()
    assert max(map(len, lines)) <= 80
    assert "\u2026" not in result.output
    for entry in catalog.entries():
        assert any(line.startswith(entry.name) for line in lines)
        assert entry.source.split()[0] in result.output
    assert "measure salvage" in result.output


def test_units_of_the_heads_follow_the_option() -> None:
    us = CliRunner().invoke(command, ["4", "nominal"], env={"COLUMNS": "80"}).output
    metric = CliRunner().invoke(command, ["4", "nominal", "--units", "metric"]).output
    assert "4.500" in us
    assert "lb/ft" in us
    assert "114.30" in metric
    assert "kg/m" in metric


def test_json_is_si_with_null_for_what_does_not_apply() -> None:
    result = CliRunner().invoke(command, ["clay", "--json"])
    data = json.loads(result.output)
    entry, hard = data["entries"]
    assert (entry["name"], hard["name"]) == ("clay", "hard clay")
    facts = {fact["label"]: fact["value"] for fact in entry["facts"]}
    assert data["schema"] == 1
    assert facts["bearing"] == pytest.approx(71.82e3, rel=1e-3)
    assert facts["phi from"] is None
    assert entry["source"].startswith("IBC")


def test_nothing_found_says_so() -> None:
    result = CliRunner().invoke(command, ["zebra"])
    assert isinstance(result.exception, CatalogError)
    assert '"zebra"' in str(result.exception)


@pytest.mark.parametrize("module", [pipes, steels, channels, wires, soils])
def test_any_text_is_found_or_refused_clearly(module: type[pipes]) -> None:
    @given(st.one_of(st.text(max_size=30), NEAR_NAMES))
    def find(text: str) -> None:
        try:
            module.find(text)
        except CatalogError:
            return

    find()


@given(st.one_of(st.text(max_size=30), NEAR_NAMES))
def test_any_words_can_be_searched(text: str) -> None:
    assert set(catalog.search_catalog(text.split())) <= set(catalog.entries())


@given(
    st.sampled_from(pipes.pipes()), st.sampled_from(["{}", "{} pipe", "{} in", '{}"', "{} inch"])
)
def test_a_bare_size_is_never_taken_for_a_pipe(pipe: pipes.PipeSize, spelling: str) -> None:
    with pytest.raises(CatalogError, match="does not say which pipe"):
        pipes.find(spelling.format(pipe.name.split()[0]))
