"""From the tap to the main: backflow device, filter, valve, regulator; and where supply and zone come to rest."""

from collections.abc import Callable

from brimful.domains.hydraulics.losses import fitting_loss, valve_loss
from brimful.domains.hydraulics.pipe import velocity_m_s
from brimful.domains.hydraulics.supply import SupplyCurve
from brimful.records import record

REGULATOR_MARGIN_M = 3.5  # about 5 psi above its setting: common practice, no source
REGULATING, INLET_TOO_LOW, FLOW_TOO_LOW, NONE = "regulating", "inlet too low", "flow below its minimum", "no regulator"


@record
class Device:
    """A part between tap and main, and the head it takes: a fixed part, and one that grows with the square of the
    flow."""

    name: str
    fixed_m: float = 0.0
    per_square: float = 0.0  # m per (L/h)²

    def loss_m(self, flow_l_h: float) -> float:
        """Head lost [m] at a flow."""
        return self.fixed_m + self.per_square * flow_l_h * flow_l_h


def device_of_cv(name: str, cv: float) -> Device:
    """A device known by its US flow coefficient Cv (see valve_loss)."""
    return Device(name, per_square=valve_loss(1.0, cv))


def device_of_k(name: str, loss_k: float, inner_diameter_m: float) -> Device:
    """A device known by its K on a bore [m] (see fitting_loss)."""
    return Device(name, per_square=fitting_loss(loss_k, velocity_m_s(1.0, inner_diameter_m)))


@record
class Regulator:
    """A pressure regulator: its setting, what it needs above that, and the least flow at which it works."""

    setting_m: float
    margin_m: float = REGULATOR_MARGIN_M
    least_flow_l_h: float = 0.0


@record
class Inlet:
    """All that stands before the main; the devices in the order in which the water meets them."""

    supply: SupplyCurve
    devices: tuple[Device, ...] = ()
    regulator: Regulator | None = None
    tap_elevation_m: float = 0.0


@record
class InletState:
    """Pressures before the main at the flow at which the zone comes to rest."""

    flow_l_h: float
    parts: tuple[tuple[str, float], ...]  # where head went, from the tap on: (part, metres lost)
    outlet_m: float  # pressure head where the main begins
    regulator: str  # one of the four states
    before_regulator_m: float


def regulator_outlet(regulator: Regulator | None, inlet_m: float, flow_l_h: float) -> tuple[float, str]:
    """Pressure in m behind a regulator, and in words whether it regulates.

    Formula: the setting while inlet ≥ setting + margin and flow ≥ its minimum. With less inlet it stands open and gives
    what is left after its margin, never more than its setting. Below its flow the setting is kept here and said to be
    unsure.

    Args:
        regulator: the regulator, or none; inlet_m: pressure head before it [m]; flow_l_h: flow [L/h]
    Returns: pressure head behind it [m], and its state
    Valid: steady flow
    Source: states after the EPANET manual (read); margin common practice, no source

    >>> regulator_outlet(Regulator(17.6), 30.0, 500.0)
    (17.6, 'regulating')
    >>> regulator_outlet(Regulator(17.6), 20.0, 500.0)
    (16.5, 'inlet too low')
    """
    if regulator is None:
        return inlet_m, NONE
    if inlet_m < regulator.setting_m + regulator.margin_m:
        return inlet_m - regulator.margin_m, INLET_TOO_LOW
    return regulator.setting_m, FLOW_TOO_LOW if flow_l_h < regulator.least_flow_l_h else REGULATING


def inlet_state(inlet: Inlet, flow_l_h: float, source_elevation_m: float = 0.0) -> InletState:
    """Where head goes between the tap and the main at a flow, in m, and what is left.

    Args:
        inlet: supply, devices, regulator; flow_l_h: flow [L/h]; source_elevation_m: where the main begins [m]
    Returns: the parts in order, the pressure left [m], and the state of the regulator
    """
    rise = source_elevation_m - inlet.tap_elevation_m
    parts = [("supply pipe", inlet.supply.static_m - inlet.supply.head_m(flow_l_h))]
    parts += [(device.name, device.loss_m(flow_l_h)) for device in inlet.devices]
    if rise:
        parts.append(("rise to the main", rise))
    left = inlet.supply.static_m - sum(lost for _, lost in parts)
    outlet, state = regulator_outlet(inlet.regulator, left, flow_l_h)
    if inlet.regulator is not None:
        parts.append(("regulator", left - outlet))
    return InletState(flow_l_h, tuple(parts), outlet, state, left)


def rest_at(inlet: Inlet, inflow_l_h: Callable[[float], float], source_elevation_m: float = 0.0) -> InletState:
    """The flow in L/h at which supply and zone agree, with every pressure before the main.

    Formula: Q = zone(h(Q)); the zone takes more at more pressure, the supply gives less pressure at more flow, so there
    is one such flow, and halving finds it.

    Args:
        inlet: supply, devices, regulator; inflow_l_h: what the zone takes at a pressure head at its source [m → L/h]
        source_elevation_m: where the main begins [m]
    Returns: the state of rest
    """

    def taken(flow: float) -> float:
        return inflow_l_h(inlet_state(inlet, flow, source_elevation_m).outlet_m)

    low, high = 0.0, taken(0.0)
    if taken(high) == high:
        return inlet_state(inlet, high, source_elevation_m)
    for _ in range(60):
        flow = 0.5 * (low + high)
        low, high = (flow, high) if taken(flow) > flow else (low, flow)
        if high - low <= 1e-13 * high:
            break
    return inlet_state(inlet, 0.5 * (low + high), source_elevation_m)
