import { type KeyboardEvent, type ReactNode, type RefObject, useEffect, useRef, useState } from 'react';
import { currencyDigits } from '#core/shared/money.ts';
import { count, hours, moneyPlain } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { UNREAD } from '../bridge/commands.ts';
import { type Say, useManner, useText } from '../bridge/texts.tsx';
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
  /** A value that came from outside while it was being typed over: typing is never lost to it. */
  readonly meanwhile: number | null;
  readonly type: (text: string) => void;
  /** What was typed, and what was wrong with it, goes; the value stands. */
  readonly putBack: () => void;
  readonly take: (text: string) => void;
  readonly stepBy: (steps: 1 | -1) => void;
};
type Box = RefObject<HTMLInputElement | null>;

/** Keeps what is typed until it can be read and fits; only then it is passed on. */
function useTyping(props: FigureProps & { readonly how: Reading }, box: Box): Typing {
  const t = useText();
  const { how, value } = props;
  const [text, setText] = useState<string | null>(null);
  const [over, setOver] = useState(value);
  const [problem, setProblem] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a value from outside, where nobody is typing, is shown
  useEffect(() => {
    if (document.activeElement !== box.current) putBack();
  }, [value]);
  function putBack(): void {
    setText(null);
    setProblem(null);
  }
  function type(typed: string): void {
    if (text === null) setOver(value);
    setText(typed);
  }
  function take(typed: string): void {
    const next = typed.trim() === '' ? null : how.read(typed);
    const unread = next === null && typed.trim() !== '';
    if (unread) setProblem(t('ui.field.number'));
    else if (next !== null && !fits(props, next)) setProblem(limitsOf(t, props));
    else {
      putBack();
      if (next !== value) props.onChange(next);
    }
  }
  function stepBy(steps: 1 | -1): void {
    const next = ((text === null ? value : how.read(text)) ?? 0) + steps * how.step;
    if (!fits(props, next)) return;
    putBack();
    props.onChange(next);
  }
  const meanwhile = text !== null && value !== over ? value : null;
  return { text, problem, meanwhile, type, putBack, take, stepBy };
}

function fits({ min, max }: FigureProps, next: number): boolean {
  return (min ?? -Infinity) <= next && (max ?? Infinity) >= next;
}

function limitsOf(t: Say, { how, min, max }: FigureProps & { readonly how: Reading }): string {
  if (min !== undefined && max !== undefined)
    return t('ui.field.between', { low: how.show(min), high: how.show(max) });
  return min !== undefined ? t('ui.field.least', { low: how.show(min) }) : t('ui.field.number');
}

function FigureField(props: FigureProps & { readonly how: Reading }): ReactNode {
  const t = useText();
  const { how, value } = props;
  const box = useRef<HTMLInputElement>(null);
  const { text, problem, meanwhile, type, putBack, take, stepBy } = useTyping(props, box);
  const note = meanwhile === null ? props.note : t('ui.field.meanwhile', { value: how.show(meanwhile) });
  function press(event: KeyboardEvent): void {
    if (props.off !== undefined) return;
    if (event.key === 'Enter' && text !== null) take(text);
    if (event.key === 'Escape' && text !== null) {
      // The first Esc is the field's, not that of the form around it.
      event.stopPropagation();
      putBack();
    }
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    event.preventDefault();
    stepBy(event.key === 'ArrowUp' ? 1 : -1);
  }
  return (
    <Field {...props} note={note} error={props.error ?? problem} unit={how.unit}>
      {({ id, describedBy }) => (
        <input
          ref={box}
          id={id}
          className={`${css['input']} ${css['numeric']}`}
          inputMode="decimal"
          autoComplete="off"
          value={text ?? (value === null ? '' : how.show(value))}
          placeholder={props.placeholder}
          readOnly={props.off !== undefined}
          aria-describedby={describedBy}
          aria-invalid={problem || props.error ? true : undefined}
          {...(problem ? { [UNREAD]: '' } : {})}
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
  props: FigureProps & {
    readonly digits?: number;
    readonly unit?: ReactNode;
    readonly step?: number;
    /** Reads more than a plain number, such as other units. */
    readonly read?: (text: string) => number | null;
  },
): ReactNode {
  const manner = useManner();
  const digits = props.digits ?? 0;
  const how: Reading = {
    show: (v) => count(manner, v, Number.isInteger(v) ? 0 : digits),
    read: props.read ?? ((text) => parseNumber(text, manner.region, digits)),
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
