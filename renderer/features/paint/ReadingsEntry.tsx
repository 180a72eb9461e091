import { type FormEvent, type ReactNode, useEffect, useId, useRef, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { film } from '#core/shared/text/format.ts';
import type { PanelInspectionView, ReadingPhase } from '#core/shared/views/paint.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button, LinkButton } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

export type MarkedPoint = { readonly x: number; readonly y: number };
type Props = {
  readonly jobId: JobId;
  readonly panel: PanelInspectionView;
  /** A digit typed on the drawing: the field takes it and the focus. */
  readonly typed: { readonly text: string; readonly n: number };
  readonly point: MarkedPoint | null;
};

/** Figures as typed: apart by spaces or semicolons, the comma a decimal sign. Null when one cannot be read. */
export function readFigures(text: string): number[] | null {
  const parts = text.split(/[\s;]+/).filter(Boolean);
  const values = parts.map((part) => Number(part.replace(',', '.')));
  return parts.length > 0 && values.every(Number.isFinite) ? values : null;
}

/** Readings of a panel as chips, and one field that takes any number of them. */
export function ReadingsEntry(props: Props): ReactNode {
  const t = useText();
  const manner = useManner();
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const [text, setText] = useState('');
  const [phase, setPhase] = useState<ReadingPhase>('before');
  const add = useCommand('paint.addReadings');
  const remove = useCommand('paint.removeReading');
  const { panel, typed, jobId } = props;
  useEffect(() => {
    if (typed.n === 0) return;
    setText(typed.text);
    field.current?.focus();
  }, [typed]);

  async function save(unit?: 'um' | 'mil'): Promise<void> {
    const values = readFigures(text);
    if (!values) return;
    const sure = unit ? { unit, sure: true } : {};
    const at = props.point ? { x: Math.round(props.point.x), y: Math.round(props.point.y) } : null;
    const done = await add.run({ jobId, panel: panel.panel, values, phase, at, ...sure });
    if (!done.ok) return;
    setText('');
    // Typed on the drawing: back to it, so that the arrows walk on and F adds a finding.
    if (typed.n > 0) document.querySelector<SVGElement>(`main [data-panel="${panel.panel}"]`)?.focus();
  }
  function submit(event: FormEvent): void {
    event.preventDefault();
    void save();
  }
  if (!panel.readable) return <p className="quiet">{t('paint.cantRead', { substrate: panel.substrate })}</p>;
  return (
    <form className={css['readings']} onSubmit={submit}>
      <div className={css['chips']}>
        {panel.readings
          .filter((r) => r.phase === phase)
          .map((r) => (
            <button
              key={r.id}
              type="button"
              className={css['chip']}
              aria-label={`${t('paint.remove')} ${film(manner, r.tenthUm).value}`}
              title={t('paint.remove')}
              onClick={() => void remove.run({ jobId, readingId: r.id })}
            >
              {film(manner, r.tenthUm).value}
            </button>
          ))}
      </div>
      <div className={css['entry']}>
        <label className="unseen" htmlFor={id}>
          {t('paint.readingsField', { unit: manner.filmUnit })}
        </label>
        <input
          ref={field}
          id={id}
          className={css['input']}
          inputMode="decimal"
          autoComplete="off"
          value={text}
          placeholder={t('paint.readingsField', { unit: manner.filmUnit })}
          aria-invalid={text !== '' && readFigures(text) === null}
          onChange={(e) => setText(e.currentTarget.value)}
        />
        <Segmented<ReadingPhase>
          bare
          label={t('paint.phase')}
          options={(['before', 'after'] as const).map((value) => ({ value, label: t(`paint.${value}`) }))}
          value={phase}
          onChange={setPhase}
        />
        <Button onPress={() => void save()} busy={add.busy}>
          {t('paint.add')}
        </Button>
      </div>
      <Refusal refusal={add.refusal ?? remove.refusal}>
        {add.refusal?.code === 'FILM_UNIT_DOUBTFUL'
          ? (['um', 'mil'] as const).map((unit) => (
              <LinkButton key={unit} onPress={() => void save(unit)}>
                {t('paint.asTyped', { unit })}
              </LinkButton>
            ))
          : null}
      </Refusal>
    </form>
  );
}
