"""The search: the cheapest ways to emit first, the smallest tube first, larger tube only where it mends something."""

from brimful.catalog import Catalog
from brimful.design.choose.candidates import Candidate, Open, candidates, local, open_of, with_choice
from brimful.design.choose.judge import LEAST_MINUTES, MOST_MINUTES, Need, Verdict, judge
from brimful.design.model import ChoiceWorked, RejectedWorked
from brimful.design.settle import Settled, settle
from brimful.design.settle.delivery import loops_length_m
from brimful.design.settle.notes import Notes
from brimful.domains.hydraulics.pipe import velocity_m_s
from brimful.domains.hydraulics.report import FASTEST_M_S
from brimful.plan.names import zone_words
from brimful.plan.read import Places
from brimful.plan.schema import Containers, Dripline, Emitters, Plan, Zone
from brimful.records import record

BEST = 3
PARTS = ("lateral", "main", "feeder")
LIKELY = 24  # ways to emit that are solved, the cheapest first


@record
class Choices:
    """The plan with its gaps filled, and by zone the best choices and why others fell."""

    plan: Plan
    best: dict[str, tuple[ChoiceWorked, ...]]
    rejected: dict[str, tuple[RejectedWorked, ...]]


@record
class Tried:
    """A candidate with the tube that suits it, and the verdict."""

    candidate: Candidate
    zone: Zone
    tubes: dict[str, str]
    verdict: Verdict


def choose_open(plan: Plan, settled: Settled, needs: dict[str, Need], catalog: Catalog) -> Choices:
    """Fill what the plan leaves open in each zone; a plan with nothing open comes back as it is."""
    zones = plan.zone or (Zone(name="zone 1"),)
    best: dict[str, tuple[ChoiceWorked, ...]] = {}
    rejected: dict[str, tuple[RejectedWorked, ...]] = {}
    done: dict[object, list[Tried]] = {}
    filled = []
    for zone in zones:
        rows = tuple(row for row in plan.containers if row.zone == zone.name or (row.zone is None and len(zones) == 1))
        open_ = open_of(plan, zone, rows)
        if not open_.any or not rows:
            filled.append(zone)
            continue
        key = _likeness(zone, rows, needs)
        if key not in done:
            done[key] = _search(_Bench(plan, zone, rows, open_, settled, needs, catalog))
        stands = sorted((t for t in done[key] if not t.verdict.reasons), key=_cheapest)
        taken = stands[0] if stands else min(done[key], key=_nearest_to_standing)
        filled.append(taken.zone.model_copy(update={"name": zone.name}))
        best[zone.name] = tuple(_choice(i + 1, tried) for i, tried in enumerate(_different(stands)[:BEST]))
        rejected[zone.name] = _rejected(done[key])
    return Choices(plan.model_copy(update={"zone": tuple(filled)}), best, rejected)


def fill_choices(choices: Choices, settled: Settled, catalog: Catalog, notes: Notes) -> tuple[Settled, Notes]:
    """The plan settled with its choices, each listed among the assumptions; as before where nothing was chosen."""
    if not choices.best:
        return settled, notes
    again = Notes(notes.places)
    for zone, best in choices.best.items():
        for one in best[:1]:
            taken = f"{one.emission}; feeder {one.feeder}; lateral {one.lateral}; main {one.main}"
            source = "chosen: least cost that keeps every limit; prices of the table, or your own"
            again.assume(f"{zone_words(zone)}: tubing", "what the plan leaves open", taken, source)
    return settle(choices.plan, catalog, again) or settled, again


def _cheapest(tried: Tried) -> tuple[float, float]:
    """By cost to the hundredth; of equal cost, the more even one."""
    return round(tried.verdict.cost_money, 2), -tried.verdict.uniformity_percent


def _nearest_to_standing(tried: Tried) -> tuple[bool, int, float]:
    """Where nothing keeps every limit: what gives water at all first, then fewest reasons against it, then cost."""
    return tried.verdict.uniformity_percent <= 0, len(tried.verdict.reasons), tried.verdict.cost_money


def _likeness(zone: Zone, rows: tuple[Containers, ...], needs: dict[str, Need]) -> object:
    """What makes two zones the same but for their names."""
    alike = tuple((row.model_copy(update={"name": "", "zone": None}), needs.get(row.name)) for row in rows)
    return zone.model_copy(update={"name": ""}).model_dump_json(), str(alike)


def _search(bench: "_Bench") -> list[Tried]:
    """Try candidates, the likely and cheap ones whole."""
    return [bench.best_tube(candidate) for candidate in _likely(bench)]


def _likely(bench: "_Bench") -> list[Candidate]:
    """Candidates whose nominal flow suits the need, the cheapest first; one of each family at least."""
    scored = []
    for candidate in candidates(bench.catalog, bench.open, bench.plan.units):
        minutes, cost, _ = bench.rough(candidate)
        scored.append((not LEAST_MINUTES <= minutes <= MOST_MINUTES, cost, candidate))
    scored.sort(key=lambda one: one[:2])
    kept = [one[2] for one in scored[:LIKELY]]
    families = {candidate.family for candidate in kept}
    for _, _, candidate in scored[LIKELY:]:
        if candidate.family not in families:
            families.add(candidate.family)
            kept.append(candidate)
    return kept


@record
class _Bench:
    """One zone on the bench."""

    plan: Plan
    zone: Zone
    rows: tuple[Containers, ...]
    open: Open
    settled: Settled
    needs: dict[str, Need]
    catalog: Catalog

    def tubes(self, part: str, candidate: Candidate) -> list[str]:
        """Tube for a part in the plan's units, the smallest bore first; the cheapest and widest feeder first."""
        tubes = self.catalog.tubing.values()
        fitting = [t for t in tubes if part in t.kinds and local(t.name, self.plan.units)]
        if part != "feeder":
            return [tube.key for tube in sorted(fitting, key=lambda tube: tube.inner_diameter_m)]
        line = self.catalog.driplines.get(getattr(candidate.emission, "type", "") or "")
        least = 0.9 * line.inner_diameter_m if line is not None and line.inner_diameter_m < 0.008 else 0.0
        wide = [tube for tube in fitting if tube.inner_diameter_m >= least] or fitting
        return [tube.key for tube in sorted(wide, key=lambda tube: (self._price(tube.key), -tube.inner_diameter_m))]

    def _price(self, key: str) -> float:
        row = self.catalog.prices.get(key)
        return row.price if row is not None else 0.0

    def rough(self, candidate: Candidate) -> tuple[float, float, float]:
        """Minutes a day at nominal flow for the thirstiest container, cost of the emission in one, its flow [L/h]."""
        need = max(n.gross_l_day for n in self.needs.values())
        emission = candidate.emission
        if isinstance(emission, Emitters):
            one, count = self.catalog.emitters[emission.type or ""], float(emission.count or 1)
            flow = count * one.flow_l_h
            return 60 * need / flow, count * self._price(one.key), flow
        if isinstance(emission, Dripline):
            line = self.catalog.driplines[emission.type or ""]
            width = min(spec.vessel.inside.width_m(spec.vessel.inside.depth_m) for spec in self.settled.rows)
            metres = loops_length_m(emission.loops or 1, width)
            flow = max(metres / line.spacing_m, 0.5) * line.flow_l_h
            return 60 * need / flow, metres * self._price(line.key), flow
        return 0.5 * (LEAST_MINUTES + MOST_MINUTES), 0.0, 0.0

    def best_tube(self, candidate: Candidate) -> Tried:
        """The candidate with the smallest tube that carries its nominal flow, or a larger one where that mends it."""
        each = self.rough(candidate)[2]
        flows = {"lateral": each * max(row.count for row in self.rows), "main": each * sum(r.count for r in self.rows)}
        at = dict.fromkeys(PARTS, 0)
        for part, flow in flows.items():
            if not getattr(self.open, part):
                continue
            tubes = [self.catalog.tubing[key] for key in self.tubes(part, candidate)]
            carries = [i for i, t in enumerate(tubes) if velocity_m_s(flow, t.inner_diameter_m) <= FASTEST_M_S]
            if not carries:
                said = f"would need {flow:.0f} L/h through one {part}, more than the largest tube carries"
                return Tried(candidate, self.zone, {}, Verdict(flow, 0.0, 0.0, 0.0, 0.0, None, (said,), ""))
            at[part] = carries[0]
        return self.enlarge(self.try_one(candidate, at), at)

    def try_one(self, candidate: Candidate, sizes: dict[str, int]) -> Tried:
        """The candidate with these sizes of tube, solved and judged."""
        tubes = {part: self.tubes(part, candidate)[at] for part, at in sizes.items() if getattr(self.open, part)}
        zone = with_choice(self.plan, self.zone, candidate, tubes)
        own = tuple(row.model_copy(update={"zone": zone.name}) for row in self.rows)
        part = self.plan.model_copy(update={"zone": (zone,), "containers": own})
        settled = settle(part, self.catalog, Notes(Places()))
        if settled is None:
            nothing = Verdict(0.0, 0.0, 0.0, 0.0, 0.0, None, ("cannot be laid in these containers",), "")
            return Tried(candidate, zone, tubes, nothing)
        limits = self.catalog, settled.timer, settled.usable_share
        return Tried(candidate, zone, tubes, judge(settled.zones[0], settled.rows, self.needs, limits=limits))

    def enlarge(self, tried: Tried, at: dict[str, int]) -> Tried:
        """Larger tube, one size at a time, while the verdict says that a larger one would mend it."""
        most = {part: len(self.tubes(part, tried.candidate)) if getattr(self.open, part) else 1 for part in PARTS}
        while (part := tried.verdict.tube_too_small) and at[part] + 1 < most[part]:
            at[part] += 1
            tried = self.try_one(tried.candidate, at)
        return tried


def _different(tried: list[Tried]) -> list[Tried]:
    """The cheapest of each family, in order of cost."""
    seen: dict[str, Tried] = {}
    for one in tried:
        seen.setdefault(one.candidate.family, one)
    return list(seen.values())


def _choice(rank: int, tried: Tried) -> ChoiceWorked:
    verdict = tried.verdict
    return ChoiceWorked(
        rank,
        tried.candidate.words,
        tried.tubes.get("lateral", "as planned"),
        tried.tubes.get("main", "as planned"),
        tried.tubes.get("feeder", "as planned"),
        tried.zone.regulator,
        verdict.cost_money,
        verdict.uniformity_percent,
        verdict.velocity_m_s,
        verdict.minutes_per_day,
        verdict.supply_share,
    )


def _rejected(tried: list[Tried]) -> tuple[RejectedWorked, ...]:
    """One reason for each family of which nothing stands."""
    standing = {one.candidate.family for one in tried if not one.verdict.reasons}
    fallen: dict[str, RejectedWorked] = {}
    for one in tried:
        if one.candidate.family not in standing:
            fallen.setdefault(one.candidate.family, RejectedWorked(one.candidate.words, one.verdict.reasons[0]))
    return tuple(fallen.values())
