import type { ReactNode } from 'react';
import { film } from '#core/shared/text/format.ts';
import { TENTH_UM_PER_MIL } from '#core/shared/units.ts';
import { useManner } from '../bridge/texts.tsx';
import type { FieldFrame } from './Field.tsx';
import { NumberField } from './NumberFields.tsx';

/** Film in the shop's unit; the value is 0.1 µm, in whole numbers. */
export function FilmField(
  props: FieldFrame & {
    readonly value: number | null;
    readonly onChange: (tenthUm: number | null) => void;
    readonly max: number;
    /** Digits after the point, where film is read in mil; in µm one. */
    readonly milDigits?: number;
  },
): ReactNode {
  const manner = useManner();
  const mil = manner.filmUnit === 'mil';
  const tenths = mil ? TENTH_UM_PER_MIL : 10;
  const { value, max, onChange, milDigits = 2, ...frame } = props;
  const digits = mil ? milDigits : 1;
  return (
    <NumberField
      {...frame}
      unit={film(manner, 0).unit}
      digits={digits}
      step={10 ** -digits}
      min={0}
      max={max / tenths}
      value={value === null ? null : value / tenths}
      onChange={(shown) => onChange(shown === null ? null : Math.round(shown * tenths))}
    />
  );
}
