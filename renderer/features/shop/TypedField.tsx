import { type ReactNode, useState } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { TextField } from '../../ui/Field.tsx';

/** A rule that is typed as text: given on when the person leaves the field, if it says something else then. */
export function TypedField(props: {
  readonly label: string;
  readonly note: string | undefined;
  readonly stored: string;
  readonly off: string | undefined;
  readonly error?: string | undefined;
  readonly onDone: (typed: string) => void;
}): ReactNode {
  const t = useText();
  const { stored } = props;
  const [typing, setTyping] = useState<{ readonly text: string; readonly over: string } | null>(null);
  function done(typed: string): void {
    if (typing === null) return;
    setTyping(null);
    if (typed.trim() !== stored) props.onDone(typed.trim());
  }
  return (
    <TextField
      label={props.label}
      note={typing && typing.over !== stored ? t('ui.field.meanwhile', { value: stored }) : props.note}
      value={typing?.text ?? stored}
      onChange={(text) => setTyping({ over: typing?.over ?? stored, text })}
      onDone={done}
      off={props.off}
      error={typing === null ? props.error : undefined}
    />
  );
}
