import type { PersonId } from '#core/shared/ids.ts';
import { currencyDigits } from '#core/shared/money.ts';
import { count } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import type { Purpose } from '#core/shared/views/bookings.ts';
import type { Band, WhatIfMeasure, WhatIfRow, WhatIfStart, WhatIfView } from '#core/shared/views/whatIf.ts';
import type { BayKind } from '#core/shared/vocabulary.ts';
import type { WhatIfChange } from '#core/shared/whatIfChange.ts';
import type { Say } from '../../bridge/texts.tsx';

/** The questions as they are being answered. Prices and cars in per cent more, shares in per cent. */
export type WhatIfForm = {
  readonly bayKind: BayKind | 'none';
  readonly bays: number;
  readonly like: PersonId | 'none';
  readonly people: number;
  readonly hours: 'same' | 'late';
  readonly longerMin: number;
  readonly pricePct: number;
  readonly asksPct: number;
  readonly purpose: Purpose | 'none';
  readonly sharePct: number;
  readonly costWeekMinor: number;
};

/** What each part of the form gets. */
export type QuestionProps = {
  readonly start: WhatIfStart;
  readonly form: WhatIfForm;
  readonly onChange: (form: WhatIfForm) => void;
};

export const NOTHING: WhatIfForm = {
  ...{ bayKind: 'none', bays: 1, like: 'none', people: 1, hours: 'same', longerMin: 0 },
  ...{ pricePct: 0, asksPct: 0, purpose: 'none', sharePct: 0, costWeekMinor: 0 },
};

/** The form as the door takes it: what is not asked is left out. */
export function changeOf(form: WhatIfForm): WhatIfChange {
  const { bayKind, like, purpose } = form;
  return {
    ...(bayKind === 'none' ? {} : { bay: { bayKind, count: form.bays } }),
    ...(like === 'none' ? {} : { technician: { like, count: form.people, hours: form.hours } }),
    ...(form.longerMin === 0 ? {} : { longerMin: form.longerMin }),
    ...(form.pricePct === 0 ? {} : { pricePpm: form.pricePct * 10_000 }),
    ...(form.asksPct === 0 ? {} : { asksPpm: form.asksPct * 10_000 }),
    ...(purpose === 'none' ? {} : { mix: { purpose, sharePpm: form.sharePct * 10_000 } }),
    ...(form.costWeekMinor === 0 ? {} : { costWeekMinor: form.costWeekMinor }),
  };
}

const MONEY: ReadonlySet<WhatIfMeasure> = new Set(['net', 'margin']);
const SHARES: ReadonlySet<WhatIfMeasure> = new Set(['kept', 'bays', 'people']);

/** In the unit that it is read in: whole money of the currency, per cent, jobs and days to a tenth. */
export function inUnit(manner: Manner, measure: WhatIfMeasure, value: number): number {
  if (MONEY.has(measure)) return Math.round(value / 10 ** currencyDigits(manner.currency));
  return SHARES.has(measure) ? Math.round(value * 100) : Math.round(value * 10) / 10;
}

export function written(manner: Manner, measure: WhatIfMeasure, value: number): string {
  const whole = MONEY.has(measure) || SHARES.has(measure);
  return count(manner, inUnit(manner, measure, value), whole ? 0 : 1);
}

/** With its sign, as a difference is read. */
export function signed(manner: Manner, measure: WhatIfMeasure, value: number): string {
  const text = written(manner, measure, value);
  return inUnit(manner, measure, value) > 0 ? `+${text}` : text;
}

/** The whole band lies on one side of nothing, also as it is written. */
export function isShown(manner: Manner, { measure, difference }: WhatIfRow): boolean {
  return inUnit(manner, measure, difference.low) > 0 || inUnit(manner, measure, difference.high) < 0;
}

/** The ends of a difference, each with its sign. */
export function endsOf(t: Say, manner: Manner, { measure, difference }: WhatIfRow): string {
  const [low, high] = [signed(manner, measure, difference.low), signed(manner, measure, difference.high)];
  return low === high ? low : t('whatIf.ends', { low, high });
}

/** The same beside a word that says which way, such as sooner: plain figures, the smaller first; nothing where all runs agree. */
function sizesOf(t: Say, manner: Manner, { measure, difference }: WhatIfRow): string {
  const ends = [difference.low, difference.high].sort((a, b) => Math.abs(a) - Math.abs(b));
  const [low = '', high = ''] = ends.map((end) => written(manner, measure, Math.abs(end)));
  return low === high ? '' : ` (${t('whatIf.ends', { low, high })})`;
}

/** A scale that both sides of a row are drawn on, with a little air at its ends. */
export function scaleOf(row: WhatIfRow): { readonly from: number; readonly to: number } {
  const values = [row.before.low, row.before.high, row.after.low, row.after.high, row.past ?? row.before.mid];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const air = (high - low) * 0.06 || Math.abs(high) * 0.5 || 1;
  return { from: low - air, to: high + air };
}

export function isWithin(past: number, band: Band): boolean {
  return band.low <= past && past <= band.high;
}

/** What a figure is called; what is left is called by what was taken off it. */
export function nameOf(t: Say, measure: WhatIfMeasure, { change }: WhatIfView): string {
  const costs = measure === 'margin' && (change.costWeekMinor ?? 0) > 0;
  return t(costs ? 'whatIf.m.marginCost' : `whatIf.m.${measure}`);
}

/** Both ask for the same. */
export function isSame(a: WhatIfChange, b: WhatIfChange): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}

/** What it comes to, in sentences; only what the bands bear out. */
export function saidOf(t: Say, manner: Manner, view: WhatIfView): readonly string[] {
  if (isSame(view.change, {})) return [t('whatIf.nothing')];
  const say = (measure: 'margin' | 'jobs' | 'wait'): readonly string[] => {
    const row = view.rows.find((r) => r.measure === measure);
    if (!row || !isShown(manner, row)) return [];
    const { mid } = row.difference;
    const size = written(manner, measure, Math.abs(mid));
    const currency = measure === 'margin' ? `${manner.currency} ` : '';
    const said = { more: mid > 0, count: size, money: currency + size, ends: sizesOf(t, manner, row) };
    return [t(`whatIf.said.${measure}`, said)];
  };
  const all = [...say('margin'), ...say('jobs'), ...say('wait')];
  return all.length > 0 ? all : [t('whatIf.said.none')];
}
