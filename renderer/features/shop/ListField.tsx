import { type ReactNode, useState } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { TextField } from '../../ui/Field.tsx';

/** Whole figures one after the other: `7, 14, 30`. */
export function ListField(props: {
  readonly label: string;
  readonly note: string | undefined;
  readonly value: readonly number[];
  readonly off: string | undefined;
  readonly onChange: (value: number[]) => void;
}): ReactNode {
  const t = useText();
  const stored = props.value.join(', ');
  const [typing, setTyping] = useState<{ readonly text: string; readonly over: string } | null>(null);
  function done(typed: string): void {
    if (typing === null) return;
    const next = typed
      .split(/[^\d]+/u)
      .filter((part) => part !== '')
      .map(Number);
    setTyping(null);
    if (next.join() !== props.value.join()) props.onChange(next);
  }
  return (
    <TextField
      label={props.label}
      note={typing && typing.over !== stored ? t('ui.field.meanwhile', { value: stored }) : props.note}
      value={typing?.text ?? stored}
      onChange={(text) => setTyping({ over: typing?.over ?? stored, text })}
      onDone={done}
      off={props.off}
    />
  );
}
