import type { ReactNode } from 'react';
import { TypedField } from './TypedField.tsx';

/** Whole figures one after the other: `7, 14, 30`. */
export function ListField(props: {
  readonly label: string;
  readonly note: string | undefined;
  readonly value: readonly number[];
  readonly off: string | undefined;
  readonly onChange: (value: number[]) => void;
}): ReactNode {
  const { value, onChange, ...frame } = props;
  function done(typed: string): void {
    const next = typed
      .split(/[^\d]+/u)
      .filter((part) => part !== '')
      .map(Number);
    if (next.join() !== value.join()) onChange(next);
  }
  return <TypedField {...frame} stored={value.join(', ')} onDone={done} />;
}
