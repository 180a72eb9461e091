import { type ReactNode, useState } from 'react';
import { useText } from '../../bridge/texts.tsx';
import { parseWholes } from '../../ui/parse.ts';
import { TypedField } from './TypedField.tsx';

/** Whole figures one after the other: `7, 14, 30`. What can't be read is named and changes nothing. */
export function ListField(props: {
  readonly label: string;
  readonly note: string | undefined;
  readonly value: readonly number[];
  readonly off: string | undefined;
  readonly onChange: (value: readonly number[]) => void;
}): ReactNode {
  const t = useText();
  const { value, onChange, ...frame } = props;
  const [unread, setUnread] = useState<string | null>(null);
  function done(typed: string): void {
    const next = parseWholes(typed);
    setUnread(next === null ? typed : null);
    if (next !== null && next.join() !== value.join()) onChange(next);
  }
  const error = unread === null ? undefined : t('ui.field.wholes', { typed: unread });
  return <TypedField {...frame} error={error} stored={value.join(', ')} onDone={done} />;
}
