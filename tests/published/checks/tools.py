"""Published figures about tools and motors against our tables and the arithmetic of table 430.248."""

from ampwright.engine.standards import load_power_guides, motor_currents

HP_W = 745.699871582


def wattage(row):
    found = load_power_guides.appliance_power_w(row.item)
    bounds = [float(part) for part in row.value.split("..")]
    assert [found.low, found.high] == [bounds[0], bounds[-1]]


NAMES = {
    "10-0032": "motors in general, utility guidance",
    "10-0034": "heaters and lamps, cold filament ignored",
    "10-0035": "cold tungsten lamp, milliseconds",
}


def inrush(row):
    found = load_power_guides.starting_ratio(NAMES[row.id])
    bounds = [float(part) for part in row.value.split("..")]
    assert [found.low, found.high] == [bounds[0], bounds[-1]]
    assert found.status == row.status


def efficiency(row):
    hp, motor, poles = row.parts(r"([\d.]+)(?:/[\d.]+)? hp(?:/kW)? (.*) open, (\d) poles")
    motor = {"polyphase": "polyphase, open", "capacitor-start single-phase": "capacitor-start single-phase, open"}[
        motor
    ]
    found = motor_currents.full_load_efficiency_ratio(motor, hp, int(poles))
    row.is_served(round(100 * found.value, 9))
    assert found.status == row.status


def _table_current(row, rest):
    hp, volts = row.parts(rf"(\S+) hp (\d+) V: {rest}")
    watts = motor_currents.horsepower_from_text(hp) * HP_W
    return watts, float(volts), motor_currents.full_load_current_a(watts, float(volts)).value


def implied_efficiency(row):
    watts, volts, amperes = _table_current(row, "efficiency x power factor implied by table FLC")
    row.rounds_to(watts / (volts * amperes))


def apparent_power(row):
    watts, volts, amperes = _table_current(row, "apparent power per hp")
    row.rounds_to(volts * amperes / 1000 / (watts / HP_W))


def forum_example(row):
    # 2 hp at 115 V, power factor 0.7, efficiency 0.8.
    row.rounds_to(2 * HP_W / (115 * 0.7 * 0.8))


def vibration(row):
    row.is_served(load_power_guides.hammer_tool_daily_limit_s().value / 60)


def refrigerator(row):
    row.is_served(load_power_guides.refrigerator_run_ratio().value)
    row.rounds_to(1 / 3)
