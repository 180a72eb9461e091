import { type ReactNode, useState } from 'react';
import type { JobId } from '#core/shared/ids.ts';
import { STEP_ROLES, type StepRole } from '#core/shared/machineStep.ts';
import { panelName } from '#core/shared/text/sayError.ts';
import type { BodyStyle, PanelId } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useManner, useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Head, Stack } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './estimate.module.css';

/** What sections tried on this car really took: passes, time, film. Makes a new version. */
export function TestSpotForm(props: {
  readonly jobId: JobId;
  readonly body: BodyStyle;
  readonly panels: readonly PanelId[];
}): ReactNode {
  const t = useText();
  const { locale } = useManner();
  const [panel, setPanel] = useState<PanelId | null>(props.panels.includes('bo') ? 'bo' : null);
  const [role, setRole] = useState<StepRole>('heavyCut');
  const [passes, setPasses] = useState<number | null>(null);
  const [sections, setSections] = useState<number | null>(1);
  const [seconds, setSeconds] = useState<number | null>(null);
  const [removed, setRemoved] = useState<number | null>(null);
  const record = useCommand('paint.recordTestSpot');
  const whole = panel !== null && passes !== null && seconds !== null && sections !== null;

  async function save(): Promise<void> {
    if (!whole) return;
    const film = removed === null ? null : Math.round(removed * 10);
    const said = { jobId: props.jobId, panel, role, passes, seconds, sections };
    const done = await record.run({ ...said, removedTenthUm: film });
    if (done.ok) setSeconds(null);
  }
  return (
    <Stack gap={1}>
      <Head title={t('estimate.testSpot')} level={3} />
      <p className="t1 quiet">{t('estimate.testSpot.hint')}</p>
      <div className={css['pair']}>
        <Select<PanelId>
          label={t('estimate.testSpot.panel')}
          options={props.panels.map((value) => ({ value, label: panelName(locale, value, props.body) }))}
          value={panel}
          onChange={setPanel}
        />
        <Select<StepRole>
          label={t('estimate.testSpot.step')}
          options={STEP_ROLES.map((value) => ({ value, label: t(`estimate.step.${value}`) }))}
          value={role}
          onChange={setRole}
        />
        <NumberField
          label={t('estimate.testSpot.passes')}
          value={passes}
          onChange={setPasses}
          min={1}
          max={40}
        />
        <NumberField
          label={t('estimate.sections')}
          value={sections}
          onChange={setSections}
          min={1}
          max={100}
        />
        <NumberField
          label={t('estimate.seconds')}
          unit="s"
          value={seconds}
          onChange={setSeconds}
          min={1}
          max={36_000}
          step={15}
        />
        <NumberField
          label={t('estimate.removed')}
          unit="µm"
          digits={1}
          step={0.1}
          value={removed}
          onChange={setRemoved}
          min={0}
          max={100}
        />
      </div>
      <Button
        onPress={() => void save()}
        busy={record.busy}
        why={whole ? undefined : t('estimate.testSpot.hint')}
      >
        {t('estimate.testSpot.record')}
      </Button>
      <Refusal refusal={record.refusal} />
    </Stack>
  );
}
