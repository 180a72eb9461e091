import { type KeyboardEvent, type ReactNode, useEffect, useState } from 'react';
import { currencyDigits } from '#core/shared/money.ts';
import { count, hours, moneyPlain } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { useManner, useText } from '../bridge/texts.tsx';
import css from './Field.module.css';
import { Field, type FieldFrame } from './Field.tsx';
import { parseMinor, parseMinutes, parseNumber } from './parse.ts';

type FigureProps = FieldFrame & {
  readonly value: number | null;
  /** Called with a figure, or null when the field was emptied. What cannot be read is never passed on. */
  readonly onChange: (value: number | null) => void;
  readonly min?: number;
  readonly max?: number;
  readonly placeholder?: string;
  readonly autoFocus?: boolean;
};
type Reading = {
  readonly show: (value: number) => string;
  readonly read: (text: string) => number | null;
  readonly unit?: ReactNode;
  /** One press of arrow up or down, in the field's own unit. */
  readonly step: number;
};

type Typing = {
  /** What is being typed; null while the field shows its value. */
  readonly text: string | null;
  readonly problem: string | null;
  readonly type: (text: string | null) => void;
  readonly take: (text: string) => void;
  readonly stepBy: (steps: 1 | -1) => void;
};

/** Keeps what is typed until it can be read and fits; only then it is passed on. */
function useTyping(props: FigureProps & { readonly how: Reading }): Typing {
  const t = useText();
  const { how, value, min, max } = props;
  const [text, type] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a value from outside replaces what was being typed
  useEffect(() => {
    type(null);
    setProblem(null);
  }, [value]);
  const fits = (next: number): boolean => (min ?? -Infinity) <= next && (max ?? Infinity) >= next;
  function limits(): string {
    if (min !== undefined && max !== undefined)
      return t('ui.field.between', { low: how.show(min), high: how.show(max) });
    return min !== undefined ? t('ui.field.least', { low: how.show(min) }) : t('ui.field.number');
  }
  function take(typed: string): void {
    const next = typed.trim() === '' ? null : how.read(typed);
    const unread = next === null && typed.trim() !== '';
    setProblem(unread ? t('ui.field.number') : next === null || fits(next) ? null : limits());
    if (unread || (next !== null && !fits(next))) return;
    type(null);
    if (next !== value) props.onChange(next);
  }
  function stepBy(steps: 1 | -1): void {
    const next = ((text === null ? value : how.read(text)) ?? 0) + steps * how.step;
    if (fits(next)) props.onChange(next);
  }
  return { text, problem, type, take, stepBy };
}

function FigureField(props: FigureProps & { readonly how: Reading }): ReactNode {
  const { how, value } = props;
  const { text, problem, type, take, stepBy } = useTyping(props);
  function press(event: KeyboardEvent): void {
    if (props.off !== undefined) return;
    if (event.key === 'Enter' && text !== null) take(text);
    if (event.key === 'Escape') type(null);
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    event.preventDefault();
    stepBy(event.key === 'ArrowUp' ? 1 : -1);
  }
  return (
    <Field {...props} error={props.error ?? problem} unit={how.unit}>
      {({ id, describedBy }) => (
        <input
          id={id}
          className={`${css['input']} ${css['numeric']}`}
          inputMode="decimal"
          autoComplete="off"
          value={text ?? (value === null ? '' : how.show(value))}
          placeholder={props.placeholder}
          readOnly={props.off !== undefined}
          aria-describedby={describedBy}
          aria-invalid={problem || props.error ? true : undefined}
          // biome-ignore lint/a11y/noAutofocus: the first field of a form that the person just opened
          autoFocus={props.autoFocus}
          onFocus={(e) => e.currentTarget.select()}
          onChange={(e) => type(e.currentTarget.value)}
          onBlur={() => (text === null ? undefined : take(text))}
          onKeyDown={press}
        />
      )}
    </Field>
  );
}

/** A number with a unit. `digits` decimals at most. */
export function NumberField(
  props: FigureProps & { readonly digits?: number; readonly unit?: ReactNode; readonly step?: number },
): ReactNode {
  const manner = useManner();
  const digits = props.digits ?? 0;
  const how: Reading = {
    show: (v) => count(manner, v, Number.isInteger(v) ? 0 : digits),
    read: (text) => parseNumber(text, manner.region, digits),
    unit: props.unit,
    step: props.step ?? 1,
  };
  return <FigureField {...props} how={how} />;
}

function currencySign(manner: Manner, currency: string): string {
  const parts = new Intl.NumberFormat(manner.region, {
    style: 'currency',
    currency,
    currencyDisplay: 'narrowSymbol',
  }).formatToParts(1);
  return parts.find((p) => p.type === 'currency')?.value ?? currency;
}

/** Money in minor units, with the digits of its currency. */
export function MoneyField(props: FigureProps & { readonly currency?: string }): ReactNode {
  const manner = useManner();
  const currency = props.currency ?? manner.currency;
  const digits = currencyDigits(currency);
  const how: Reading = {
    show: (v) => moneyPlain(manner, v, currency),
    read: (text) => parseMinor(text, manner.region, digits),
    unit: currencySign(manner, currency),
    step: 10 ** digits,
  };
  return <FigureField {...props} how={how} />;
}

/** Hours, typed as `9.5`, `9:30` or `90 min`; the value is whole minutes. */
export function HoursField(props: FigureProps): ReactNode {
  const manner = useManner();
  const how: Reading = {
    show: (v) => (v % 6 === 0 ? hours(manner, v).value : count(manner, v / 60, 2)),
    read: (text) => parseMinutes(text, manner.region),
    unit: 'h',
    step: 15,
  };
  return <FigureField {...props} how={how} />;
}
