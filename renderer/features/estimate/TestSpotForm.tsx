import type { ReactNode } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { STEP_ROLES, type StepRole } from '#core/shared/machineStep.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { BodyStyle, PanelId } from '#core/shared/vocabulary.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { type TestSpot, useTestSpot } from '../../bridge/useTestSpot.ts';
import { Button, LinkTo } from '../../ui/Button.tsx';
import { FilmField } from '../../ui/FilmField.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './estimate.module.css';

type Where = { readonly body: BodyStyle; readonly panels: readonly PanelId[] };

/** What sections tried on this car really took: passes, time, film. Makes a new version. */
export function TestSpotForm(props: Where & { readonly jobId: JobId }): ReactNode {
  const t = useText();
  const test = useTestSpot(props.jobId, props.panels.includes('bo') ? 'bo' : null);
  return (
    <Stack gap={1}>
      <Head title={t('estimate.testSpot')} level={3}>
        <LinkTo quiet to="/steps">
          {t('steps.title')}
        </LinkTo>
      </Head>
      <p className="t1 quiet">{t('estimate.testSpot.hint')}</p>
      <div className={css['pair']}>
        <SpotChoice {...props} test={test} />
        <SpotFigures test={test} />
      </div>
      <Button
        onPress={() => void test.save()}
        busy={test.busy}
        why={test.whole ? undefined : t('card.spotMissing')}
      >
        {t('estimate.testSpot.record')}
      </Button>
      <Refusal refusal={test.refusal} />
    </Stack>
  );
}

function SpotChoice(props: Where & { readonly test: TestSpot }): ReactNode {
  const t = useText();
  const { locale } = useManner();
  const { spot, put } = props.test;
  return (
    <>
      <Select<PanelId>
        label={t('estimate.testSpot.panel')}
        options={props.panels.map((value) => ({ value, label: panelName(locale, value, props.body) }))}
        value={spot.panel}
        onChange={(panel) => put({ panel })}
      />
      <Select<StepRole>
        label={t('estimate.testSpot.step')}
        options={STEP_ROLES.map((value) => ({ value, label: t(`estimate.step.${value}`) }))}
        value={spot.role}
        onChange={(role) => put({ role })}
      />
    </>
  );
}

function SpotFigures(props: { readonly test: TestSpot }): ReactNode {
  const t = useText();
  const { spot, put } = props.test;
  return (
    <>
      <NumberField
        label={t('estimate.testSpot.passes')}
        value={spot.passes}
        onChange={(passes) => put({ passes })}
        min={1}
        max={40}
      />
      <NumberField
        label={t('estimate.sections')}
        value={spot.sections}
        onChange={(sections) => put({ sections })}
        min={1}
        max={100}
      />
      <NumberField
        label={t('estimate.seconds')}
        unit="s"
        value={spot.seconds}
        onChange={(seconds) => put({ seconds })}
        min={1}
        max={36_000}
        step={15}
      />
      <FilmField
        label={t('estimate.removed')}
        value={spot.removedTenthUm}
        max={1000}
        onChange={(removedTenthUm) => put({ removedTenthUm })}
      />
    </>
  );
}
