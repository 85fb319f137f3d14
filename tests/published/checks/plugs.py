"""Published plug designations, colours and fits against our configurations."""

from ampwright.engine.standards import plugs as ours

NOMINAL_V = {"125": 120.0, "250": 240.0, "125/250": 240.0}


def _both_ends(row, rest):
    (name,) = row.parts(rf"NEMA (\S+){rest}")
    return name, ours.configuration(f"{name}P"), ours.configuration(f"{name}R")


def rating(row):
    name, plug, receptacle = _both_ends(row, "")
    volts, amperes = row.value.removesuffix(" A").split(" V, ")
    for end in (plug, receptacle):
        assert "/".join(f"{each:g}" for each in end.marked_voltages_v) == volts
        assert end.current_a == float(amperes)
        assert end.locking == name.startswith("L")
        # The designation says the current itself.
        assert name.endswith(f"-{end.current_a:g}")


def poles(row):
    _, plug, receptacle = _both_ends(row, "")
    count, _, wires = row.value.removesuffix("W").partition("P")
    for end in (plug, receptacle):
        assert (end.poles, end.wires) == (int(count), int(wires))
        assert end.has_earth  # all rows say "grounding"
        # Poles and voltages tell the connection.
        assert (
            end.connection
            == {("125",): "L-N", ("250",): "L-L", ("125", "250"): "L-L-N"}[
                tuple(f"{each:g}" for each in end.marked_voltages_v)
            ]
        )


def power(row):
    _, plug, _ = _both_ends(row, " nominal power at full rating")
    marked = "/".join(f"{each:g}" for each in plug.marked_voltages_v)
    row.rounds_to(NOMINAL_V[marked] * plug.current_a)


def fit(row):
    plug, receptacle = row.parts(r"(\S+) into (\S+)")
    assert ours.fits(plug, receptacle) == (row.value == "yes")
    if plug[:-1] != receptacle[:-1]:
        assert ours.fit(plug, receptacle).status == row.status


def colour(row):
    if row.item.startswith("> 60"):
        assert row.value == "green"
        assert "green above 60 Hz" in _colours_conditions()
        return
    low, high = row.parts(r"(\d+)-(\d+) V")
    for volts in (float(low), float(high)):
        assert ours.nominal_colour(volts) == row.value
    # And the colour of a configuration is that of its voltage.
    for name in ours.designations():
        found = ours.configuration(name)
        if name.startswith("IEC 60309") and name.endswith(row.value):
            assert float(low) <= found.voltage_v <= float(high)


def _colours_conditions():
    from ampwright.engine.standards.loader import citations

    return citations()["iec-60309_colours"].conditions


def clock_spacing(row):
    row.is_served(360 / 12)


def clock_position(row):
    low, _ = row.parts(r"(\d+)-(\d+) V 2P\+E earth position")
    name = ours.nominal_colour(float(low))
    row.is_served(ours.earth_position_h(f"IEC 60309 16 A 2P+E {name}"))


def pilot(row):
    for amperes in (16, 32, 63, 125):
        found = ours.configuration(f"IEC 60309 {amperes} A 2P+E blue")
        assert found.has_pilot == (amperes >= row.number)


def pin_and_sleeve_ratings(row):
    listed = {ours.configuration(name).current_a for name in ours.designations() if name.startswith("IEC 60309")}
    assert listed == {float(part) for part in row.value.split(", ")}


def bs_1363(row):
    row.is_served(ours.configuration("BS 1363").current_a)


def cee_7(row):
    assert row.value == "16 A, 250 V"
    for name in ("CEE 7/3", "CEE 7/4", "CEE 7/5", "CEE 7/6", "CEE 7/7"):
        found = ours.configuration(name)
        assert (found.current_a, found.voltage_v) == (16.0, 250.0)
