import { type ReactNode, useState } from 'react';
import { percent } from '#core/shared/text/format.ts';
import { amountText } from '#core/shared/text/manner.ts';
import { dayTimeFrom } from '#core/shared/text/when.ts';
import { PPM } from '#core/shared/units.ts';
import type { Remedy } from '#core/shared/views/desk.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { LinkButton } from '../../ui/Button.tsx';
import { remedyWords, takeRemedy } from '../../ui/remedies.ts';
import { useShortcuts } from '../../ui/shortcuts.ts';
import held from './held.module.css';
import type { Changes } from './useChanges.ts';
import type { Fell, FellNote } from './useFell.ts';

/** More than this is only counted, until the rest is asked for. */
const SHOWN = 3;

/** What the last change did to promises: each that is less sure now, what would help it, and the way back. */
export function FellBelow(props: {
  readonly note: FellNote;
  readonly changes: Changes;
  readonly nowMs: number;
}): ReactNode {
  const t = useText();
  const { note, changes } = props;
  const { fell } = note;
  const [asked, setAsked] = useState<Fell | null>(null);
  const [all, setAll] = useState(false);
  const [first] = fell;
  const ask = (): void => setAsked(asked ? null : (first ?? null));
  useShortcuts(first ? { ['H']: ask, Escape: note.drop } : {});
  if (!first) return null;
  const open = fell.find((f) => f.now.jobId === asked?.now.jobId) ?? null;
  return (
    <section className={held['note']} aria-label={t('bays.fell')} role="status">
      {(all ? fell : fell.slice(0, SHOWN)).map((f) => (
        <p key={f.now.jobId}>
          <Said fell={f} nowMs={props.nowMs} />{' '}
          <LinkButton quiet onPress={() => setAsked(open === f ? null : f)}>
            {t('bays.fell.helps')}
          </LinkButton>{' '}
          {f === first ? <kbd className="kbd">H</kbd> : null}
        </p>
      ))}
      {fell.length > SHOWN ? (
        <p>
          <LinkButton quiet onPress={() => setAll(!all)}>
            {all ? t('bays.fewer') : t('bays.more', { count: fell.length - SHOWN })}
          </LinkButton>
        </p>
      ) : null}
      <p className={held['ways']}>
        {changes.undo ? (
          <span>
            <LinkButton onPress={changes.undo.run}>{t('bays.undo')}</LinkButton>{' '}
            <kbd className="kbd">Ctrl Z</kbd>
          </span>
        ) : null}
        <span>
          <LinkButton onPress={note.drop}>{t('bays.fell.leave')}</LinkButton> <kbd className="kbd">Esc</kbd>
        </span>
      </p>
      {open ? <WaysOut key={open.now.jobId} of={open} changes={changes} nowMs={props.nowMs} /> : null}
    </section>
  );
}

function Said({ fell: { now, wasPpm }, nowMs }: { readonly fell: Fell; readonly nowMs: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const whole = (ppm: number): string => String(Math.round(ppm / 10_000));
  return t('bays.fell.said', {
    ...{ number: String(now.number), who: now.who, at: dayTimeFrom(manner, now.atMin * 60_000, nowMs) },
    ...{ was: whole(wasPpm), is: whole(now.nowPpm) },
  });
}

/** Ways out that were tried on the board, each with its chance; the number does it, or leads to where it is agreed. */
function WaysOut(props: { readonly of: Fell; readonly changes: Changes; readonly nowMs: number }): ReactNode {
  const t = useText();
  const manner = useManner();
  const { now } = props.of;
  const found = useQuery('bays.waysOut', { jobId: now.jobId });
  const ways = found.data ?? [];
  const take = (r: Remedy): void => takeRemedy(now.jobId, r, (way) => void props.changes.take(way, now.who));
  useShortcuts(Object.fromEntries(ways.map((r, i) => [String(i + 1), () => take(r)])));
  if (found.data && ways.length === 0) return <p className="quiet">{t('bays.fell.none')}</p>;
  return (
    <p className={held['ways']} aria-busy={found.asking}>
      {ways.map((r, i) => (
        <span key={r.kind}>
          <LinkButton onPress={() => take(r)}>
            {remedyWords(t, manner, r, props.nowMs)} · {amountText(percent(manner, r.ppm / PPM))}
          </LinkButton>{' '}
          <kbd className="kbd">{i + 1}</kbd>
        </span>
      ))}
    </p>
  );
}
