import { verdictOf } from '../../paint/rules/verdict.ts';
import type { LimitKey, LimitView } from '../../shared/views/estimate.ts';
import type { VerdictReason } from '../../shared/views/paint.ts';
import type { Defect, Level } from '../../shared/vocabulary.ts';
import { shareRefusal } from './levels.ts';
import type { PanelCase, PanelShare } from './stages.ts';

/**
 * What the quote must say, panel by panel: what stays and why, what may only soften, where the film is thin, not
 * known or not read, and whose word a rule was set aside on.
 */
export function limitsOf(
  panels: readonly PanelCase[],
  levels: readonly Level[],
  shares: readonly Pick<PanelShare, 'removal' | 'sanding'>[],
  unseen: boolean,
): LimitView[] {
  const all = unseen ? [limit('unseen')] : [];
  if (unseen) return all;
  panels.forEach((p, i) => {
    all.push(...panelLimits(p, levels[i] ?? 'leave', shares[i] ?? UNTOUCHED));
  });
  return all;
}

const UNTOUCHED = { removal: 0, sanding: null } as const;
type Share = Pick<PanelShare, 'removal' | 'sanding'>;

function panelLimits(p: PanelCase, level: Level, share: Share): LimitView[] {
  const panel = p.size.panel;
  const machine = level !== 'leave' && level !== 'washOnly';
  const found: LimitView[] = [];
  const add = (key: LimitKey, data: LimitView['data'] = {}): void => {
    found.push({ ...limit(key), panel, data });
  };
  const set = p.override && isUsed(p, level, share) ? p.override : null;
  if (p.thin) add('thinPanel', set ? { worked: 1 } : {});
  if (p.refinished) add('refinished');
  if (machine && !p.readable) add('unreadable');
  if (machine && p.readable && p.readings === 0) add('notMeasured');
  if (p.safe === 0 && !p.thin) add('budgetUsed');
  if (set) add('override', set);
  // Who agreed stands with the consent: an estimate is never changed, and a name in it could not be erased.
  if (share.sanding)
    add('sanded', {
      lowTenthUm: share.sanding.low,
      highTenthUm: Math.round(share.removal),
    });
  return [...found, ...findingLimits(p, level, share.removal)];
}

/** True when the plan needs the override: without it the level would be refused. */
function isUsed(p: PanelCase, level: Level, share: Share): boolean {
  return shareRefusal({ ...p, override: null }, level, share) !== null;
}

function findingLimits(p: PanelCase, level: Level, removal: number): LimitView[] {
  const safe = level === 'sanded' ? p.sandable : p.safe;
  const seen = new Set<string>();
  return p.findings.flatMap((f) => {
    const { verdict, reason } = verdictOf(f.defect, f.depth, removal, safe, p.thin && !p.override);
    if (verdict === 'comesOut') return [];
    const key = keyOf(f.defect, verdict === 'maySoften', reason);
    const once = key === 'leftOut' ? key : `${key} ${f.defect}`;
    if (seen.has(once)) return [];
    seen.add(once);
    return [{ ...limit(key), panel: p.size.panel, defect: f.defect }];
  });
}

function keyOf(defect: Defect, softens: boolean, reason: VerdictReason): LimitKey {
  if (softens) return 'softens';
  if (reason === 'notInFilm') return 'staysNotInFilm';
  if (reason === 'noPlan' || reason === 'thin') return 'leftOut';
  return reason === 'deeperThanSafe' && defect === 'etching' ? 'staysEtched' : 'staysDeep';
}

function limit(key: LimitKey): LimitView {
  return { key, panel: null, defect: null, data: {} };
}
