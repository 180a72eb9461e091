import { useQueryClient } from '@tanstack/react-query';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { PlainError } from '#core/shared/errors.ts';
import type { CustomerHit, VehicleLine, VinCheck } from '#core/shared/views/people.ts';
import { useHost } from '../../bridge/client.ts';
import { refresh } from '../../bridge/queries.ts';
import { alike } from './alike.ts';
import { type Caller, type CallerDraft, type Ids, isAlmostKnown, readCaller, writeCaller } from './caller.ts';
import { useTurns } from './useTurns.ts';

export type TakeIn = {
  readonly caller: Caller;
  readonly ids: Ids;
  /** All of it, to be taken up again later. */
  readonly draft: CallerDraft;
  readonly vinCheck: VinCheck | null;
  readonly refusal: PlainError | null;
  readonly saving: boolean;
  readonly change: (part: Partial<Caller>) => void;
  /**
   * Writes what differs from what is kept: the customer as soon as there is a name, then the vehicle.
   * While somebody known is nearly the one being typed, a new one waits for a yes or no, and so does another name
   * over somebody kept; `anew` is the answer that it is as typed, `ask` puts the question before the person.
   */
  readonly save: (how?: 'anew' | 'ask') => Promise<Ids | null>;
  /** Counts how often the question was put; the question takes the focus then. */
  readonly asked: number;
  /** Takes somebody known instead of a new one, with one of their vehicles if any. */
  readonly takeKnown: (hit: CustomerHit, vehicle: VehicleLine | null) => Promise<void>;
};

/** The left column of a call: saved as it is typed, one write after the other. Goes on from `start`. */
export function useTakeIn(start: CallerDraft): TakeIn {
  const host = useHost();
  const client = useQueryClient();
  const [draft, setDraft] = useState(start);
  const [vinCheck, setVinCheck] = useState<VinCheck | null>(null);
  const [asked, setAsked] = useState(0);
  const now = useRef(start);
  const { inTurn, refusal, saving } = useTurns();

  const put = useCallback((next: CallerDraft) => {
    now.current = next;
    setDraft(next);
  }, []);
  const change = useCallback(
    (part: Partial<Caller>) => put({ ...now.current, caller: { ...now.current.caller, ...part } }),
    [put],
  );
  const save = useCallback(
    (how?: 'anew' | 'ask') =>
      inTurn(async (): Promise<Ids | null> => {
        const want = now.current;
        if (want.caller.name.trim() === '') return null;
        if (how !== 'anew' && (await isUnsure(host, want))) {
          if (how === 'ask') setAsked((n) => n + 1);
          return null;
        }
        const keep = (kept: CallerDraft): void => put({ ...kept, caller: now.current.caller });
        const written = await writeCaller(host, want, keep);
        keep(written.draft);
        if (written.vinCheck) setVinCheck(written.vinCheck);
        refresh(client, ['customers', 'vehicles']);
        return written.draft.ids;
      }),
    [host, client, inTurn, put],
  );
  const read = useCallback(
    (customer: CustomerHit['id'], vehicle: VehicleLine['id'] | null, typed?: Caller) =>
      inTurn(async () => {
        const known = await readCaller(host, now.current.caller, customer, vehicle);
        put({ ...known.draft, ...(typed ? { caller: typed } : {}) });
        setVinCheck(known.vinCheck);
      }),
    [host, inTurn, put],
  );
  useTakenUp(start, read);
  const takeKnown = async (hit: CustomerHit, car: VehicleLine | null): Promise<void> =>
    void (await read(hit.id, car?.id ?? null));
  const { caller, ids } = draft;
  return { caller, ids, draft, vinCheck, refusal, saving, asked, change, save, takeKnown };
}

/**
 * Whether the person has to say first who it is: a new caller who may be somebody known, one whose question they are
 * just at, or another name typed over somebody who is kept.
 */
async function isUnsure(
  host: ReturnType<typeof useHost>,
  { ids, caller, saved }: CallerDraft,
): Promise<boolean> {
  if (ids.customer) return !alike(saved.name, caller.name);
  const known = await isAlmostKnown(host, caller);
  // Asked after the wait: a step back with the keyboard has come to the question by then.
  return known || document.activeElement?.closest('[data-question]') != null;
}

/** A draft taken up again may lie behind what the shop's file holds by now: that is read first; what is typed stays. */
function useTakenUp(
  start: CallerDraft,
  read: (customer: CustomerHit['id'], vehicle: VehicleLine['id'] | null, typed: Caller) => void,
): void {
  useEffect(() => {
    const { customer, vehicle } = start.ids;
    if (customer) read(customer.id, vehicle?.id ?? null, start.caller);
  }, [start, read]);
}
