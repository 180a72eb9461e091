import { type ReactNode, useState } from 'react';
import { dayTime } from '#core/shared/text/when.ts';
import type { BoardView } from '#core/shared/views/bays.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton, LinkTo } from '../../ui/Button.tsx';
import { Refusal, Refused } from '../../ui/States.tsx';
import css from './bays.module.css';
import { conflictSentence, ruleSentence } from './sentence.ts';
import type { Moves } from './useMoves.ts';

/** What the block in hand may not do and where it could go; or the question for consent. */
export function HeldNote(props: { readonly moves: Moves }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { moves } = props;
  const { lifted, check } = moves;
  if (!lifted) return <Refusal refusal={moves.refusal} />;
  const name = lifted.who;
  if (check?.ok === false)
    return (
      <Refused
        what={name}
        reason={ruleSentence(t, manner, check.fault)}
        remedies={[
          ...check.nearest.map((n) => ({
            label: t('bays.placeAt', { bay: n.bayName, at: dayTime(manner, n.startMin * 60_000) }),
            onPress: () => moves.hold(n.bayId, n.startMin),
          })),
          { label: t('bays.putBack'), onPress: moves.putBack },
        ]}
      />
    );
  const [ask] = check?.ok ? check.needsConsent : [];
  if (ask)
    return (
      <Refused
        what={t('bays.needsConsent')}
        reason={ruleSentence(t, manner, ask)}
        remedies={[
          { label: t('bays.agreed'), onPress: () => void moves.drop(true) },
          { label: t('bays.putBack'), onPress: moves.putBack },
        ]}
      />
    );
  return (
    <>
      <p className="quiet" role="status">
        <b>{name}</b> {dayTime(manner, lifted.startMin * 60_000)}. {t('bays.keys')}
      </p>
      <Refusal refusal={moves.refusal} />
    </>
  );
}

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
