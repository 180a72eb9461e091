import { expect } from 'vitest';
import type { JobId } from '#core/shared/ids.ts';
import { seeded } from '#core/shared/random.ts';
import type { Reply } from '#core/shared/reply.ts';
import type { BoardView } from '#core/shared/views/bays.ts';
import type { OffersView } from '#core/shared/views/offers.ts';
import type { JobPlanView, PlanFault, ReplanView } from '#core/shared/views/plan.ts';
import { TEST_NOW } from '../../helpers/shop.ts';
import { type BayShop, openBayShop, type TestStage, USUAL } from './shop.ts';

/** What the desk may agree with a customer to set aside; every other rule holds whatever is done. */
const AGREED: readonly string[] = ['promiseMissed', 'dropOffMoved'];
const SHORT: readonly TestStage[] = [
  { kind: 'wash', min: 45, bay: 'wash', skill: 'wash' },
  { kind: 'interior', min: 90, bay: 'correction', skill: 'interior' },
];

export type RandomDesk = {
  /** One desk's run of commands, undone at its end. Says how many were done and how many refused. */
  run(seed: number, commands: number): Promise<{ readonly done: number; readonly refused: number }>;
  close(): void;
};

/**
 * A shop with five jobs, at whose board somebody does one thing after the other without thinking. With `apart` it keeps
 * times between stages, and cutting away from fresh coatings.
 */
export function openRandomDesk(apart = false): RandomDesk {
  const shop = openBayShop();
  if (apart) keepApart(shop);
  const names = ['Marit Vane', 'Celia Farrow', 'Dev Ostler', 'Runa Quill', 'Tomas Brae'];
  const jobs = names.map((who, i) => shop.job(who, i % 2 ? SHORT : USUAL));
  return {
    run: async (seed, commands) => {
      shop.db.raw.exec('BEGIN');
      try {
        return await runOf(shop, jobs, seed, commands);
      } finally {
        shop.db.raw.exec('ROLLBACK');
      }
    },
    close: () => shop.close(),
  };
}

function keepApart(shop: BayShop): void {
  shop.write('bays.setGap', { stage: 'wash', leastMin: 20, mostMin: 90 });
  shop.write('bays.setGap', { stage: 'cut', leastMin: 0, mostMin: 240 });
  shop.write('bays.addDust', {});
}

async function runOf(shop: BayShop, jobs: readonly JobId[], seed: number, commands: number) {
  const random = seeded(seed);
  const pick = (n: number): number => Math.floor(random() * n);
  const counts = { done: 0, refused: 0 };
  const undo: (readonly JobPlanView[])[] = [];
  for (let i = 0; i < commands; i += 1) {
    const reply = await act(shop, jobs, pick, undo);
    if (!reply) continue;
    counts[reply.ok ? 'done' : 'refused'] += 1;
    if (!reply.ok) {
      expect(shop.log).toEqual([]);
      expect(reply.error.code).not.toBe('BAD_INPUT');
    }
    const value = reply.ok ? (reply.value as { undo?: readonly JobPlanView[] } | null) : null;
    if (value?.undo) undo.push(value.undo);
    const faults: readonly PlanFault[] = await shop.read('bays.faults', {});
    expect(faults.filter((f) => !AGREED.includes(f.rule))).toEqual([]);
  }
  return counts;
}

async function act(
  shop: BayShop,
  jobs: readonly JobId[],
  pick: (n: number) => number,
  undo: readonly (readonly JobPlanView[])[],
): Promise<Reply | null> {
  const jobId = jobs[pick(jobs.length)] as JobId;
  const board = await shop.read('bays.board', { fromDay: '2026-11-25', toDay: '2026-12-12' });
  const { planRevision } = board;
  const consent = pick(3) === 0;
  const worked = board.blocks.filter((b) => b.pieces.length > 0);
  const [block, other] = [worked[pick(worked.length)], worked[pick(worked.length)]];
  switch (pick(8)) {
    case 0:
    case 1:
    case 2:
      return book(shop, jobId, pick);
    case 3:
    case 4:
      return block ? shop.call('bays.move', { ...moveOf(block, shop, pick), planRevision, consent }) : null;
    case 5:
      if (!block || !other || block.jobId === other.jobId) return null;
      return shop.call('bays.swap', { planRevision, a: sideOf(block), b: sideOf(other), consent });
    case 6: {
      const plans = undo[pick(Math.max(1, undo.length))];
      return plans ? shop.call('bays.restorePlans', { planRevision, plans: sent(plans) }) : null;
    }
    default:
      return pick(2)
        ? replan(shop, pick)
        : shop.call('bookings.cancelJob', { jobId, reason: 'sold the car' });
  }
}

type Block = BoardView['blocks'][number];
const sideOf = (b: Block): unknown => ({
  jobId: b.jobId,
  stageIds: [...new Set(b.pieces.map((p) => p.stageId))],
});

function moveOf(block: Block, shop: BayShop, pick: (n: number) => number): object {
  const startMin = Math.floor(TEST_NOW / 60_000) + pick(8 * 1440) - 300;
  const person = [undefined, shop.ann, shop.ben][pick(3)];
  return {
    ...(sideOf(block) as object),
    bayId: shop.bays[pick(shop.bays.length)],
    startMin,
    ...(person ? { personId: person } : {}),
  };
}

async function book(shop: BayShop, jobId: JobId, pick: (n: number) => number): Promise<Reply> {
  const reply = await shop.call('bays.offers', { jobId });
  if (!reply.ok) return reply;
  const view = reply.value as OffersView;
  const offer = view.offers[pick(view.offers.length)];
  if (!offer) return reply;
  const [plan] = sent([offer.plan]);
  return shop.call('bays.bookOffer', { planRevision: view.planRevision, plan });
}

async function replan(shop: BayShop, pick: (n: number) => number): Promise<Reply> {
  const reply = await shop.call('bays.replan', { seed: 1 + pick(1000), iterations: 30 });
  if (!reply.ok) return reply;
  const { planRevision, nowMin, moved } = reply.value as ReplanView;
  const plans = sent(moved.map((m) => m.after));
  const said = (which: 'needsConsent' | 'bold') =>
    pick(2) ? moved.filter((m) => m[which]).map((m) => m.jobId) : [];
  const answers = { consent: said('needsConsent'), bold: said('bold') };
  return plans.length === 0
    ? reply
    : shop.call('bays.applyReplan', { planRevision, nowMin, plans, ...answers });
}

function sent(plans: readonly JobPlanView[]): object[] {
  return plans.map(({ jobId, stays, pieces }) => ({ jobId, stays, pieces }));
}
