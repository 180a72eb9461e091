import { type ReactNode, useState } from 'react';
import type { BoardView, ConflictView } from '#core/shared/views/bays.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './bays.module.css';
import { besides, conflictSentence, takenBy } from './sentence.ts';

/** How many lines are read out before the rest is only counted. */
const SHOWN = 2;

/** What a line is about: a car, or pads that it lacks, which nobody may have noted with its lateness unread. */
function lineOf(c: ConflictView): string {
  return c.kind === 'padsMissing' ? c.key : c.jobId;
}

/** What happened against the plan, a quiet line for each car and for pads it lacks, and cars that are not on the board yet. */
export function Conflicts(props: { readonly board: BoardView; readonly onReplan: () => void }): ReactNode {
  const t = useText();
  const { board } = props;
  const [all, setAll] = useState(false);
  const open = board.conflicts.filter((c) => !c.acknowledged);
  const lines = [...Map.groupBy(open, lineOf)];
  const shown = all ? lines : lines.slice(0, SHOWN);
  if (lines.length === 0 && board.unplaced.length === 0) return null;
  return (
    <ul className={css['notes']} aria-label={t('bays.conflicts')}>
      {shown.map(([line, conflicts]) => (
        <OfOneCar key={line} conflicts={conflicts} nowMs={board.nowMin * 60_000} onReplan={props.onReplan} />
      ))}
      {lines.length > SHOWN ? (
        <li>
          <LinkButton quiet onPress={() => setAll(!all)}>
            {all ? t('bays.fewer') : t('bays.more', { count: lines.length - SHOWN })}
          </LinkButton>
        </li>
      ) : null}
      <Unplaced board={board} />
    </ul>
  );
}

/** The first thing that happened to a car, that its plan does not hold where it does not, and what to do about it. */
function OfOneCar(props: {
  readonly conflicts: readonly ConflictView[];
  readonly nowMs: number;
  readonly onReplan: () => void;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  const note = useCommand('bays.noteConflict');
  const { conflicts, nowMs } = props;
  const happened = conflicts.find((c) => c.kind !== 'planBroken');
  const all = conflicts.filter((c) => c.kind === 'planBroken');
  // Of a car that has not come it matters most that its place is taken.
  const broken = all.find((c) => happened?.kind === 'lateArrival' && takenBy(c)) ?? all[0];
  const noteAll = async (): Promise<void> => {
    for (const { key } of conflicts) await note.run({ key });
  };
  return (
    <li data-lit="true">
      {happened ? conflictSentence(t, manner, happened, nowMs) : null}{' '}
      {broken ? besides(t, manner, happened, broken, nowMs) : null}{' '}
      {broken ? (
        <LinkButton quiet onPress={props.onReplan}>
          {t('bays.conflict.mend')}
        </LinkButton>
      ) : null}{' '}
      <LinkButton quiet onPress={() => void noteAll()}>
        {t('bays.noted')}
      </LinkButton>
      <Refusal refusal={note.refusal} />
    </li>
  );
}

function Unplaced(props: { readonly board: BoardView }): ReactNode {
  const t = useText();
  const { unplaced } = props.board;
  if (unplaced.length === 0) return null;
  return (
    <li>
      <b>{t('bays.unplaced')}</b>{' '}
      {unplaced.slice(0, 4).map((u) => (
        <LinkTo key={u.jobId} to={`/jobs/${u.jobId}`} quiet>
          {u.who}
        </LinkTo>
      ))}
      {unplaced.length > 4 ? ` + ${unplaced.length - 4}` : null}
    </li>
  );
}
