import type { Manner } from '#core/shared/text/manner.ts';
import { when } from '#core/shared/text/when.ts';
import type { Remedy, RemedyMove } from '#core/shared/views/desk.ts';
import type { Say } from '../bridge/texts.tsx';
import { go } from './router.ts';

/** What a way out would do, with its times as they are said from now. */
export function remedyWords(t: Say, manner: Manner, remedy: Remedy, nowMs: number): string {
  const at = (min: number): string => when(manner, min * 60_000, nowMs);
  if (remedy.kind === 'wash') return t('desk.remedy.wash', { item: remedy.item });
  if (remedy.kind === 'later') return t('desk.remedy.later', { when: at(remedy.pickUpMin) });
  const moved = { stage: t(`word.stage.${remedy.stage}`), when: at(remedy.move.startMin) };
  return remedy.kind === 'technician'
    ? t('desk.remedy.technician', { ...moved, name: remedy.name })
    : t('desk.remedy.time', { ...moved, bay: remedy.bay });
}

/** Does what a way out says, or leads to where it is done: a later pick-up is agreed on the job, pads lie in the stock. */
export function takeRemedy(jobId: string, remedy: Remedy, move: (way: RemedyMove) => void): void {
  if (remedy.kind === 'later') go(`/jobs/${jobId}`);
  else if (remedy.kind === 'wash') go('/stock');
  else move(remedy.move);
}
