import type { BayId, PersonId } from '#core/shared/ids.ts';
import { add, bothHours, type Calendar, NEVER, next, nextFit, type Span, spansOf } from './calendar.ts';
import { firstAfter, isCoating, isCutting, overlapOf } from './dust.ts';
import { labourAt, type StageSpec, type Technician, unattendedMin } from './model.ts';
import { gapFrom, type Occupancy, withSkill } from './occupancy.ts';

/** One technician, or two working together: whose minutes, in which hours, in which gaps. */
type Crew = {
  readonly ids: readonly PersonId[];
  readonly hours: Calendar;
  readonly speeds: readonly number[];
  readonly gaps: readonly Span[];
  readonly gapStarts: readonly number[];
};

export type Labour = {
  readonly personIds: readonly PersonId[];
  readonly startMin: number;
  readonly endMin: number;
  readonly dwellEndMin: number;
};

/**
 * Finds the earliest end of a stage's labour for a vehicle that can be worked on from `t`, over, dwell included, by
 * `latestMin`; null when there is none that ends before `beatMin`.
 */
export type LabourFinder = (t: number, latestMin: number, beatMin?: number) => Labour | null;

/** For one stage in one place against one occupancy: who may do it, and where. */
export type Workers = {
  readonly stage: StageSpec;
  readonly technicians: readonly Technician[];
  readonly occupancy: Occupancy;
  /** Only these may work on it; null = everybody. */
  readonly allowed: ReadonlySet<PersonId> | null;
};

/**
 * The qualified crews with their gaps, asked for the least labour END (with different speeds and shift ends the
 * earliest start is not the earliest end).
 */
export function labourFinder(workers: Workers, bayId: BayId): LabourFinder {
  const finders = crewFinders(workers, bayId);
  return (t, latest) => soonest(finders, t, latest);
}

/** The soonest that any of several crews ends. */
export function soonest(finders: readonly LabourFinder[], t: number, latestMin: number): Labour | null {
  let best: Labour | null = null;
  for (const find of finders) {
    const found: Labour | null = find(t, latestMin, best?.endMin ?? NEVER);
    best = found ?? best;
  }
  return best;
}

/** As `soonest`, of what is not over before a minute: the later a crew begins, the later it ends. */
export function soonestOver(
  finders: readonly LabourFinder[],
  t: number,
  latestMin: number,
  overMin: number,
): Labour | null {
  let best: Labour | null = null;
  for (const find of finders) {
    const work = notOverBefore(find, t, latestMin, overMin);
    if (work && work.endMin < (best?.endMin ?? NEVER)) best = work;
  }
  return best;
}

/** Halves the minutes between being ready and being over for the first start that does not end too soon. */
export function notOverBefore(
  find: LabourFinder,
  t: number,
  latestMin: number,
  overMin: number,
): Labour | null {
  const first = find(t, latestMin);
  if (!first || first.dwellEndMin >= overMin) return first;
  let [early, late] = [t, overMin];
  while (late - early > 1) {
    const middle = (early + late) >> 1;
    const tried = find(middle, latestMin);
    if (!tried || tried.dwellEndMin >= overMin) late = middle;
    else early = middle;
  }
  return find(late, latestMin);
}

/** A finder for each qualified crew; one alone for a stage that nobody attends. */
export function crewFinders(workers: Workers, bayId: BayId): readonly LabourFinder[] {
  const { stage, occupancy } = workers;
  const dust = isCoating(stage.kind) ? occupancy.dustNear(bayId) : [];
  if (stage.crew === 0) return [clearOf(dust, resting(stage))];
  const fresh = isCutting(stage.kind) ? occupancy.freshNear(bayId) : [];
  return crewsFor(workers)
    .map((crew) => (fresh.length === 0 ? crew : besideFresh(crew, fresh)))
    .map((crew) => clearOf(dust, attended(crew, stage)));
}

function resting(stage: StageSpec): LabourFinder {
  const dwell = unattendedMin(stage);
  return (t, latest, beat = NEVER) =>
    t + dwell <= latest && t < beat
      ? { personIds: [], startMin: t, endMin: t, dwellEndMin: t + dwell }
      : null;
}

function attended(crew: Crew, stage: StageSpec): LabourFinder {
  const dwell = unattendedMin(stage);
  return (t, latest, beat = NEVER) => {
    const found = earliestOf(crew, stage, t, { latestMin: latest - dwell, beatMin: beat });
    return found && { personIds: crew.ids, ...found, dwellEndMin: found.endMin + dwell };
  };
}

/** From its start until it has cured a coating meets no dust: what would, waits until the dust is over. */
function clearOf(dust: readonly Span[], find: LabourFinder): LabourFinder {
  if (dust.length === 0) return find;
  return (t, latest, beat) => {
    for (let from = t; ; ) {
      const found = find(from, latest, beat);
      const cut = found && firstAfter(dust, found.startMin);
      if (!found || !cut || cut.startMin >= found.dwellEndMin) return found;
      from = cut.endMin;
    }
  };
}

/** A crew that may not be at work while a coating near it is fresh; over its nights that is no hindrance. */
function besideFresh(crew: Crew, fresh: readonly Span[]): Crew {
  const busy = overlapOf(spansOf(crew.hours), fresh);
  const gaps = busy.reduce<readonly Span[]>(without, crew.gaps);
  return { ...crew, gaps, gapStarts: gaps.map((g) => g.startMin) };
}

function without(gaps: readonly Span[], { startMin, endMin }: Span): readonly Span[] {
  return gaps.flatMap((g) =>
    g.endMin <= startMin || endMin <= g.startMin
      ? [g]
      : [
          { startMin: g.startMin, endMin: startMin },
          { startMin: endMin, endMin: g.endMin },
        ].filter((part) => part.startMin < part.endMin),
  );
}

function crewsFor({ stage, technicians, occupancy, allowed }: Workers): readonly Crew[] {
  const able = withSkill(technicians, stage.skill, allowed);
  if (stage.crew === 1) return able.map((t) => crewOf([t], t.hours, occupancy.personGaps(t.id)));
  const crews: Crew[] = [];
  for (let i = 0; i < able.length; i += 1)
    for (let j = i + 1; j < able.length; j += 1) {
      const [a, b] = [able[i], able[j]];
      if (!a || !b) continue;
      const gaps = overlapOf(occupancy.personGaps(a.id), occupancy.personGaps(b.id));
      crews.push(crewOf([a, b], bothHours(a.hours, b.hours), gaps));
    }
  return crews;
}

function crewOf(people: readonly Technician[], hours: Calendar, gaps: readonly Span[]): Crew {
  return {
    ids: people.map((p) => p.id),
    speeds: people.map((p) => p.speedPpm),
    hours,
    gaps,
    gapStarts: gaps.map((g) => g.startMin),
  };
}

type Bounds = { readonly latestMin: number; readonly beatMin: number };

/** The earliest labour in any gap of a crew, or null when it is over too late or does not beat what was found. */
function earliestOf(crew: Crew, stage: StageSpec, t: number, { latestMin, beatMin }: Bounds): Span | null {
  const labour = labourAt(stage, crew.speeds);
  for (let g = gapFrom(crew.gaps, crew.gapStarts, t); g < crew.gaps.length; g += 1) {
    const gap = crew.gaps[g];
    if (!gap) break;
    const from = Math.max(t, gap.startMin);
    if (from >= beatMin || from + labour > latestMin) return null;
    const startMin = stage.splittable ? next(crew.hours, from) : nextFit(crew.hours, from, labour);
    if (startMin === NEVER) return null;
    if (startMin >= gap.endMin) continue;
    const endMin = stage.splittable ? add(crew.hours, startMin, labour) : startMin + labour;
    if (endMin <= gap.endMin) return endMin < beatMin && endMin <= latestMin ? { startMin, endMin } : null;
  }
  return null;
}
