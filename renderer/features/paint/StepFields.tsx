import type { ReactNode } from 'react';
import { MACHINES, type Machine, type MachineStep } from '#core/shared/machineStep.ts';
import { count, film } from '#core/shared/text/format.ts';
import { amountText, type Manner } from '#core/shared/text/manner.ts';
import { MATERIALS, type Material } from '#core/shared/vocabulary.ts';
import { type Say, useText } from '../../bridge/texts.tsx';
import { FilmField } from '../../ui/FilmField.tsx';
import { NumberField } from '../../ui/NumberFields.tsx';
import { Select } from '../../ui/Select.tsx';
import css from './paint.module.css';

const PADS = MATERIALS.filter((m) => m.endsWith('Pad') || m === 'applicator');
const LIQUIDS = MATERIALS.filter((m) => m.endsWith('Compound') || m.endsWith('Polish'));

type Figure = 'padDiameterMm' | 'sectionsPerPad' | 'speedRpm' | 'referenceRpm' | 'pressureN' | 'referenceN';
const FIGURES: readonly (readonly [Figure, unit: string, least: number, most: number])[] = [
  ['padDiameterMm', 'mm', 20, 230],
  ['sectionsPerPad', '', 1, 100],
  ['speedRpm', '', 100, 12_000],
  ['referenceRpm', '', 100, 12_000],
  ['pressureN', 'N', 1, 300],
  ['referenceN', 'N', 1, 300],
];

/** What a step's fields are called on their form. */
export const STEP_WORDS = {
  role: 'steps.step',
  machine: 'steps.machine',
  pad: 'steps.pad',
  liquid: 'steps.liquid',
  padDiameterMm: 'steps.padMm',
  sectionsPerPad: 'steps.sections',
  speedRpm: 'steps.rpm',
  referenceRpm: 'steps.referenceRpm',
  pressureN: 'steps.pressure',
  referenceN: 'steps.referencePressure',
  tenthUmPerKs: 'steps.rate',
  errorPerKs: 'steps.rateError',
} as const satisfies Record<keyof MachineStep, string>;

/** A stored field as people read it. */
export function stepValue(step: MachineStep, field: keyof MachineStep, t: Say, manner: Manner): string {
  switch (field) {
    case 'role':
      return t(`estimate.step.${step.role}`);
    case 'machine':
      return t(`card.machine.${step.machine}`);
    case 'pad':
    case 'liquid':
      return t(`word.material.${step[field]}`);
    case 'tenthUmPerKs':
    case 'errorPerKs':
      return step[field] === null ? '' : amountText(film(manner, step[field]));
    default:
      return count(manner, step[field]);
  }
}

/** Film of one pass with a digit more than readings have: a pass takes little. */
export function passText(tenthUm: number, manner: Manner): string {
  const mil = manner.filmUnit === 'mil';
  return amountText({
    value: count(manner, mil ? tenthUm / 254 : tenthUm / 10, mil ? 3 : 2),
    unit: film(manner, 0).unit,
  });
}

type Props = { readonly step: MachineStep; readonly put: (part: Partial<MachineStep>) => void };

/** Machine, pad and liquid, the figures of both, and the film that they take. */
export function StepFields({ step, put }: Props): ReactNode {
  const t = useText();
  return (
    <div className={css['stepFields']}>
      <StepChoices step={step} put={put} />
      {FIGURES.map(([key, unit, min, max]) => (
        <NumberField
          key={key}
          label={t(STEP_WORDS[key])}
          unit={unit}
          min={min}
          max={max}
          value={step[key]}
          onChange={(value) => (value === null ? undefined : put({ [key]: value }))}
        />
      ))}
      <FilmField
        label={t('steps.rate')}
        milDigits={3}
        max={20_000}
        value={step.tenthUmPerKs}
        // A rate typed by hand is nobody's measure any more.
        onChange={(tenthUmPerKs) =>
          tenthUmPerKs === null ? undefined : put({ tenthUmPerKs, errorPerKs: null })
        }
      />
    </div>
  );
}

function StepChoices({ step, put }: Props): ReactNode {
  const t = useText();
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
