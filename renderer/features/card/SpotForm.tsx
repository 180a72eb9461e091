import { type ReactNode, useEffect, useState } from 'react';
import { STEP_ROLES, type StepRole } from '#core/shared/machineStep.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { CardStage, CardView } from '#core/shared/views/card.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { type SpotDraft, type TestSpot, useTestSpot } from '../../bridge/useTestSpot.ts';
import { Button } from '../../ui/Button.tsx';
import { Segmented } from '../../ui/Choice.tsx';
import { FilmField } from '../../ui/FilmField.tsx';
import { FlatCar } from '../../ui/flatcar/FlatCar.tsx';
import { Head } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './card.module.css';
import { firstPanel } from './firstPanel.ts';
import { Stepper } from './Stepper.tsx';

/** A test spot tried in the bay: where, with what, how many passes, and a watch for how long. */
export function SpotForm(props: {
  readonly card: CardView;
  readonly stage: CardStage;
  readonly onBack: () => void;
  readonly onDone: (said: readonly string[]) => void;
}): ReactNode {
  const t = useText();
  const { locale } = useManner();
  const { card } = props;
  const { body } = card.job.vehicle;
  const test = useTestSpot(card.job.id, firstPanel(props.stage), props.stage.how.role ?? undefined);
  const { spot, put } = test;
  async function save(): Promise<void> {
    if (await test.save()) props.onDone([t('card.spotKept')]);
  }
  return (
    <section className={css['form']} aria-label={t('card.testSpot')}>
      <div className={css['body']}>
        <section>
          <Head
            title={t('card.testSpot')}
            note={spot.panel === null ? null : panelName(locale, spot.panel, body)}
          />
          <FlatCar
            body={body}
            label={t('card.testSpot')}
            selected={spot.panel === null ? [] : [spot.panel]}
            onPanel={(panel) => put({ panel })}
          />
        </section>
        <section>
          <SpotFields test={test} />
          <Refusal refusal={test.refusal} />
        </section>
      </div>
      <nav className={css['go']}>
        <Button
          kind="go"
          busy={test.busy}
          why={test.whole ? undefined : t('card.spotMissing')}
          onPress={() => void save()}
        >
          {t('estimate.testSpot.record')}
        </Button>
        <Button onPress={props.onBack}>{t('card.backToStage')}</Button>
      </nav>
    </section>
  );
}

function SpotFields(props: { readonly test: TestSpot }): ReactNode {
  const t = useText();
  const { spot, put } = props.test;
  const stepped = (key: 'passes' | 'sections', most: number): ReactNode => (
    <Stepper
      name={t(key === 'passes' ? 'estimate.testSpot.passes' : 'estimate.sections')}
      onStep={(by) => put({ [key]: Math.min(most, Math.max(1, (spot[key] ?? 0) + by)) })}
    >
      <NumberField
        label={t(key === 'passes' ? 'estimate.testSpot.passes' : 'estimate.sections')}
        value={spot[key]}
        min={1}
        max={most}
        onChange={(value) => put({ [key]: value })}
      />
    </Stepper>
  );
  return (
    <>
      <Segmented<StepRole>
        label={t('estimate.testSpot.step')}
        options={STEP_ROLES.map((value) => ({ value, label: t(`estimate.step.${value}`) }))}
        value={spot.role}
        onChange={(role) => put({ role })}
      />
      {stepped('passes', 40)}
      {stepped('sections', 100)}
      <Watch spot={spot} put={put} />
      <FilmField
        label={t('estimate.removed')}
        value={spot.removedTenthUm}
        max={1000}
        onChange={(removedTenthUm) => put({ removedTenthUm })}
      />
    </>
  );
}

/** Seconds for the sections, taken with the watch or typed. */
function Watch(props: {
  readonly spot: SpotDraft;
  readonly put: (part: Partial<SpotDraft>) => void;
}): ReactNode {
  const t = useText();
  const [since, setSince] = useState<number | null>(null);
  const [now, setNow] = useState(0);
  useEffect(() => {
    if (since === null) return undefined;
    const timer = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(timer);
  }, [since]);
  function press(): void {
    const at = Date.now();
    // While it runs nothing stands that could be recorded in its place.
    props.put({ seconds: since === null ? null : Math.max(1, Math.round((at - since) / 1000)) });
    setNow(at);
    setSince(since === null ? at : null);
  }
  return (
    <div className={css['watch']}>
      <NumberField
        label={t('estimate.seconds')}
        unit="s"
        value={since === null ? props.spot.seconds : Math.round((now - since) / 1000)}
        min={1}
        max={36_000}
        step={5}
        onChange={(seconds) => props.put({ seconds })}
        off={since === null ? undefined : t('card.watchRuns')}
      />
      <Button onPress={press}>{t(since === null ? 'card.watchStart' : 'card.watchStop')}</Button>
    </div>
  );
}
