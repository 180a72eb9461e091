import { type ReactNode, useState } from 'react';
import { TextField } from '../../ui/Field.tsx';

/** Whole figures one after the other: `7, 14, 30`. */
export function ListField(props: {
  readonly label: string;
  readonly note: string | undefined;
  readonly value: readonly number[];
  readonly off: string | undefined;
  readonly onChange: (value: number[]) => void;
}): ReactNode {
  const [text, setText] = useState(props.value.join(', '));
  function done(typed: string): void {
    const next = typed
      .split(/[^\d]+/u)
      .filter((part) => part !== '')
      .map(Number);
    if (next.join() !== props.value.join()) props.onChange(next);
  }
  return (
    <TextField
      label={props.label}
      note={props.note}
      value={text}
      onChange={setText}
      onDone={done}
      off={props.off}
    />
  );
}
