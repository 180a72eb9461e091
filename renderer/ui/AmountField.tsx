import type { ReactNode } from 'react';
import { fineStep, fromShown, shownUnit, toShown } from '#core/shared/amounts.ts';
import { unitWord } from '#core/shared/text/format.ts';
import type { BaseUnit } from '#core/shared/vocabulary.ts';
import { useManner } from '../bridge/texts.tsx';
import { NumberField } from './NumberFields.tsx';
import { parseAmount } from './parse.ts';

/** An amount in the shop's unit, or in the one that is written behind it, stepped by the arrows in that unit's natural step; the value is whole base units. */
export function AmountField(props: {
  readonly label: string;
  readonly unit: BaseUnit;
  readonly value: number | null;
  readonly onChange: (value: number | null) => void;
  readonly autoFocus?: boolean;
  readonly error?: ReactNode;
  /** Decimals at most, 3 unless said; pieces have none. */
  readonly digits?: number;
}): ReactNode {
  const manner = useManner();
  const style = { volume: manner.volumeUnit, length: manner.lengthUnit };
  const shown = shownUnit(props.unit, style);
  const digits = shown === 'piece' ? 0 : (props.digits ?? 3);
  return (
    <NumberField
      label={props.label}
      value={props.value === null ? null : toShown(props.value, props.unit, style).value}
      onChange={(v) => props.onChange(v === null ? null : fromShown(v, shown))}
      min={0}
      step={fineStep(shown)}
      digits={digits}
      read={(text) => parseAmount(text, manner.region, digits, props.unit, style)}
      unit={unitWord(manner, props.unit)}
      {...(props.autoFocus ? { autoFocus: true } : {})}
      {...(props.error ? { error: props.error } : {})}
    />
  );
}
