import { type ReactNode, useState } from 'react';
import { MACHINES, type Machine, type MachineStep } from '#core/shared/machineStep.ts';
import type { StepView } from '#core/shared/views/paint.ts';
import { MATERIALS, type Material } from '#core/shared/vocabulary.ts';
import { useCommand } from '../../bridge/commands.ts';
import { useText } from '../../bridge/texts.tsx';
import { Button } from '../../ui/Button.tsx';
import { Head, Row } from '../../ui/Layout.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import { Refusal } from '../../ui/States.tsx';
import css from './paint.module.css';

const PADS = MATERIALS.filter((m) => m.endsWith('Pad') || m === 'applicator');
const LIQUIDS = MATERIALS.filter((m) => m.endsWith('Compound') || m.endsWith('Polish'));
type Figure =
  | 'padDiameterMm'
  | 'speedRpm'
  | 'referenceRpm'
  | 'pressureN'
  | 'referenceN'
  | 'sectionsPerPad'
  | 'tenthUmPerKs';

/** A machine step changed by hand, or its film fitted to the shop's own test spots. */
export function StepForm(props: { readonly step: StepView }): ReactNode {
  const t = useText();
  const { step: shown } = props;
  const { tenthUmPerPass: _pass, errorPerPass: _error, own: _own, spots, ...kept } = shown;
  const [step, setStep] = useState<MachineStep>(kept);
  const set = useCommand('paint.setStep');
  const fit = useCommand('paint.refitStep');
  return (
    <section className={css['step']} aria-label={t(`estimate.step.${step.role}`)}>
      <Head level={2} title={t(`estimate.step.${step.role}`)} note={t('steps.spots', { n: spots })} />
      <StepFields step={step} put={(part) => setStep({ ...step, ...part })} />
      <Refusal refusal={set.refusal ?? fit.refusal} />
      <Row>
        <Button kind="go" busy={set.busy} onPress={() => void set.run(step)}>
          {t('steps.keep')}
        </Button>
        <Button busy={fit.busy} onPress={() => void fit.run({ role: step.role })}>
          {t('steps.fit')}
        </Button>
      </Row>
    </section>
  );
}

type Put = (part: Partial<MachineStep>) => void;

function StepFields(props: { readonly step: MachineStep; readonly put: Put }): ReactNode {
  const t = useText();
  const { step, put } = props;
  const figure = (key: Figure, label: string, unit: string, range: readonly [number, number]): ReactNode => (
    <NumberField
      label={label}
      unit={unit}
      min={range[0]}
      max={range[1]}
      value={step[key]}
      // A rate typed by hand is nobody's measure any more.
      onChange={(value) =>
        value === null
          ? undefined
          : put({ [key]: value, ...(key === 'tenthUmPerKs' ? { errorPerKs: null } : {}) })
      }
    />
  );
  return (
    <div className={css['stepFields']}>
      <StepChoices step={step} put={put} />
      {figure('padDiameterMm', t('steps.padMm'), 'mm', [20, 230])}
      {figure('sectionsPerPad', t('steps.sections'), '', [1, 100])}
      {figure('speedRpm', t('steps.rpm'), '', [100, 12_000])}
      {figure('referenceRpm', t('steps.referenceRpm'), '', [100, 12_000])}
      {figure('pressureN', t('steps.pressure'), 'N', [1, 300])}
      {figure('referenceN', t('steps.referencePressure'), 'N', [1, 300])}
      {figure('tenthUmPerKs', t('steps.rate'), '0.1 µm', [0, 20_000])}
    </div>
  );
}

function StepChoices(props: { readonly step: MachineStep; readonly put: Put }): ReactNode {
  const t = useText();
  const { step, put } = props;
  return (
    <>
      <Select<Machine>
        label={t('steps.machine')}
        options={MACHINES.map((value) => ({ value, label: t(`card.machine.${value}`) }))}
        value={step.machine}
        onChange={(machine) => put({ machine })}
      />
      <Select<Material>
        label={t('steps.pad')}
        options={PADS.map((value) => ({ value, label: t(`word.material.${value}`) }))}
        value={step.pad}
        onChange={(pad) => put({ pad })}
      />
      <Select<Material>
        label={t('steps.liquid')}
        options={LIQUIDS.map((value) => ({ value, label: t(`word.material.${value}`) }))}
        value={step.liquid}
        onChange={(liquid) => put({ liquid })}
      />
    </>
  );
}
