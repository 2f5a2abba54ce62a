"""Stage: the build of the run: steps with reasons, the schedule of the crew, cards to print."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from brimful.design.care.desk import CareDesk
from brimful.design.care.model import BuildWorked, CardStep, CardWorked, CautionWorked, SlotWorked
from brimful.design.model import RowWorked
from brimful.design.settle import RowSpec
from brimful.domains.handling.cautions import Caution, cautions_at
from brimful.domains.work.build import HAND_TRUCK, Station, run_steps
from brimful.domains.work.network import Step, longest_chain, still_to_do
from brimful.domains.work.schedule import Crew, Schedule, crew_faults, saved_by_one_more, schedule, working_time
from brimful.findings import did_you_mean

PEOPLE, HOURS = 2, 8.0
NO_PAD_MIN = 5.0  # ground looked at and shimmed where there is no pad: common practice, no source
TEMPORARY = ("hose-vacuum-breaker", "hose-timer")


def build_of(desk: CareDesk) -> BuildWorked | None:
    """The schedule of the run for the crew there is; None, and why, where the crew cannot do it."""
    steps, crew = steps_of(desk), crew_of(desk)
    faults = crew_faults(steps, crew)
    if faults:
        mend = "Say who comes and what they bring: [crew] people = 3, equipment = { hand-truck = 1 }."
        desk.notes.warn("crew-lacks", ("crew",), f"the crew cannot build this: {' '.join(faults)}", mend)
        return None
    done = done_of(desk, steps)
    left = still_to_do(steps, done)
    at = desk.ledger.at("care", "build")
    plan = at.work("schedule", schedule, steps=left, crew=crew)
    saved = at.work("saved_by_one_more_min", saved_by_one_more, steps=left, crew=crew)
    return _worked(desk, steps, plan, crew, saved, done)


def steps_of(desk: CareDesk) -> tuple[Step, ...]:
    """The whole precedence network of the run."""
    stations = [_station(row, worked, name) for row, worked in desk.rows for name in row.ids]
    tube = sum(spec.main_length_m for spec in desk.settled.zones) + sum(r.stations_m[-1] for r in desk.settled.rows)
    trench = desk.plan.trench.length if desk.plan.trench else 0.0
    keys = desk.plan.supply.devices
    permanent = keys is not None and not set(keys) & set(TEMPORARY)
    steps = run_steps(stations, tube_m=tube, trench_m=trench, permanent=permanent)
    return steps if desk.plan.pads is not None else tuple(_on_the_ground(step) for step in steps)


def _on_the_ground(step: Step) -> Step:
    if step.kind != "pad":
        return step
    return replace(step, name="Look at the ground and shim it level", minutes=NO_PAD_MIN)


def _station(row: RowSpec, worked: RowWorked, name: str) -> Station:
    plants = sum(spec.count for spec in row.plants)
    centre = min(plants, sum(spec.count for spec in row.plants if spec.plant.habit == "upright"))
    fixed = row.delivery.assembly.emitters if worked.tube is None else worked.tube.staples_count
    return Station(name, worked.mix_to_buy_l, centre, plants - centre, fixed)


def crew_of(desk: CareDesk) -> Crew:
    """People and tools as the plan says; two people with a hand truck where it is silent."""
    given = desk.plan.crew
    if given.people is None:
        desk.notes.assume("crew.people", "people who build", f"{PEOPLE}")
    if given.equipment is None:
        desk.notes.assume("crew.equipment", "tools there are", f"1 {HAND_TRUCK}")
    tools = {name.replace("-", " "): count for name, count in given.equipment or ((HAND_TRUCK, 1),)}
    return Crew(given.people or PEOPLE, {HAND_TRUCK: 0, **tools})


def done_of(desk: CareDesk, steps: Sequence[Step]) -> frozenset[str]:
    """Steps ticked off; an unknown one is told."""
    known = [step.key for step in steps]
    for index, key in enumerate(desk.plan.crew.done):
        if key not in known:
            said = f'no step is called "{key[:60]}"'
            remedy = did_you_mean(key, known) or 'Steps are called by place and kind, for example "row 1:fill".'
            desk.notes.warn("step-unknown", ("crew", "done", index), said, remedy)
    return frozenset(desk.plan.crew.done) & frozenset(known)


def _worked(
    desk: CareDesk, steps: Sequence[Step], plan: Schedule, crew: Crew, saved_min: float, done: frozenset[str]
) -> BuildWorked:
    day_min = (desk.plan.crew.hours or HOURS * 3600) / 60
    if desk.plan.crew.hours is None:
        desk.notes.assume("crew.hours", "hours of work a day", f"{HOURS:g}")
    left = [slot.step for slot in plan.slots]
    return BuildWorked(
        people_count=crew.people,
        day_hours=day_min / 60,
        finish_hours=plan.finish_min / 60,
        finish_days_count=working_time(max(plan.finish_min - 1e-6, 0.0), day_min=day_min)[0],
        best_possible_hours=plan.bound_min / 60,
        held_up_by=plan.bottleneck,
        saved_by_one_more_hours=saved_min / 60,
        person_hours=sum(step.people * step.minutes for step in left) / 60,
        done_count=len(done),
        longest_chain=longest_chain(left).keys,
        cards=_cards(desk, steps),
        slots=_slots(plan, day_min),
    )


def _slots(plan: Schedule, day_min: float) -> tuple[SlotWorked, ...]:
    made = []
    for slot in plan.slots:
        day, start = working_time(slot.start_min, day_min=day_min)
        step = slot.step
        end = start + slot.end_min - slot.start_min
        made.append(SlotWorked(step.key, step.place, step.name, day, start, end, slot.people))
    return tuple(made)


def _cards(desk: CareDesk, steps: Sequence[Step]) -> tuple[CardWorked, ...]:
    """One card for the site and one for each row: all containers of a row take the same steps."""
    site = [step for step in steps if step.place == "site"]
    cards = [_card(desk, "the site", (), site)]
    for row in desk.settled.rows:
        cards.append(_card(desk, row.name, row.ids, [step for step in steps if step.place == row.ids[0]]))
    return tuple(cards)


def _card(desk: CareDesk, place: str, containers: tuple[str, ...], steps: Sequence[Step]) -> CardWorked:
    shown = tuple(
        CardStep(
            step.kind,
            step.name,
            step.minutes,
            step.people,
            step.equipment,
            step.reason,
            step.source,
            tuple(CautionWorked(c.topic, c.text, c.decides) for c in _cautions(desk, step)),
        )
        for step in steps
        if step.minutes > 0
    )
    return CardWorked(place, containers, shown, sum(s.minutes_each * s.people_count for s in shown) / 60)


def _cautions(desk: CareDesk, step: Step) -> Iterator[Caution]:
    """The cautions of a step; of digging only where something is dug."""
    for caution in cautions_at(step.kind):
        if caution.topic != "digging" or desk.plan.pads is not None or step.kind != "pad":
            yield caution
