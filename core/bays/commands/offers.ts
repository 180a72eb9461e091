import type { ReadCtx } from '../../context.ts';
import type { baysEntries } from '../../shared/catalogue/bays.ts';
import type { InputOf } from '../../shared/entry.ts';
import { refuse } from '../../shared/errors.ts';
import type { JobId } from '../../shared/ids.ts';
import { mannerFor } from '../../shared/text/manner.ts';
import { localeFor, say } from '../../shared/text/say.ts';
import { dayTime } from '../../shared/text/when.ts';
import { addLocalDays, localDayOf, localDaysBetween, minuteOf } from '../../shared/time.ts';
import type { EpochMin, Ppm } from '../../shared/units.ts';
import type { OffersView, OfferView } from '../../shared/views/offers.ts';
import type { JobPlanView } from '../../shared/views/plan.ts';
import { type LiveBoard, liveBoard } from '../../views/liveBoard.ts';
import type { Choice } from '../rules/choice.ts';
import { offersFor } from '../rules/choices.ts';
import { nextWhereItStands, whyImpossible } from '../rules/impossible.ts';
import { isOpenStage, type JobPlan, type JobSpec } from '../rules/model.ts';
import { chanceBy, readyBy } from '../rules/promise.ts';
import { isPlanned } from '../rules/walkIn.ts';
import { whyNotEarlier } from '../rules/why.ts';
import { memoryOf } from './ahead.ts';

const LETTERS = 'ABCDEFGH';

/**
 * Dated offers for a job against the live board.
 * @throws NOT_FOUND · JOB_NOT_PLANNABLE when it is over · JOB_HAS_NO_STAGES · NO_PLACE_FOR_JOB with the reason
 */
export function offersView(ctx: ReadCtx, input: InputOf<(typeof baysEntries)['bays.offers']>): OffersView {
  const live = liveBoard(ctx.db, { nowMs: ctx.now, jobId: input.jobId });
  const job = plannable(live, input.jobId);
  const { zone, settings } = live.shop;
  const day = input.day;
  // Nobody on the telephone can be at the door this very minute: a car that is not here comes a slot from now.
  const soonestMin = live.board.nowMin + (job.start.kind === 'here' ? 0 : settings.promises.slotMin);
  const notBeforeMin = Math.max(soonestMin, input.notBeforeMin ?? 0);
  const wish = {
    notBeforeMin,
    technicianId: input.technicianId ?? null,
    day: day ? { startMin: minuteOf(day, 0, zone), endMin: minuteOf(addLocalDays(day, 1), 0, zone) } : null,
    count: Math.max(3, settings.promises.offerCount),
    levelPpm: settings.promises.levelPpm,
  };
  const choices = offersFor(live.board, job, wish, memoryOf(ctx.db));
  if (choices.length === 0) refuseImpossible(live, job);
  return {
    jobId: job.id,
    planRevision: live.planRevision,
    offers: choices.map((c, i) => offerView(live, job, c, LETTERS.charAt(i))),
    only: choices.length > 1 ? null : job.start.kind === 'here' ? 'standsNowhere' : 'noOtherDay',
  };
}

export function plannable(live: LiveBoard, jobId: JobId): JobSpec {
  const job = live.board.jobs.get(jobId) ?? refuse('NOT_FOUND', { what: 'job', id: jobId });
  const state = live.rows.get(jobId)?.state ?? '';
  if (['collected', 'cancelled', 'ready'].includes(state))
    refuse('JOB_NOT_PLANNABLE', { number: job.number, state });
  if (!job.stages.some(isOpenStage)) refuse('JOB_HAS_NO_STAGES', { number: job.number });
  return job;
}

/** @throws NO_PLACE_FOR_JOB with the one rule that makes it impossible */
export function refuseImpossible(live: LiveBoard, job: JobSpec): never {
  const { reason, stage } = whyImpossible(live.board, job);
  const locale = localeFor(live.shop.locale);
  const next = reason === 'room' ? nextWhereItStands(live.board, job) : null;
  const { bay = '', other = '' } = next ?? {};
  const at = next ? dayTime(mannerFor(live.shop), next.atMin * 60_000) : '';
  // A re-plan leaves alone what was never planned.
  const planned = isPlanned(live.board, job) ? 'yes' : 'no';
  const words = { stage: say(locale, `word.stage.${stage}`), bay, other, at, planned };
  const said = say(locale, `bays.impossible.${next ? 'roomHere' : reason}`, words);
  return refuse('NO_PLACE_FOR_JOB', { reason: said, stage });
}

function offerView(live: LiveBoard, job: JobSpec, choice: Choice, key: string): OfferView {
  const { plan } = choice.placement;
  const { board } = live;
  const dropOffMin = plan.stays[0]?.arriveMin ?? board.nowMin;
  const pickUpMin = choice.pickUpMin;
  const at = (ppm: number): EpochMin => readyBy(board, choice.ready, ppm) as EpochMin;
  const dayOf = (t: number) => localDayOf(t * 60_000, live.shop.zone);
  const workMin = job.stages.filter(isOpenStage).reduce((sum, s) => sum + s.labourMin, 0);
  const held = plan.pieces.reduce((sum, p) => sum + p.dwellEndMin - p.startMin, 0);
  const probabilityPpm = chanceBy(choice.ready, pickUpMin) as Ppm;
  return {
    key,
    kind: choice.kind,
    dropOffMin: dropOffMin as EpochMin,
    pickUpMin: pickUpMin as EpochMin,
    probabilityPpm,
    bold: probabilityPpm < live.shop.settings.promises.levelPpm,
    p50Min: at(500_000),
    p80Min: at(800_000),
    p95Min: at(950_000),
    curve: CURVE.map((ppm) => ({ atMin: at(ppm), ppm: ppm as Ppm })),
    bolder: bolderSlots(live, choice, pickUpMin),
    bays: board.places.filter((p) => plan.stays.some((s) => s.bayId === p.id)).map((p) => p.name),
    people: board.technicians
      .filter((t) => plan.pieces.some((p) => p.personIds.includes(t.id)))
      .map((t) => t.name),
    nights: localDaysBetween(dayOf(dropOffMin), dayOf(pickUpMin)),
    workMin,
    waitMin: Math.max(0, pickUpMin - dropOffMin - held),
    why: whyNotEarlier(board, job, choice),
    plan: planView(plan),
  };
}
const CURVE = [10, 50, 100, 200, 300, 400, 500, 600, 700, 800, 900, 950, 990].map((x) => x * 1000);

/** Up to three handover slots before the promise that are at least one in five likely. */
function bolderSlots(live: LiveBoard, choice: Choice, pickUpMin: number): OfferView['bolder'] {
  return live.board.slots
    .filter((s) => s < pickUpMin && s > pickUpMin - 3 * 1440)
    .map((s) => ({ pickUpMin: s as EpochMin, probabilityPpm: chanceBy(choice.ready, s) as Ppm }))
    .filter((s) => s.probabilityPpm >= 200_000)
    .slice(-3);
}

export function planView(plan: JobPlan): JobPlanView {
  return plan as unknown as JobPlanView;
}
