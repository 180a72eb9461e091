import type { PersonId } from '#core/shared/ids.ts';
import { add, type Calendar, intersect, NEVER, next, nextFit, type Span } from './calendar.ts';
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

/** Finds the earliest end of a stage's labour for a vehicle that can be worked on from `t`. */
export type LabourFinder = (t: number, latestMin: number) => Labour | null;

const pairHours = new WeakMap<Calendar, WeakMap<Calendar, Calendar>>();

/**
 * For one stage against one occupancy: the qualified crews with their gaps, asked for the least labour END
 * (with different speeds and shift ends the earliest start is not the earliest end).
 */
export function labourFinder(
  stage: StageSpec,
  technicians: readonly Technician[],
  occupancy: Occupancy,
  allowed: ReadonlySet<PersonId> | null,
): LabourFinder {
  const dwell = unattendedMin(stage);
  if (stage.crew === 0) {
    return (t, latest) =>
      t + dwell <= latest ? { personIds: [], startMin: t, endMin: t, dwellEndMin: t + dwell } : null;
  }
  const crews = crewsFor(stage, technicians, occupancy, allowed);
  return (t, latest) => {
    let best: Labour | null = null;
    for (const crew of crews) {
      const found = earliestOf(crew, stage, t, best?.endMin ?? NEVER);
      if (found && found.endMin + dwell <= latest)
        best = {
          personIds: crew.ids,
          startMin: found.startMin,
          endMin: found.endMin,
          dwellEndMin: found.endMin + dwell,
        };
    }
    return best;
  };
}

function crewsFor(
  stage: StageSpec,
  technicians: readonly Technician[],
  occupancy: Occupancy,
  allowed: ReadonlySet<PersonId> | null,
): readonly Crew[] {
  const able = withSkill(technicians, stage.skill, allowed);
  if (stage.crew === 1) return able.map((t) => crewOf([t], t.hours, occupancy.personGaps(t.id)));
  const crews: Crew[] = [];
  for (let i = 0; i < able.length; i += 1)
    for (let j = i + 1; j < able.length; j += 1) {
      const [a, b] = [able[i], able[j]];
      if (!a || !b) continue;
      const gaps = overlap(occupancy.personGaps(a.id), occupancy.personGaps(b.id));
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

/** Hours in which both are there; remembered, since calendars never change. */
export function bothHours(a: Calendar, b: Calendar): Calendar {
  const known = pairHours.get(a) ?? new WeakMap<Calendar, Calendar>();
  pairHours.set(a, known);
  const both = known.get(b) ?? intersect(a, b);
  known.set(b, both);
  return both;
}

function overlap(a: readonly Span[], b: readonly Span[]): readonly Span[] {
  const spans: Span[] = [];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    const [x, y] = [a[i], b[j]];
    if (!x || !y) break;
    const startMin = Math.max(x.startMin, y.startMin);
    const endMin = Math.min(x.endMin, y.endMin);
    if (startMin < endMin) spans.push({ startMin, endMin });
    if (x.endMin < y.endMin) i += 1;
    else j += 1;
  }
  return spans;
}

/** The earliest labour in any gap of a crew, or null when it does not beat `bestEnd`. */
function earliestOf(crew: Crew, stage: StageSpec, t: number, bestEnd: number): Span | null {
  const labour = labourAt(stage, crew.speeds);
  for (let g = gapFrom(crew.gaps, crew.gapStarts, t); g < crew.gaps.length; g += 1) {
    const gap = crew.gaps[g];
    if (!gap) break;
    const from = Math.max(t, gap.startMin);
    if (from >= bestEnd) return null;
    const startMin = stage.splittable ? next(crew.hours, from) : nextFit(crew.hours, from, labour);
    if (startMin === NEVER) return null;
    if (startMin >= gap.endMin) continue;
    const endMin = stage.splittable ? add(crew.hours, startMin, labour) : startMin + labour;
    if (endMin <= gap.endMin) return endMin < bestEnd ? { startMin, endMin } : null;
  }
  return null;
}
