import { type ReactNode, type RefObject, useEffect, useRef, useState } from 'react';
import { type Say, useText } from '../bridge/texts.tsx';
import type { FieldFrame } from './Field.tsx';

export type FigureProps = FieldFrame & {
  readonly value: number | null;
  /** Called with a figure as it is typed, or null when the field was emptied. What cannot be read is never passed on. */
  readonly onChange: (value: number | null) => void;
  /** Each figure passed on is saved at once: it is passed on when the person leaves the field, or presses Enter or an arrow. */
  readonly saves?: boolean;
  readonly min?: number;
  readonly max?: number;
  readonly placeholder?: string;
  readonly autoFocus?: boolean;
};
export type Reading = {
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
  /** What was typed, and what was wrong with it, goes; the value is what it was before. */
  readonly putBack: () => void;
  readonly take: (text: string) => void;
  readonly stepBy: (steps: 1 | -1) => void;
};
type Box = RefObject<HTMLInputElement | null>;
type Figure = FigureProps & { readonly how: Reading };

/** Keeps what is typed as it is typed; only what can be read and fits is passed on. */
export function useFigure(props: Figure, box: Box): Typing {
  const t = useText();
  const { how, value } = props;
  const [text, setText] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const before = useRef(value);
  const over = useOwn(value);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a value from outside, where nobody is typing, is shown
  useEffect(() => {
    if (document.activeElement !== box.current) settle();
  }, [value]);
  function settle(): void {
    setText(null);
    setProblem(null);
  }
  function pass(next: number | null): void {
    over.passes();
    if (next !== value) props.onChange(next);
  }
  function type(typed: string): void {
    if (text === null) {
      before.current = value;
      over.begins();
    }
    setText(typed);
    const read = readOf(props, typed);
    if (read === undefined || !fits(props, read)) return;
    setProblem(null);
    if (!props.saves) pass(read);
  }
  function putBack(): void {
    settle();
    if (!props.saves && text !== null) pass(before.current);
  }
  function take(typed: string): void {
    const next = readOf(props, typed);
    if (next === undefined) setProblem(t('ui.field.number'));
    else if (!fits(props, next)) setProblem(limitsOf(t, props));
    else {
      settle();
      pass(next);
    }
  }
  function stepBy(steps: 1 | -1): void {
    const next = ((text === null ? value : how.read(text)) ?? 0) + steps * how.step;
    if (!fits(props, next)) return;
    settle();
    props.onChange(next);
  }
  const meanwhile = text !== null && value !== over.value ? value : null;
  return { text, problem, meanwhile, type, putBack, take, stepBy };
}

/** The value that is typed over: as it was when typing began, or as what was passed on since made it. */
function useOwn(value: number | null) {
  const known = useRef(value);
  const passed = useRef(false);
  if (passed.current) known.current = value;
  passed.current = false;
  return {
    value: known.current,
    begins: () => {
      known.current = value;
    },
    passes: () => {
      passed.current = true;
    },
  };
}

/** What the text says; null where it says nothing, undefined where it is no figure. */
function readOf({ how }: Figure, text: string): number | null | undefined {
  return text.trim() === '' ? null : (how.read(text) ?? undefined);
}

function fits({ min, max }: FigureProps, next: number | null): boolean {
  return next === null || ((min ?? -Infinity) <= next && (max ?? Infinity) >= next);
}

function limitsOf(t: Say, { how, min, max }: Figure): string {
  if (min !== undefined && max !== undefined)
    return t('ui.field.between', { low: how.show(min), high: how.show(max) });
  return min !== undefined ? t('ui.field.least', { low: how.show(min) }) : t('ui.field.number');
}
