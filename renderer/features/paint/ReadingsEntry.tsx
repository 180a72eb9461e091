import { type FormEvent, type ReactNode, useEffect, useId, useRef } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { film } from '#core/shared/text/format.ts';
import type { PanelInspectionView, ReadingPhase } from '#core/shared/views/paint.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { usePhases } from '../../bridge/usePhases.ts';
import { type MarkedPoint, type Readings, useReadings } from '../../bridge/useReadings.ts';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

type Props = {
  readonly jobId: JobId;
  readonly panel: PanelInspectionView;
  /** A digit typed on the drawing: the field takes it and the focus. */
  readonly typed: { readonly text: string; readonly n: number };
  readonly point: MarkedPoint | null;
  /** Chosen once for the walk round the car. */
  readonly phase: ReadingPhase;
  readonly onPhase: (phase: ReadingPhase) => void;
};

/** Readings of a panel as chips, and one field that takes any number of them. */
export function ReadingsEntry(props: Props): ReactNode {
  const t = useText();
  const phases = usePhases();
  const { panel, typed, jobId, point, phase } = props;
  const entry = useReadings(jobId, panel.panel, phase);
  async function save(how: { unit?: 'um' | 'mil'; right?: boolean } = {}): Promise<void> {
    const kept = await entry.save({ at: point, ...how });
    // Typed on the drawing: back to it, so that the arrows walk on and F adds a finding.
    if (kept && typed.n > 0)
      document.querySelector<SVGElement>(`main [data-panel="${panel.panel}"]`)?.focus();
  }
  function submit(event: FormEvent): void {
    event.preventDefault();
    void save();
  }
  if (!panel.readable) return <p className="quiet">{t('paint.cantRead', { substrate: panel.substrate })}</p>;
  return (
    <form className={css['readings']} onSubmit={submit}>
      <Chips panel={panel} phase={phase} entry={entry} />
      <div className={css['entry']}>
        <FiguresField entry={entry} typed={typed} />
        <Segmented<ReadingPhase> bare {...phases} value={phase} onChange={props.onPhase} />
        <Button onPress={() => void save()} busy={entry.busy}>
          {t('paint.add')}
        </Button>
      </div>
      <Refusal refusal={entry.refusal}>
        {entry.doubtful
          ? (['um', 'mil'] as const).map((unit) => (
              <LinkButton key={unit} onPress={() => void save({ unit })}>
                {t('paint.asTyped', { unit })}
              </LinkButton>
            ))
          : null}
        {entry.farOff ? (
          <LinkButton onPress={() => void save({ right: true })}>{t('paint.rightFar')}</LinkButton>
        ) : null}
      </Refusal>
    </form>
  );
}

function Chips(props: {
  readonly panel: PanelInspectionView;
  readonly phase: ReadingPhase;
  readonly entry: Readings;
}): ReactNode {
  const t = useText();
  const manner = useManner();
  return (
    <div className={css['chips']}>
      {props.panel.readings
        .filter((r) => r.phase === props.phase)
        .map((r) => (
          <button
            key={r.id}
            type="button"
            className={css['chip']}
            aria-label={`${t('paint.remove')} ${film(manner, r.tenthUm).value}`}
            title={t('paint.remove')}
            onClick={() => props.entry.takeBack(r.id)}
          >
            {film(manner, r.tenthUm).value}
          </button>
        ))}
    </div>
  );
}

function FiguresField(props: { readonly entry: Readings; readonly typed: Props['typed'] }): ReactNode {
  const t = useText();
  const manner = useManner();
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const { entry, typed } = props;
  // biome-ignore lint/correctness/useExhaustiveDependencies: only a further digit on the drawing fills the field
  useEffect(() => {
    if (typed.n === 0) return;
    entry.setText(typed.text);
    field.current?.focus();
  }, [typed]);
  return (
    <>
      <label className="unseen" htmlFor={id}>
        {t('paint.readingsField', { unit: manner.filmUnit })}
      </label>
      <input
        ref={field}
        id={id}
        className={css['input']}
        inputMode="decimal"
        autoComplete="off"
        value={entry.text}
        placeholder={t('paint.readingsField', { unit: manner.filmUnit })}
        aria-invalid={entry.bad}
        onChange={(e) => entry.setText(e.currentTarget.value)}
      />
    </>
  );
}
