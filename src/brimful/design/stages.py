"""The whole computation, in order. Each stage is a pure function of its inputs: only what an edit touches is redone."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from brimful.catalog import Catalog
from brimful.design.choose import choose_open, fill_choices
from brimful.design.climate import Climate, climate_of
from brimful.design.containers import containers_of
from brimful.design.demand import demands_of
from brimful.design.growing import RowGrown, grown_of
from brimful.design.ledger import Ledger, Working
from brimful.design.materials import materials_of
from brimful.design.mends import refined
from brimful.design.model import Assumption, Design
from brimful.design.run_times import needs_of, run_times_of
from brimful.design.settle import Settled, settle
from brimful.design.settle.notes import Notes
from brimful.design.tube import emitters_of, tubes_of
from brimful.design.water import water_of
from brimful.findings import Finding
from brimful.plan.read import Places
from brimful.plan.schema import Plan


@dataclass(frozen=True, slots=True)
class Outcome:
    """A design where there is one, the findings on the way, how each figure was worked out, each row as grown, and the
    climate it was grown in."""

    design: Design | None
    findings: tuple[Finding, ...]
    workings: dict[str, Working]
    settled: Settled | None = None
    grown: tuple[RowGrown, ...] = ()
    climate: Climate | None = None


@dataclass(slots=True)
class Stages:
    """Runs stages, and keeps what each gave for the inputs it had, so that an unchanged stage is not run again."""

    kept: dict[tuple[str, Any], tuple[Any, dict[str, Working]]] = field(default_factory=dict)
    ran: list[str] = field(default_factory=list)

    def run(self, name: str, stage: Callable[..., Any], ledger: Ledger, *inputs: Any) -> Any:
        """The stage's answer for these inputs; its workings go into the ledger."""
        key = (name, inputs)
        if key not in self.kept:
            own = Ledger()
            self.kept[key] = (stage(*inputs, own), own.entries)
            self.ran.append(name)
        answer, workings = self.kept[key]
        ledger.entries.update(workings)
        return answer


def work_out(plan: Plan, catalog: Catalog, places: Places, *, folder: Path, stages: Stages | None = None) -> Outcome:
    """A plan worked out whole, or the findings that stand in its way."""
    run, ledger, notes, sky = (stages or Stages()).run, Ledger(), Notes(places), Notes(places)
    settled = settle(plan, catalog, notes)
    climate = climate_of(plan.site, folder, settled.season if settled else None, sky, ledger)
    if settled is None or climate is None or not sky.sound:
        return Outcome(None, (*notes.findings, *sky.findings), {})

    rows = run("containers", containers_of, ledger, settled.rows)
    grown = run("growth", grown_of, ledger, settled.rows, climate.warmth)
    demands = run("demand", demands_of, ledger, settled.rows, grown, climate.occasions, catalog)
    needs = needs_of(rows, demands)
    choices = choose_open(plan, settled, needs, catalog)
    settled, notes = fill_choices(choices, settled, catalog, notes)
    water = run("water", water_of, ledger, settled.zones)
    tubes = run("tube", tubes_of, ledger, settled.rows, grown)
    emitters = run("emitters", emitters_of, ledger, settled.rows, grown)
    refined_zones = refined(settled, water, needs, catalog, plan.units, ledger)
    times = run("run times", run_times_of, ledger, settled, rows, demands, water)
    materials = run("materials", materials_of, ledger, settled, rows, tubes)

    assumptions = (*notes.assumptions.values(), *sky.assumptions.values())
    design = _assembled(
        plan,
        settled,
        climate,
        (rows, grown, demands, (tubes, emitters), refined_zones, times, materials, choices),
        assumptions,
    )
    return Outcome(design, (*notes.findings, *sky.findings), ledger.entries, settled, grown, climate)


def _assembled(
    plan: Plan, settled: Settled, climate: Climate, parts: tuple[Any, ...], assumptions: tuple[Assumption, ...]
) -> Design:
    rows, grown, demands, (tubes, emitters), water, times, materials, choices = parts
    return Design(
        plan.title,
        plan.units,
        climate.site,
        tuple(
            replace(row, demands=demand, places=one.places, growth=one.weeks, tube=tube, emitters=single)
            for row, one, demand, tube, single in zip(rows, grown, demands, tubes, emitters, strict=True)
        ),
        tuple(
            replace(
                zone,
                run_times=times[zone.name],
                supply_share_limit=settled.usable_share,
                choices=choices.best.get(zone.name, ()),
                rejected=choices.rejected.get(zone.name, ()),
            )
            for zone in water
        ),
        materials,
        assumptions,
        (),
    )
