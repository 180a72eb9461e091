import { type ReactNode, useState } from 'react';
import type { BoardView } from '#core/shared/views/bays.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import css from './bays.module.css';
import { conflictSentence } from './sentence.ts';

/** How many conflicts are read out before the rest is only counted. */
const SHOWN = 2;

/** What happened against the plan, a quiet line each, and cars that are not on the board yet. */
export function Conflicts(props: { readonly board: BoardView }): ReactNode {
  const t = useText();
  const manner = useManner();
  const note = useCommand('bays.noteConflict');
  const [all, setAll] = useState(false);
  const open = props.board.conflicts.filter((c) => !c.acknowledged);
  const shown = all ? open : open.slice(0, SHOWN);
  if (open.length === 0 && props.board.unplaced.length === 0) return null;
  return (
    <ul className={css['notes']} aria-label={t('bays.conflicts')}>
      {shown.map((c) => (
        <li key={c.key} data-lit="true">
          {conflictSentence(t, manner, c)}{' '}
          <LinkButton quiet onPress={() => void note.run({ key: c.key })}>
            {t('bays.noted')}
          </LinkButton>
        </li>
      ))}
      {open.length > SHOWN ? (
        <li>
          <LinkButton quiet onPress={() => setAll(!all)}>
            {all ? t('bays.fewer') : t('bays.more', { count: open.length - SHOWN })}
          </LinkButton>
        </li>
      ) : null}
      <Unplaced board={props.board} />
    </ul>
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
