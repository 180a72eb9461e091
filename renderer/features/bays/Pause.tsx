import { type ReactNode, useState } from 'react';
import { dayText, when } from '#core/shared/text/when.ts';
import { addLocalDays, localDayOf, minuteOf } from '#core/shared/time.ts';
import type { LocalDay } from '#core/shared/units.ts';
import type { BaysSetupView } from '#core/shared/views/baysSetup.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useMay } from '../../bridge/person.ts';
import { useQuery } from '../../bridge/queries.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { DayField } from '../../ui/DateFields.tsx';
import { TextField } from '../../ui/Field.tsx';
import { Refusal } from '../../ui/States.tsx';
import type { Paused } from './boardProps.ts';
import css from './panel.module.css';

/** When a bay is closed or somebody is away: what is set, each with its way back, and a form for more. */
export function Pause(props: {
  readonly of: Paused;
  readonly nowMin: number;
  readonly onReplan: () => void;
  readonly onClose: () => void;
}): ReactNode {
  const { of } = props;
  const t = useText();
  const kind = 'bayId' in of ? 'bay' : 'person';
  const setup = useQuery('bays.setup', {});
  const [added, setAdded] = useState(false);
  const may = useMay('bayId' in of ? 'owner' : 'desk');
  const off = may ? undefined : t('bays.pause.notYou');
  const title = t(`bays.pause.${kind}`, { name: of.name });
  return (
    <section
      className={css['replan']}
      aria-label={title}
      onKeyDown={(e) => (e.key === 'Escape' ? props.onClose() : undefined)}
    >
      <div className={css['replanHead']}>
        <b>{title}</b>
        {setup.data ? <Times of={of} setup={setup.data} off={off} nowMin={props.nowMin} /> : null}
        <span className={css['endOfLine']}>
          <LinkButton onPress={props.onClose}>{t('bays.pause.shut')}</LinkButton>
        </span>
      </div>
      <NewPause of={of} off={off} nowMin={props.nowMin} onAdded={() => setAdded(true)} />
      {added ? (
        <p className="quiet">
          {t('bays.pause.added')} <LinkButton onPress={props.onReplan}>{t('bays.replan')}</LinkButton>
        </p>
      ) : null}
    </section>
  );
}

type TimesProps = {
  readonly of: Paused;
  readonly setup: BaysSetupView;
  readonly off: string | undefined;
  readonly nowMin: number;
};

/** What is set from today on. */
function Times(props: TimesProps): ReactNode {
  const t = useText();
  const times = useTimes(props);
  const closure = useCommand('bays.dropClosure');
  const absence = useCommand('bays.dropAbsence');
  const drop = 'bayId' in props.of ? closure : absence;
  return (
    <>
      {times.map((time) => (
        <span key={time.id} className="quiet">
          {time.said}{' '}
          <LinkButton quiet why={props.off} onPress={() => void drop.run({ id: time.id })}>
            {t('bays.pause.takeBack')}
          </LinkButton>
        </span>
      ))}
      <Refusal refusal={closure.refusal ?? absence.refusal} />
    </>
  );
}

function useTimes(props: TimesProps): readonly { readonly id: string; readonly said: string }[] {
  const manner = useManner();
  const { of, setup, nowMin } = props;
  const today = localDayOf(nowMin * 60_000, manner.zone);
  const soon = addLocalDays(today, SOON_DAYS);
  const at = (min: number): string => when(manner, min * 60_000, nowMin * 60_000);
  if ('bayId' in of)
    return setup.closures
      .filter((c) => (c.bayId === of.bayId || (c.bayId === null && c.fromDay <= soon)) && c.toDay >= today)
      .map((c) => ({
        id: c.id,
        said: [span(dayText(manner, c.fromDay), dayText(manner, c.toDay)), c.reason]
          .filter(Boolean)
          .join(', '),
      }));
  return setup.absences
    .filter((a) => a.personId === of.personId && a.endMin > nowMin)
    .map((a) => ({
      id: a.id,
      said: [span(at(a.startMin), at(a.endMin)), a.reason].filter(Boolean).join(', '),
    }));
}

/** Days of the whole shop are named when they are this near. */
const SOON_DAYS = 14;

function span(from: string, to: string): string {
  return from === to ? from : `${from} – ${to}`;
}

function NewPause(props: {
  readonly of: Paused;
  readonly off: string | undefined;
  readonly nowMin: number;
  readonly onAdded: () => void;
}): ReactNode {
  const { of, off, nowMin } = props;
  const t = useText();
  const { zone } = useManner();
  const close = useCommand('bays.addClosure');
  const leave = useCommand('bays.addAbsence');
  const today = localDayOf(nowMin * 60_000, zone);
  const [fromDay, setFrom] = useState<LocalDay | null>(today);
  const [toDay, setTo] = useState<LocalDay | null>(null);
  const [reason, setReason] = useState('');
  async function put(): Promise<void> {
    if (!fromDay) return;
    const last = toDay ?? fromDay;
    // Today's work until now was done: an absence that begins today begins now.
    const startMin = fromDay === today ? nowMin : minuteOf(fromDay, 0, zone);
    const endMin = minuteOf(addLocalDays(last, 1), 0, zone);
    const done =
      'bayId' in of
        ? await close.run({ bayId: of.bayId, fromDay, toDay: last, reason })
        : await leave.run({ personId: of.personId, startMin, endMin, reason });
    if (done.ok) props.onAdded();
  }
  return (
    <div className={css['pauseForm']}>
      <DayField label={t('bays.pause.from')} value={fromDay} onChange={setFrom} off={off} />
      <DayField label={t('bays.pause.to')} value={toDay} onChange={setTo} off={off} />
      <TextField label={t('bays.pause.why')} value={reason} maxLength={120} onChange={setReason} off={off} />
      <Button
        why={off ?? (fromDay ? undefined : t('bays.pause.needsDay'))}
        busy={close.busy || leave.busy}
        onPress={() => void put()}
      >
        {t('bayId' in of ? 'bays.pause.close' : 'bays.pause.away')}
      </Button>
      <Refusal refusal={close.refusal ?? leave.refusal} />
    </div>
  );
}
