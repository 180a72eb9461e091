import { type KeyboardEvent, type ReactNode, useRef } from 'react';
import { currencyDigits } from '#core/shared/money.ts';
import { count, hours, moneyPlain } from '#core/shared/text/format.ts';
import type { Manner } from '#core/shared/text/manner.ts';
import { UNREAD } from '../bridge/commands.ts';
import { useManner, useText } from '../bridge/texts.tsx';
import css from './Field.module.css';
import { Field } from './Field.tsx';
import { type FigureProps, type Reading, useFigure } from './figure.ts';
import { parseIn, parseMinor, parseMinutes, parseNumber } from './parse.ts';

function FigureField(props: FigureProps & { readonly how: Reading }): ReactNode {
  const t = useText();
  const { how, value } = props;
  const box = useRef<HTMLInputElement>(null);
  const { text, problem, meanwhile, type, putBack, take, stepBy } = useFigure(props, box);
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
          {...(problem ? { [UNREAD]: props.label } : {})}
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
  const { unit } = props;
  const read = (text: string): number | null =>
    typeof unit === 'string' && unit !== ''
      ? parseIn(text, manner.region, digits, unit)
      : parseNumber(text, manner.region, digits);
  const how: Reading = {
    show: (v) => count(manner, v, Number.isInteger(v) ? 0 : digits),
    read: props.read ?? read,
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
